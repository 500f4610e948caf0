using System.Collections.Immutable;
using Tightcold.Diagnosis.Leaks;

namespace Tightcold.Diagnosis.Tightness;

/// <summary>One belief about leaks from everything that is known; docs/physics/tightness.md.</summary>
public static class TightnessInference
{
    /// <summary>Lines of the verdict.</summary>
    public const double ProvenFrom = 0.90,
        LikelyFrom = 0.70;

    /// <summary>"Proven" wants that the tests since the last change divided the odds against by this much.</summary>
    public const double DividesForProven = 2.5;

    /// <summary>Below this the tests have hardly touched the doubt.</summary>
    public const double DividesForLikely = 1.6;

    private const int PicturesFull = 1600,
        PicturesGlance = 400;

    /// <param name="before">The belief of a moment ago: what of its evidence is still the same is not weighed again. The
    /// answer does not depend on it.</param>
    /// <exception cref="ArgumentException">A figure is outside what is allowed: the sentence names it.</exception>
    public static TightnessBelief Of(TightnessEvidence evidence, TightnessBelief? before = null)
    {
        EvidenceRules.Check(evidence);
        var tables = TestTables.Of(evidence, before?.Work.Tables);
        var lastMended = Latest(evidence.Spots.Select(spot => spot.MendedAt));
        var lastChange = Math.Max(
            Latest(evidence.Openings.Select(opening => (double?)opening.Time)),
            Latest(
                evidence.Spots.Select(spot =>
                    TightnessJudge.LeakedBeforeRepair(spot, evidence.Setting) ? spot.MendedAt : null
                )
            )
        );
        var glance = evidence.Question.Effort == TightnessEffort.Glance;
        var nothing = NothingLeaks(evidence, tables.Losses.Length > 0);
        var models = SpotModels.Of(evidence, double.PositiveInfinity);
        var sampler = new TightnessSampler(models, tables.Tests, evidence.Size, evidence.Question, nothing);
        var (sums, pictures) =
            before is { Work.Sampler: { } drawn } && drawn.AsksTheSame(sampler)
                ? (before.Sums, before.Pictures)
                : sampler.Run(glance ? PicturesGlance : PicturesFull);
        var then = new TightnessSampler(
            SpotModels.Of(evidence, lastChange),
            tables.Until(lastChange),
            evidence.Size,
            evidence.Question,
            nothing
        );
        // Without a change, before the first test.
        var earlier =
            before is { Work.Earlier: { } known } && known.AsksTheSame(then) ? before.Work.EarlierSums
            : then.AsksTheSame(sampler) ? sums
            : then.Run(0).Sums;
        var readings = tables.Readings(evidence, lastChange);
        var failed = TightnessJudge.Unanswered(readings, evidence, lastMended);
        var found = TightnessJudge.FoundNotMended(evidence);
        var divided = Against(earlier.Cools / earlier.Weight) / Against(sums.Cools / sums.Weight);
        var unlimited = sums.Cools / sums.Weight;
        var anyFailed = !failed.IsEmpty || found is not null;
        var hoses = Array.FindIndex(models, model => model.Role == SpotRole.HoseSet);
        var hosesLeak = hoses < 0 ? 0 : sums.LeaksNow[hoses] / sums.Weight;
        double? failedRate = failed.IsEmpty ? null : failed.Max(i => readings[i].RateKgPerS.P50);
        // Hoses that failed alone are a fact; that they might be the reason is no more than odds.
        var hosesShown = readings.Any(reading =>
            reading.Failed && reading.Kind == TightnessTestKind.VacuumHold && evidence.Holds[reading.Index].HosesAlone
        );
        var told = TightnessJudge.Limited(
            unlimited,
            failedRate,
            evidence.Question.LineKgPerS,
            hosesShown,
            found is not null,
            divided
        );
        var verdict = TightnessJudge.Verdict(told, !failed.IsEmpty && !hosesShown, anyFailed, divided);
        var spots = Spots(evidence, models, sums);
        var reassembly = Array.FindIndex(models, model => model.Role == SpotRole.Reassembly);
        var (doubt, spot) = TightnessJudge.Largest(
            spots,
            reassembly < 0 ? 0 : sums.TooMuch[reassembly] / sums.Weight,
            verdict,
            !failed.IsEmpty,
            found
        );
        return new(evidence, models, pictures!, sums, new(tables, sampler, then, earlier, before?.Work.Floors ?? new()))
        {
            StillCools = told,
            StillCoolsUnlimited = unlimited,
            Verdict = verdict,
            Doubt = doubt,
            DoubtSpot = spot,
            DoubtDividedBy = divided,
            Before = TotalGrid.Quantiles(sums.TotalBefore),
            Now = TotalGrid.Quantiles(sums.TotalNow),
            LeaksNow = TotalGrid.Quantiles(sums.HolesNow, sums.NoHoles),
            AnotherRemains = Math.Clamp(sums.AnotherRemains / sums.Weight, 0, 1),
            ExplainedByFound = LeakQuantiles.Of(sums.Explained.Select((weight, i) => (i / 100.0, weight))),
            Spots = spots,
            HosesLeak = hosesLeak,
            ReassemblyLeaks = reassembly < 0 ? 0 : sums.LeaksNow[reassembly] / sums.Weight,
            Tests = readings,
            Unanswered = failed,
            Blind = Blind(evidence),
            Dry = DrynessInference.Of(evidence, tables),
        };
    }

    private static ImmutableArray<SpotTightness> Spots(
        TightnessEvidence evidence,
        SpotModel[] models,
        TightnessSums sums
    ) =>
        [
            .. models
                .Take(evidence.Spots.Length + 1)
                .Select(
                    (model, j) =>
                        new SpotTightness(
                            model.Spot,
                            Math.Clamp(sums.LeaksNow[j] / sums.Weight, 0, 1),
                            Math.Clamp(sums.LeaksBefore[j] / sums.Weight, 0, 1),
                            LeakQuantiles.Of(
                                Enumerable
                                    .Range(0, RateGrid.Count)
                                    .Select(r => (RateGrid.Values[r], sums.Rates[j * RateGrid.Count + r]))
                            ),
                            Math.Clamp(sums.TooMuch[j] / sums.Weight, 0, 1),
                            model.OpenedOnce
                        )
                ),
        ];

    private static ImmutableArray<BlindCheck> Blind(TightnessEvidence evidence)
    {
        var blind = ImmutableArray.CreateBuilder<BlindCheck>();
        foreach (var spot in evidence.Spots)
        {
            foreach (var test in spot.Tests)
                Add(spot, test, false);
            foreach (var search in evidence.Searches)
                if (!search.NotReached.Contains(spot.Name, StringComparer.OrdinalIgnoreCase))
                    Add(spot, SpotModels.AtSpot(search), true);
        }
        return blind.ToImmutable();

        void Add(LeakSpot spot, in LeakTest test, bool search)
        {
            if (!SpotModel.Counts(test, spot.Component, evidence.Setting))
                blind.Add(
                    new(spot.Name, test, LeakDetection.Blindness(test, spot.Component, evidence.Setting), search)
                );
        }
    }

    private static double Against(double odds) => Math.Max(1 - odds, 1e-9) / Math.Max(odds, 1e-9);

    private static double Latest(IEnumerable<double?> times) =>
        times.Where(time => time is not null).Select(time => time!.Value).DefaultIfEmpty(double.NegativeInfinity).Max();

    /// <summary>Nobody searches a car without a reason: one that came because it lost leaks, but for a few that only
    /// seeped for years or were never full. Assumed.</summary>
    private static double NothingLeaks(TightnessEvidence evidence, bool lossKnown) =>
        evidence.Came switch
        {
            WhyItCame.ItLost => 0.05,
            WhyItCame.CheckUp => 1,
            _ => lossKnown ? 0.5 : 0.8,
        };
}
