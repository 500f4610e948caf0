using Tightcold.Diagnosis.Tightness;
using Tightcold.Jobs.Entries;
using Tightcold.Jobs.Journals;

namespace Tightcold.Picture.Tight;

/// <summary>Tests that somebody struck out. They count no more; that one of them had failed is still said beside the
/// verdict, for a proof without the test that spoke against it is no proof.</summary>
internal static class StruckTests
{
    /// <summary>Whether a test of the circuit as it is had failed and was struck.</summary>
    public static bool AnyFailed(JobPicture picture)
    {
        var journal = picture.Record.Journal;
        bool Strikes(Entry entry) =>
            entry is { Kind: EntryKinds.Struck, Supersedes: { } struck }
            && !journal.IsStruck(entry.Id)
            && journal.Find(struck)?.Kind is EntryKinds.PressureTest or EntryKinds.VacuumReading;
        if (!journal.All.Any(Strikes))
            return false;
        var (restored, _) = Journal.Create(journal.All.Where(entry => !Strikes(entry)));
        return restored is not null
            && Failed(
                new JobPicture(picture.Record with { Journal = restored }, tightness: TightnessEffort.Glance)
                    .Tight
                    .Belief
            )
            && !Failed(picture.Tight.Belief);
    }

    private static bool Failed(TightnessBelief belief) => belief.Tests.Any(test => test.Failed && test.SinceLastChange);
}
