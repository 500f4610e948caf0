using System.Collections.Immutable;
using Tightcold.Diagnosis.Measurement;
using Tightcold.Diagnosis.Priors;

namespace Tightcold.Diagnosis.Inference;

/// <summary>How each reading, and the last filling, by itself speaks for or against an explanation: its density over
/// all cars that could have that fault, against its density over the other explanations by their odds before any
/// reading.</summary>
internal static class Reasons
{
    // Below this the reading says nothing worth a line.
    private const double WorthALine = 0.25;

    public static ImmutableArray<Reason> Of(Posterior posterior, int h, int healthy)
    {
        var list = new List<Reason>();
        foreach (var item in posterior.Data.Readings.Items)
        {
            var at = item;
            var weight = Weight(posterior, h, row =>
                ReadingLikelihood.Alone(at, row[(at.Point * Predicted.Width) + at.Channel])
            );
            list.Add(
                new(
                    item.Point,
                    (Channel)item.Channel,
                    null,
                    weight,
                    item.Value,
                    Interval.Of(posterior.Modelled(h, item, fitted: true)),
                    Interval.Of(posterior.Foretold(healthy, item))
                )
            );
        }

        for (var p = 0; p < posterior.Data.PointCount; p++)
        {
            var (point, index) = (posterior.Data.Evidence.Points[p], p);
            void Seen(SeenKind kind, Func<double[], double> density) =>
                list.Add(
                    new(
                        index,
                        null,
                        kind,
                        Weight(posterior, h, row => density([.. row.Slice(index * Predicted.Width, Predicted.Width)])),
                        0,
                        default,
                        default
                    )
                );
            if (point.Glass != GlassSeen.NotLooked)
                Seen(SeenKind.Glass, row => SeenLikelihood.Glass(point.Glass, row));
            if (point.Frost != FrostSeen.NotLooked)
                Seen(SeenKind.Frost, row => SeenLikelihood.Frost(point.Frost, row));
            if (point.Clutch != ClutchSeen.NotLooked)
                Seen(SeenKind.Clutch, row => SeenLikelihood.Clutch(point.Clutch, row));
            if (point.CyclesPerMinute is { } cycles)
                Seen(SeenKind.Cycles, row => SeenLikelihood.Cycles(cycles, row));
        }

        if (posterior.Data.History is { } history)
            list.Add(
                new(0, null, null, Weight(posterior, h, posterior.Data.HistoryFactor), 0, history.Expected, default)
            );

        return
        [
            .. list.Where(reason => Math.Abs(reason.Weight) >= WorthALine)
                .OrderByDescending(reason => Math.Abs(reason.Weight)),
        ];
    }

    /// <summary>The same for what was looked at, felt or tried.</summary>
    public static ImmutableArray<SignReason> OfSigns(Posterior posterior, int h)
    {
        var list = new List<SignReason>();
        foreach (var sign in posterior.Data.Evidence.Signs)
        {
            double others = 0,
                prior = 0,
                own = 0;
            for (var g = 0; g < posterior.Runs.Count; g++)
            {
                var run = posterior.Runs[g];
                if (run.Hypothesis.IsNoneOfThese)
                    continue;
                var mean = Mean(posterior, run, sign);
                if (g == h)
                {
                    own = mean;
                    continue;
                }

                others += run.Hypothesis.Prior * mean;
                prior += run.Hypothesis.Prior;
            }

            if (own > 0 && others > 0)
                list.Add(new(sign, Math.Log(own * prior / others)));
        }

        return
        [
            .. list.Where(one => Math.Abs(one.Weight) >= WorthALine).OrderByDescending(one => Math.Abs(one.Weight)),
        ];
    }

    private static double Mean(Posterior posterior, HypothesisRun run, Sign sign)
    {
        double sum = 0,
            count = 0;
        for (var i = 0; i < run.Particles.Count; i++)
        {
            var weight = run.Particles.PriorWeight(i);
            if (weight <= 0)
                continue;
            var row = posterior.Data.PointCount > 0 ? run.Particles.Row(i)[..Predicted.Width] : [];
            var (_, faults) = FaultPrior.Of(run.Hypothesis.Faults, run.Particles.Point(i));
            sum +=
                weight * SignOdds.Of(sign, run.Hypothesis.Faults, faults, row, !row.IsEmpty && row[Predicted.Tube] > 0);
            count += weight;
        }

        return count > 0 ? sum / count : 0;
    }

    private delegate double Density(ReadOnlySpan<double> row);

    private static double Weight(Posterior posterior, int h, Density density)
    {
        double others = 0,
            prior = 0,
            own = 0;
        for (var g = 0; g < posterior.Runs.Count; g++)
        {
            var run = posterior.Runs[g];
            if (run.Hypothesis.IsNoneOfThese)
                continue;
            double sum = 0,
                count = 0;
            for (var i = 0; i < run.Particles.Count; i++)
            {
                var weight = run.Particles.PriorWeight(i);
                if (weight <= 0)
                    continue;
                sum += weight * density(run.Particles.Row(i));
                count += weight;
            }

            var mean = count > 0 ? sum / count : 0;
            if (g == h)
            {
                own = mean;
            }
            else
            {
                others += run.Hypothesis.Prior * mean;
                prior += run.Hypothesis.Prior;
            }
        }

        return own > 0 && others > 0 ? Math.Log(own * prior / others) : 0;
    }
}
