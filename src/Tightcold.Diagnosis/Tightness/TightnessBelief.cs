using System.Collections.Immutable;
using Tightcold.Diagnosis.Leaks;
using Tightcold.Quantities;

namespace Tightcold.Diagnosis.Tightness;

/// <summary>Everything that the evidence says about leaks and water, worked out once.</summary>
public sealed class TightnessBelief
{
    private readonly TightnessSums sums;

    internal TightnessBelief(
        TightnessEvidence evidence,
        SpotModel[] models,
        Pictures pictures,
        TightnessSums sums,
        TightnessWork work
    )
    {
        this.sums = sums;
        Work = work;
        Evidence = evidence;
        Models = models;
        Pictures = pictures;
    }

    public TightnessEvidence Evidence { get; }
    internal SpotModel[] Models { get; }
    internal Pictures Pictures { get; }
    internal TightnessSums Sums => sums;

    /// <summary>What the next belief need not do again.</summary>
    internal TightnessWork Work { get; }

    /// <summary>The proven-tight number: odds that the car still cools after the time that was asked for. What no test
    /// could have seen keeps it down: 0.89 at most where the tests since the last change have not divided the doubt by
    /// <see cref="TightnessInference.DividesForProven"/>, 0.69 where they have hardly touched it.</summary>
    public required double StillCools { get; init; }

    /// <summary>The same before those limits: for studies, not for a person.</summary>
    public required double StillCoolsUnlimited { get; init; }
    public required TightnessVerdict Verdict { get; init; }
    public required TightnessDoubt Doubt { get; init; }

    /// <summary>The spot that the doubt names, or null.</summary>
    [Said]
    public required string? DoubtSpot { get; init; }

    /// <summary>By how much the tests since the last repair or opening have divided the odds against; 1 without
    /// tests.</summary>
    public required double DoubtDividedBy { get; init; }

    /// <summary>Rate at rest above which it will not cool that long, kg/s.</summary>
    public double LineKgPerS => Evidence.Question.LineKgPerS;

    /// <summary>Rate of the car at rest before any repair and now, kg/s; P05 to P95 is the 90 % interval.</summary>
    public required LeakQuantiles Before { get; init; }
    public required LeakQuantiles Now { get; init; }

    /// <summary>Rate of the leaks alone now, what every sound car seeps left out; 0 where there is none.</summary>
    public required LeakQuantiles LeaksNow { get; init; }

    /// <summary>Odds that a place leaks now which nobody has called found.</summary>
    public required double AnotherRemains { get; init; }

    /// <summary>Share of the rate before repairs that the found and mended places explain.</summary>
    public required LeakQuantiles ExplainedByFound { get; init; }

    /// <summary>Listed spots in their order, and last the place not on the map.</summary>
    public required ImmutableArray<SpotTightness> Spots { get; init; }

    /// <summary>Odds that hoses or gauge set leak: that speaks of the tests, not of the car.</summary>
    public required double HosesLeak { get; init; }

    /// <summary>Odds that what was undone and closed again leaks.</summary>
    public required double ReassemblyLeaks { get; init; }

    /// <summary>Each hold and pressure test by itself.</summary>
    public required ImmutableArray<TestReading> Tests { get; init; }

    /// <summary>Tests of the whole circuit that failed and stand unanswered by a repair, as places in <see
    /// cref="Tests"/>.</summary>
    public required ImmutableArray<int> Unanswered { get; init; }

    /// <summary>Checks that could not have seen anything, and why.</summary>
    public required ImmutableArray<BlindCheck> Blind { get; init; }
    public required DrynessBelief Dry { get; init; }

    /// <summary>Tests that would lift the odds, best first per minute of work; empty without means.</summary>
    public ImmutableArray<TightnessProposal> Next => next ??= TightnessNext.Rank(this, Evidence.Means);

    private ImmutableArray<TightnessProposal>? next;

    /// <summary>The same with other means than the kit's: what would help, had one the tool.</summary>
    public ImmutableArray<TightnessProposal> NextWith(TightnessMeans means) => TightnessNext.Rank(this, means);

    /// <summary>Belief over the rate grid at one spot as it is now, leaking and seeping: for the worth of a
    /// check.</summary>
    internal (double[] Leaking, double[] Seeping) RateBelief(int spot)
    {
        double[] leaking = new double[RateGrid.Count],
            seeping = new double[RateGrid.Count];
        var model = Models[spot];
        double rates = 0,
            leaks = sums.LeaksNow[spot] / sums.Weight;
        for (var r = 0; r < RateGrid.Count; r++)
            rates += sums.Rates[spot * RateGrid.Count + r];
        for (var r = 0; r < RateGrid.Count; r++)
        {
            leaking[r] = rates > 0 ? leaks * sums.Rates[spot * RateGrid.Count + r] / rates : 0;
            var seep = model.SeepCumulative[r] - (r > 0 ? model.SeepCumulative[r - 1] : 0);
            seeping[r] = (1 - leaks) * seep / model.SeepMass;
        }
        return (leaking, seeping);
    }

    /// <summary>Odds that a place leaks now besides these names and besides what is called found.</summary>
    public double RemainsBesides(IReadOnlyCollection<string> known)
    {
        var remains = 0;
        for (var i = 0; i < Pictures.Count; i++)
        for (var j = 0; j < Models.Length; j++)
        {
            var spot = Models[j].Spot;
            if (!Pictures.LeaksNow[i * Models.Length + j] || Models[j].Role == SpotRole.HoseSet)
                continue;
            if (spot.Found && spot.MendedAt is null || known.Contains(spot.Name, StringComparer.OrdinalIgnoreCase))
                continue;
            remains++;
            break;
        }
        return (double)remains / Pictures.Count;
    }

    /// <summary>Weighted totals as they are now, kg/s at rest: for forecasts and costs.</summary>
    public IEnumerable<(double KgPerS, double Weight)> NowSamples =>
        Pictures.TotalNow.Select(total => (total, 1.0 / Pictures.Count));

    /// <summary>Weighted totals if these spots were mended as well as such repairs go, kg/s.</summary>
    public IEnumerable<(double KgPerS, double Weight)> SamplesAfterMending(IReadOnlyCollection<string> names)
    {
        for (var i = 0; i < Pictures.Count; i++)
        {
            var total = 0.0;
            for (var j = 0; j < Models.Length; j++)
            {
                if (Models[j].Role == SpotRole.HoseSet)
                    continue;
                var index = i * Models.Length + j;
                var mended = names.Contains(Models[j].Spot.Name, StringComparer.OrdinalIgnoreCase);
                // A repair that fails leaves the leak as it was; one in how many is the kind's habit.
                var holds =
                    mended
                    && Pictures.LeaksNow[index]
                    && (i * 7919 + j * 104729) % 1000 >= 1000 * Models[j].Prior.RepairFails;
                total += holds ? Models[j].Prior.SeepKgPerS : Pictures.Now[index];
            }
            yield return (total, 1.0 / Pictures.Count);
        }
    }
}
