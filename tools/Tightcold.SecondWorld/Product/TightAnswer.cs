using Tightcold.Findings;
using Tightcold.Jobs.Entries;
using Tightcold.Jobs.Journals;
using Tightcold.Picture;
using Tightcold.Picture.Tight;

namespace Tightcold.SecondWorld.Product;

/// <summary>What the product says of a hold or a nitrogen test. Rates in g/yr of refrigerant.</summary>
internal sealed record TightAnswer
{
    private const double GramPerYear = 1e-3 / (365.25 * 86400);

    public required Judgement Judgement { get; init; }

    /// <summary>Called proven or tight: a good judgement of the step.</summary>
    public bool Good => Judgement == Judgement.Good;

    /// <summary>Called leaking or wet: a bad judgement.</summary>
    public bool Bad => Judgement == Judgement.Bad;

    /// <summary>The verdict says that it leaks (and not only that it is wet).</summary>
    public required bool CalledLeaking { get; init; }
    public required bool CalledWet { get; init; }

    /// <summary>The 90 % interval of the car's leak rate, where the step states one.</summary>
    public required (double Low, double High)? Rate { get; init; }

    /// <summary>The same as the leak belief of the whole job states it.</summary>
    public required (double Low, double High)? WholeJobRate { get; init; }
    public required string Verdict { get; init; }

    public static TightAnswer Of(JobRecord record)
    {
        var picture = new JobPicture(record);
        var finding = Walk.Of(Step.Hold, picture);
        var verdict = finding.Verdict.ToString();
        var belief = picture.Tight.Belief;
        return new()
        {
            Judgement = finding.Judgement,
            CalledLeaking = picture.Tight.Outcome == TightOutcome.Leaks,
            CalledWet =
                finding.Judgement == Judgement.Bad && verdict.Contains("dry", StringComparison.OrdinalIgnoreCase),
            Rate = picture.Tight.LastTest is { } test
                ? (test.RateKgPerS.P05 / GramPerYear, test.RateKgPerS.P95 / GramPerYear)
                : null,
            WholeJobRate = (belief.Now.P05 / GramPerYear, belief.Now.P95 / GramPerYear),
            Verdict = verdict,
        };
    }
}
