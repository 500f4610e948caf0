using Tightcold.Diagnosis.Leaks;

namespace Tightcold.Picture.Tight;

/// <summary>Where the first proof stands.</summary>
public enum TightOutcome
{
    /// <summary>No test of the whole circuit yet.</summary>
    NotTested,

    /// <summary>A test showed a leak, or a found one is not mended.</summary>
    Leaks,

    /// <summary>Tested, and the odds lie below the lower line.</summary>
    NotShown,

    /// <summary>Between the two lines.</summary>
    Likely,
    Proven,
}

/// <summary>The first proof as one number: the odds that the car still cools when the time that its driver wants is over,
/// given everything in the journal.</summary>
public sealed record TightPicture(TightOutcome Outcome, double Odds)
{
    /// <summary>The lines that the page states.</summary>
    public const double ProvenFrom = 0.90, LikelyFrom = 0.70;

    /// <summary>Two summers.</summary>
    public const double HorizonSeconds = 2 * LeakForecast.Year;

    public static TightPicture Of(JobPicture picture)
    {
        ArgumentNullException.ThrowIfNull(picture);
        var leaks = picture.Leaks;
        var room = Math.Max(0, leaks.ChargeKg - leaks.SufferingKg);
        var odds = leaks.Belief.RemainingSamples.Where(sample => sample.KgPerS * LossObservation.YearDuty * HorizonSeconds < room)
            .Sum(sample => sample.Weight);
        return new(Judge(picture, odds), odds);
    }

    private static TightOutcome Judge(JobPicture picture, double odds)
    {
        if (picture.Nitrogen is { Falls: true, AfterRepairs: true } || picture.Leaks.States.Any(state => state.Leaking)) return TightOutcome.Leaks;
        if (picture.Hold is { Odds: { Fits: true, LeakSeen: >= 0.9 } }) return TightOutcome.Leaks;
        if (picture.Hold is null && picture.Nitrogen is null) return TightOutcome.NotTested;
        return odds >= ProvenFrom ? TightOutcome.Proven : odds >= LikelyFrom ? TightOutcome.Likely : TightOutcome.NotShown;
    }
}
