using System.Collections.Immutable;
using Tightcold.App.Expectation;
using Tightcold.App.Units;
using Tightcold.Jobs.Fields;
using Tightcold.Jobs.Kits;
using Tightcold.Quantities;
using Tightcold.Tongues;

namespace Tightcold.Pages.Forms;

/// <summary>A form made from a schema: what is typed, what was refused, and what to show as a ghost.</summary>
public sealed record FormSheet(Schema Schema, Typed Typed, UnitSystem System)
{
    public ImmutableArray<InputProblem> Problems { get; init; } = [];

    /// <summary>The last value of a field, as typed then; or what is assumed without one.</summary>
    public IReadOnlyDictionary<string, string> Ghosts { get; init; } = ImmutableDictionary<string, string>.Empty;

    /// <summary>What a ghost is: the last time, or assumed.</summary>
    [Said]
    public string GhostWord { get; init; } = "Last time";

    /// <summary>What to expect in a field today, from a model.</summary>
    public IReadOnlyDictionary<string, EntryExpectation.Range> Expected { get; init; } =
        ImmutableDictionary<string, EntryExpectation.Range>.Empty;

    /// <summary>The last value of a field in SI, to be drawn beside what is expected.</summary>
    public IReadOnlyDictionary<string, double?> LastSi { get; init; } = ImmutableDictionary<string, double?>.Empty;

    /// <summary>Fields that were filled in beforehand from what was written lately; each says so below its
    /// box.</summary>
    public IReadOnlyDictionary<string, string> CarriedOver { get; init; } = ImmutableDictionary<string, string>.Empty;

    /// <summary>The one field that a person came here to fill; it has the keyboard at once.</summary>
    public string? First { get; init; }

    /// <summary>Fewer words of a choice than the schema allows, where only these can be meant.</summary>
    public IReadOnlyDictionary<string, IReadOnlyList<string>> Offered { get; init; } =
        ImmutableDictionary<string, IReadOnlyList<string>>.Empty;

    public IReadOnlyList<string> Spots { get; init; } = [];
    public IReadOnlyList<string> Containers { get; init; } = [];

    /// <summary>Instruments at hand; they decide which field comes first.</summary>
    public Kit? Kit { get; init; }

    /// <summary>Words that a text field is usually filled with, to be tapped.</summary>
    public IReadOnlyDictionary<string, ImmutableArray<string>> Suggested { get; init; } =
        ImmutableDictionary<string, ImmutableArray<string>>.Empty;

    public ImmutableArray<FormLayout.Group> Groups => FormLayout.Of(Schema, Kit);

    public IEnumerable<InputProblem> ProblemsOf(string field) => Problems.Where(problem => FieldOf(problem) == field);

    /// <summary>Problems of no field in sight: the clock, the correction.</summary>
    public IEnumerable<InputProblem> OtherProblems => Problems.Where(problem => Schema.Find(FieldOf(problem)) is null);

    /// <summary>The number that shines through an empty box, or null.</summary>
    public string? Ghost(FieldSpec field) =>
        Ghosts.TryGetValue(field.Name, out var last) ? Forms.Typed.Split(field, last).Number : null;

    /// <summary>The same with its unit and what it is, for the line below the box.</summary>
    public string? GhostHint(FieldSpec field) =>
        Ghosts.TryGetValue(field.Name, out var last) ? $"{Say.It(GhostWord)}: {last}" : null;

    /// <summary>What stands in the number box, and the chosen unit: the typed one, else the ghost's, else the reader's
    /// usual.</summary>
    public (string Number, string Unit) Amount(FieldSpec field, FieldType.Quantity type)
    {
        var ghost = Ghosts.TryGetValue(field.Name, out var last) ? Forms.Typed.Split(field, last).Unit : null;
        return (
            Typed.Number(field.Name),
            Typed.Unit(field.Name) ?? ghost ?? UnitOptions.Of(field, type, System).FirstOrDefault().Value ?? ""
        );
    }

    /// <summary>One sentence beside the field.</summary>
    public static Phrase Sentence(InputProblem problem) =>
        problem.Value.Length == 0
            ? Phrase.Of($"Missing: {problem.Allowed}.")
            : Phrase.Of($"“{problem.Given}” is not taken: {problem.Allowed}.");

    /// <summary>A container's problems name the container in front of the field.</summary>
    private static string FieldOf(InputProblem problem) => problem.Field[(problem.Field.LastIndexOf(' ') + 1)..];
}
