using System.Collections.Immutable;
using Tightcold.Jobs.Fields;
using Tightcold.Jobs.Kits;
using Tightcold.Quantities;

namespace Tightcold.Pages.Forms;

/// <summary>Which fields of a form stand in the open, and which are folded away under a heading until somebody has
/// measured them, as the fields themselves say. A schema that says nothing stands open whole; what stands neither in
/// the open nor under a heading goes into the last fold.</summary>
public static class FormLayout
{
    public sealed record Group([Said] string? Heading, ImmutableArray<FieldSpec> Fields);

    private const string Rest = "More, if you have it";

    /// <param name="schema">Of the form.</param>
    /// <param name="kit">What the person reads with; null where that does not matter.</param>
    public static ImmutableArray<Group> Of(Schema schema, Kit? kit = null)
    {
        ArgumentNullException.ThrowIfNull(schema);
        if (!schema.Asked.Any(field => field.InTheOpen))
            return [new(null, schema.Asked)];
        // What must be filled is never folded away.
        var open = schema.Asked.Where(field => field.IsOpen(kit?.Fields) || field.Required).ToImmutableArray();
        var folded = schema
            .Asked.Except(open)
            .GroupBy(field => field.Heading)
            .OrderBy(group => group.Key is null)
            .Select(group => new Group(group.Key ?? Rest, [.. group]));
        return [new(null, open), .. folded];
    }
}
