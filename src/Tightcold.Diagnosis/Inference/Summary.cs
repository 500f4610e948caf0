using System.Collections.Immutable;
using Tightcold.Diagnosis.Measurement;

namespace Tightcold.Diagnosis.Inference;

/// <summary>From weighted cars to what a person is told.</summary>
internal static class Summary
{
    private const double WorthReasons = 0.02;

    public static FaultOdds Of(
        Posterior posterior,
        ImmutableArray<Contradiction> contradictions,
        Func<double, double, bool> uncertain
    )
    {
        var runs = posterior.Runs;
        var healthy = runs.Select((run, h) => (run, h)).First(pair => pair.run.Hypothesis.IsNothingWrong).h;
        var beliefs = new List<Belief>();
        var alone = posterior.OddsWithoutHistory();
        for (var h = 0; h < runs.Count; h++)
        {
            var hypothesis = runs[h].Hypothesis;
            beliefs.Add(
                new(
                    hypothesis,
                    posterior.Odds[h],
                    posterior.OddsErrors[h],
                    hypothesis.IsNoneOfThese ? double.PositiveInfinity : runs[h].Particles.Effective
                )
                {
                    OddsWithoutHistory = alone[h],
                    Severities =
                    [
                        .. Enumerable
                            .Range(0, hypothesis.Faults.Length)
                            .Select(place => Interval.Of(posterior.Severities(h, place))),
                    ],
                    ChargeShare = hypothesis.IsNoneOfThese ? default : Interval.Of(posterior.ChargeShares(h)),
                    Reasons =
                        posterior.Odds[h] >= WorthReasons && !hypothesis.IsNoneOfThese
                            ? Reasons.Of(posterior, h, healthy)
                            : [],
                    SignReasons =
                        posterior.Odds[h] >= WorthReasons && !hypothesis.IsNoneOfThese
                            ? Reasons.OfSigns(posterior, h)
                            : [],
                }
            );
        }

        var label = posterior.Simulator.LabelKg;
        var charge = Interval.Of(posterior.ChargeShares());
        var best = Enumerable
            .Range(0, runs.Count)
            .Where(h => !runs[h].Hypothesis.IsNoneOfThese)
            .MaxBy(h => posterior.Odds[h]);
        return new FaultOdds(posterior)
        {
            Beliefs = [.. beliefs.OrderByDescending(belief => belief.Odds)],
            ChargeKg = new(charge.Low * label, charge.Median * label, charge.High * label),
            LabelKg = label,
            ChargeShareByHistory = posterior.Data.History?.Expected,
            Readings = [.. posterior.Data.Readings.Items.Select(item => Check(posterior, item, healthy, best))],
            Fit = FitCheck.Of(posterior, best),
            EvidenceUncertain = beliefs.Any(belief => uncertain(belief.Odds, belief.Effective)),
            Solves = runs.Sum(run => run.Solves),
            Contradictions = contradictions,
        };
    }

    private static ReadingCheck Check(Posterior posterior, ReadingLikelihood.Item item, int healthy, int best)
    {
        var reading = posterior
            .Data.Evidence.Points[item.Point]
            .Readings.First(one => (int)one.Channel == item.Channel && one.Value.Equals(item.Value));
        return new(
            item.Point,
            (Channel)item.Channel,
            item.Value,
            reading.SigmaInstrument,
            Interval.Of(posterior.Foretold(healthy, item)),
            Interval.Of(posterior.Modelled(best, item, fitted: true)),
            Misread(posterior, item)
        )
        {
            Tail = FitCheck.Tail(posterior, best, item),
        };
    }

    /// <summary>Odds that a number is a gross error, over all explanations with cars.</summary>
    private static double Misread(Posterior posterior, ReadingLikelihood.Item item)
    {
        double odds = 0,
            sum = 0;
        for (var h = 0; h < posterior.Runs.Count; h++)
        {
            var particles = posterior.Runs[h].Particles;
            for (var i = 0; i < particles.Count; i++)
            {
                var weight = posterior.Odds[h] * posterior.Weights[h][i];
                if (weight <= 0)
                    continue;
                sum += weight;
                odds +=
                    weight
                    * item.Gross
                    / ReadingLikelihood.Alone(item, particles.Row(i)[(item.Point * Predicted.Width) + item.Channel]);
            }
        }

        return sum > 0 ? odds / sum : 0;
    }
}
