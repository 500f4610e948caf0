using System.Collections.Immutable;
using Tightcold.Jobs.Fields;
using Tightcold.Jobs.Journals;

namespace Tightcold.Pages.Forms;

/// <summary>Words that a text field is usually filled with, so that a gloved finger taps instead of typing; anything
/// else can be typed. Shown in the reader's language and kept as the field has them, so that they are known again in any.
/// What this job said before comes first.</summary>
internal static class Suggestions
{
    private const int Most = 6;

    public static ImmutableDictionary<string, ImmutableArray<string>> Of(JobRecord record, Schema schema)
    {
        var words = ImmutableDictionary.CreateBuilder<string, ImmutableArray<string>>();
        foreach (var field in schema.Fields)
            if (!field.Suggestions.IsEmpty)
                words[field.Name] =
                [
                    .. record
                        .Journal.OfKind(schema.Name)
                        .Select(entry => entry.Fields.Text(field.Name))
                        .OfType<string>()
                        .Reverse()
                        .Concat(field.Suggestions)
                        .Distinct(StringComparer.OrdinalIgnoreCase)
                        .Take(Most),
                ];
        return words.ToImmutable();
    }
}
