using Tightcold.Diagnosis.Leaks;
using Tightcold.Diagnosis.Tightness;

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

/// <summary>The first proof as one number: the odds that the car still cools when the time that its driver wants is
/// over, given everything in the journal.</summary>
/// <param name="Belief">All that is believed of leaks and water.</param>
public sealed record TightPicture(TightnessBelief Belief)
{
    /// <summary>The lines that the page states.</summary>
    public const double ProvenFrom = TightnessInference.ProvenFrom,
        LikelyFrom = TightnessInference.LikelyFrom;

    public double Odds => Belief.StillCools;

    /// <summary>Odds that less water than what counts as dry is left.</summary>
    public double Dry => Belief.Dry.Dry;

    /// <summary>How long it is to cool, years.</summary>
    public double Years => Belief.Evidence.Question.HorizonSeconds / LeakForecast.Year;

    /// <summary>The last hold or pressure test that speaks of the circuit as it is; null without one.</summary>
    public TestReading? LastTest => Belief.Tests.LastOrDefault(test => test.SinceLastChange);

    public TightOutcome Outcome { get; } = Judge(Belief);

    private static TightOutcome Judge(TightnessBelief belief)
    {
        if (belief.Verdict == TightnessVerdict.Leaking || belief.Doubt == TightnessDoubt.FoundNotMended)
            return TightOutcome.Leaks;
        if (!belief.Tests.Any(test => test.SinceLastChange))
            return TightOutcome.NotTested;
        return belief.Verdict switch
        {
            TightnessVerdict.Proven => TightOutcome.Proven,
            TightnessVerdict.Likely => TightOutcome.Likely,
            _ => TightOutcome.NotShown,
        };
    }
}
