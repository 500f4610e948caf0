using Tightcold.App.Desk;
using Tightcold.Jobs.Entries;
using Tightcold.Jobs.Journals;
using Tightcold.Quantities;
using Tightcold.Pages.Forms;

namespace Tightcold.Pages.Shown;

/// <summary>The form of a new entry or of a correction.</summary>
/// <param name="Id">Made when the form is made, so that sending it twice adds nothing twice.</param>
/// <param name="Corrects">The entry that this one replaces, or null.</param>
/// <param name="When">Local date and time as the browser's field has them; blank means now.</param>
public sealed record EntryFormModel(
    JobRecord Record,
    FormSheet Sheet,
    Guid Id,
    Entry? Corrects,
    string When,
    string Who,
    string Reason
)
{
    /// <summary>The job, for a new entry: what was just written, and what is to be done now; null for a
    /// correction.</summary>
    public JobModel? Job { get; init; }

    /// <summary>Unlikely values that are asked about, once.</summary>
    public IReadOnlyList<Unlikely.Doubt> Doubts { get; init; } = [];

    /// <summary>What is asked back once because of what is in the circuit; or null.</summary>
    public Phrase? Asked { get; init; }

    /// <summary>What a person says yes to: these very values, so that other ones are asked about again.</summary>
    public string Really => Key(Doubts, Asked);

    public static string Key(IEnumerable<Unlikely.Doubt> doubts, Phrase? asked) =>
        string.Join(
            "; ",
            [
                .. doubts.Select(doubt => $"{doubt.Field.Name} {doubt.AsTyped}"),
                .. asked is null ? [] : new[] { asked.ToString() },
            ]
        );
}
