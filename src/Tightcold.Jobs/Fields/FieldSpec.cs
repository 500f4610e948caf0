using System.Collections.Immutable;
using Tightcold.Quantities;

namespace Tightcold.Jobs.Fields;

/// <summary>One field of an entry, a car, a kit or a container: what may stand in it, what usually does, and how a form
/// shows it.</summary>
/// <param name="Name">The name in files and on the command line, kebab-case, stable; see <see
/// cref="FieldNames"/>.</param>
/// <param name="Label">What a person reads.</param>
/// <param name="Type">What may stand in it.</param>
/// <param name="Required">Refused when missing.</param>
/// <param name="Hint">A few words below the field, or null.</param>
public sealed record FieldSpec(
    string Name,
    [Said] string Label,
    FieldType Type,
    bool Required = false,
    [Said] string? Hint = null
)
{
    private const double Zero = 273.15,
        Bar = 1e5;

    /// <summary>Nothing is made of it: old jobs keep what they hold, no form asks for it any more.</summary>
    public bool Retired { get; init; }

    /// <summary>From which to which it usually lies, in SI; outside a screen asks once whether it is meant, and
    /// nothing is refused. Common practice for R-134a and R-1234yf in cars.</summary>
    public (double LowSi, double HighSi)? Usual { get; init; }

    /// <summary>Hardly changes between two readings, so that the last stands in a new form already. Never what was seen
    /// anew.</summary>
    public bool CarriedOver { get; init; }

    /// <summary>Words that a text is usually filled with; anything else can be typed.</summary>
    [Said]
    public ImmutableArray<string> Suggestions { get; init; } = [];

    /// <summary>Stands in the open at once.</summary>
    public bool InTheOpen { get; init; }

    /// <summary>Folded away under this; null with what is folded last.</summary>
    [Said]
    public string? Heading { get; init; }

    /// <summary>Whether a kit of these fields lets it stand in the open; null for no kit.</summary>
    private Func<FieldBag?, bool>? Wants { get; init; }

    public bool IsOpen(FieldBag? kit) => InTheOpen && (Wants?.Invoke(kit) ?? true);

    /// <summary>What a person reads for a stored text of this field, in any language: the label of a choice is a message
    /// that stands at the field’s name, a usual spot and a word that the form offered are messages too; everything else
    /// stays as it was written.</summary>
    public Phrase Says(string stored) =>
        Type switch
        {
            FieldType.Choice choice => Phrase.Words(choice.LabelOf(stored), Name),
            FieldType.Spot => Phrase.Words(stored, null),
            FieldType.Spots => Phrase.Join(", ", FieldType.Spots.Of(stored).Select(Phrase.Words)),
            FieldType.Text when Suggestions.Contains(stored) => Phrase.Words(stored, null),
            _ => Phrase.Verbatim(stored),
        };

    /// <summary>The same in English, for machines.</summary>
    public string Reads(string stored) => Type is FieldType.Choice choice ? choice.LabelOf(stored) : stored;

    public FieldSpec OpenWhere(Func<FieldBag?, bool> wants) => this with { Wants = wants };

    public FieldSpec Usually(double lowSi, double highSi) => this with { Usual = (lowSi, highSi) };

    public FieldSpec UsuallyCelsius(double low, double high) => Usually(Zero + low, Zero + high);

    public FieldSpec UsuallyBar(double low, double high) => Usually(low * Bar, high * Bar);

    public FieldSpec Kept() => this with { CarriedOver = true };

    public FieldSpec Suggests([Said] params string[] words) => this with { Suggestions = [.. words] };
}
