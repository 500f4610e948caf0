using Tightcold.Diagnosis.Leaks;
using Tightcold.Diagnosis.Measurement;
using Tightcold.Diagnosis.Priors;
using Tightcold.Loop.Designs;
using Tightcold.Numerics.Matrices;

namespace Tightcold.Diagnosis.Inference;

/// <summary>
/// What a car is remembered as from visits at which it was sound: a normal law of its traits, round which it is drawn
/// instead of round the middle of all cars. A trait is measured against other cars of its kind, so it means the same in
/// every kind only where the kind is known.
/// </summary>
internal sealed class CarMemory
{
    /// <summary>What belongs to the car. The rest belongs to the day, to the fault, or to how the car is kept.</summary>
    private static readonly int[] Traits =
    [
        Coordinate.CondenserUa,
        Coordinate.FaceSpeed,
        Coordinate.Reentry,
        Coordinate.Displacement,
        Coordinate.Volumetric,
        Coordinate.CoilNtu,
        Coordinate.Blower,
        Coordinate.ThrottleArea,
        Coordinate.ValveSetting,
        Coordinate.Volumes,
        Coordinate.Isentropic,
        Coordinate.Switches,
        Coordinate.Control,
        Coordinate.Store,
        Coordinate.LineDrop,
        Coordinate.Duct,
        Coordinate.FanStage,
    ];

    // A trait drifts back to those of all cars: of its distance from their middle this much is kept over any two
    // visits (perhaps it was not quite sound), and this time takes it to a third. Assumed.
    private const double KeptAtOnce = 0.9;
    private const double ForgetsYears = 15;

    // Of the model's fixed error about this car so much is the same on another day, at other air and speed. Assumed.
    private const double SameError = 0.5;

    // How many cars the law is to rest on, and how few are too few; the share of the whole effort spent on it.
    private const double WantedEffective = 150;
    private const double LeastEffective = 20;
    private const int ShareOfEffort = 8;
    private const int LeastWork = 600;
    private const int MoreFirstPoints = 3;

    private readonly double[] mean;
    private readonly double[] root;
    private readonly FixedErrors errors;

    private CarMemory(double[] mean, double[] root, FixedErrors errors) =>
        (this.mean, this.root, this.errors) = (mean, root, errors);

    /// <summary>By what the model was off for this car, channel by channel, as a linear function of its traits, in units of
    /// <see cref="ErrorModel.Discrepancy"/>: what the traits do not explain of the readings then is the model's
    /// error.</summary>
    /// <param name="At">At traits 0.</param>
    /// <param name="Slopes">Per trait.</param>
    /// <param name="Left">Variance still unknown.</param>
    private sealed record FixedErrors(double[] At, double[][] Slopes, double[] Left)
    {
        public static FixedErrors None { get; } =
            new(
                new double[ErrorModel.Channels],
                [.. Enumerable.Range(0, ErrorModel.Channels).Select(_ => new double[Traits.Length])],
                [.. Enumerable.Repeat(ErrorModel.SharedModel, ErrorModel.Channels)]
            );
    }

    /// <summary>What is still not known of the model's fixed error about this car, by channel.</summary>
    public double[] SharedModel => errors.Left;

    /// <summary>Adds to modelled numbers of a car that runs what the model was off by when it was sound.</summary>
    /// <param name="own">Its coordinates, recalled.</param>
    /// <param name="row">A row of <see cref="Predicted.Width"/>.</param>
    public void Correct(ReadOnlySpan<double> own, Span<double> row)
    {
        if (row[Predicted.Off] != 0)
            return;
        for (var c = 0; c < ErrorModel.Channels; c++)
        {
            if (errors.Left[c] >= ErrorModel.SharedModel)
                continue;
            var off = errors.At[c];
            for (var i = 0; i < Traits.Length; i++)
                off += errors.Slopes[c][i] * own[Traits[i]];
            row[c] += off * ErrorModel.Discrepancy((Channel)c, row[c]);
        }
    }

    /// <summary>The memory of a car from its sound visits, the earliest first; null without any that tells.</summary>
    public static CarMemory? Of(DiagnosisEvidence evidence, Effort effort, ulong seed, Population population)
    {
        if (evidence.Earlier.IsEmpty || evidence.Car is not { Compressor: not null, Expansion: not null })
            return null;
        CarMemory? memory = null;
        var visits = evidence.Earlier.OrderByDescending(visit => visit.SecondsBefore).ToArray();
        for (var v = 0; v < visits.Length; v++)
        {
            var next = v + 1 < visits.Length ? visits[v + 1].SecondsBefore : 0;
            memory = Learn(evidence.Car, visits[v], memory, effort, seed + (ulong)v, population)
                ?.After((visits[v].SecondsBefore - next) / LeakForecast.Year)
                ?? memory;
        }

        return memory;
    }

    /// <summary>Standard normal coordinates become those of this car.</summary>
    public void Recall(ReadOnlySpan<double> z, Span<double> own)
    {
        z.CopyTo(own);
        var n = Traits.Length;
        for (var i = 0; i < n; i++)
        {
            var value = mean[i];
            for (var j = 0; j <= i; j++)
                value += root[(i * n) + j] * z[Traits[j]];
            own[Traits[i]] = value;
        }
    }

    private static CarMemory? Learn(
        CarKnowledge car,
        SoundVisit visit,
        CarMemory? before,
        Effort effort,
        ulong seed,
        Population population
    )
    {
        var data = new DataModel(new(car) { Points = visit.Points, Weighed = visit.Weighed }, before);
        var simulator = new CarSimulator(car, data.HiddenIsSound, population, before);
        var run = new HypothesisRun(HypothesisSet.For(car)[0], simulator, data, seed);
        var first = MoreFirstPoints * effort.FirstPoints;
        run.First(PointSequence.Normal(first, Coordinate.Count, new Chance(seed)), first);
        var most = Math.Max(LeastWork, effort.Work / ShareOfEffort);
        while (run.Particles.Effective < WantedEffective && run.Work < most)
            run.Refine(first);
        return run.Particles.Effective < LeastEffective ? null : Moments(data, run.Particles, before);
    }

    /// <summary>The likely cars' middle and spread. So few points know a matrix badly: it is drawn towards that of all
    /// cars as if as many of those had been met as it has rows.</summary>
    private static CarMemory? Moments(DataModel data, ParticleStore particles, CarMemory? before)
    {
        var n = Traits.Length;
        var weights = particles.Weights();
        var own = new double[particles.Count][];
        var mean = new double[n];
        for (var p = 0; p < own.Length; p++)
        {
            own[p] = new double[Coordinate.Count];
            if (weights[p] <= 0)
                continue;
            if (before is null)
                particles.Point(p).CopyTo(own[p]);
            else
                before.Recall(particles.Point(p), own[p]);
            for (var i = 0; i < n; i++)
                mean[i] += weights[p] * own[p][Traits[i]];
        }

        var effective = particles.Effective;
        var spread = new double[n * n];
        for (var i = 0; i < n; i++)
        for (var j = 0; j < n; j++)
        {
            var sum = 0.0;
            for (var p = 0; p < own.Length; p++)
                if (weights[p] > 0)
                    sum += weights[p] * (own[p][Traits[i]] - mean[i]) * (own[p][Traits[j]] - mean[j]);
            spread[(i * n) + j] = ((effective * sum) + (i == j ? n : 0)) / (effective + n);
        }

        return Cholesky.TryFactor(spread, n, ProposalFit.LeastPivot)
            ? new(mean, spread, Errors(data, particles, own, weights, mean, spread, before?.errors ?? FixedErrors.None))
            : null;
    }

    private static FixedErrors Errors(
        DataModel data,
        ParticleStore particles,
        double[][] own,
        double[] weights,
        double[] mean,
        double[] root,
        FixedErrors before
    )
    {
        var n = Traits.Length;
        double[] at = [.. before.At],
            left = [.. before.Left];
        double[][] slopes = [.. before.Slopes.Select(line => line.ToArray())];
        foreach (var channel in data.Readings.Items.GroupBy(item => item.Channel))
        {
            var (off, variance) = Misses(channel.ToArray(), particles, weights);
            var middle = 0.0;
            for (var p = 0; p < off.Length; p++)
                middle += weights[p] * off[p];
            var cross = new double[n];
            for (var p = 0; p < off.Length; p++)
            for (var i = 0; i < n; i++)
                cross[i] += weights[p] * (off[p] - middle) * (own[p][Traits[i]] - mean[i]);
            for (var i = 0; i < n; i++)
                cross[i] *= particles.Effective / (particles.Effective + n);
            Cholesky.Solve(root, cross);
            var c = channel.Key;
            // The normal rule for one unknown, and then another day.
            var gain = left[c] / (left[c] + variance);
            for (var i = 0; i < n; i++)
            {
                slopes[c][i] += SameError * gain * cross[i];
                at[c] -= SameError * gain * cross[i] * mean[i];
            }

            at[c] += SameError * gain * middle;
            left[c] =
                (SameError * SameError * left[c] * (1 - gain))
                + ((1 - (SameError * SameError)) * ErrorModel.SharedModel);
        }

        return new(at, slopes, left);
    }

    /// <summary>By how much each tried car misses the readings of a channel on average, in units of the model's error, and
    /// the variance of that by what is not the car's.</summary>
    private static (double[] Off, double Variance) Misses(
        ReadingLikelihood.Item[] items,
        ParticleStore particles,
        double[] weights
    )
    {
        var off = new double[weights.Length];
        var variance = 0.0;
        foreach (var item in items)
        {
            var unit = ErrorModel.Discrepancy((Channel)item.Channel, item.Value);
            variance += item.Own * item.Own / (unit * unit) / (items.Length * (double)items.Length);
            for (var p = 0; p < off.Length; p++)
                if (weights[p] > 0)
                    off[p] +=
                        (item.Value - particles.Row(p)[(item.Point * Predicted.Width) + item.Channel])
                        / unit
                        / items.Length;
        }

        return (off, variance);
    }

    /// <summary>The same so much later: an Ornstein-Uhlenbeck process whose rest is the population.</summary>
    private CarMemory? After(double years)
    {
        var n = Traits.Length;
        var kept = KeptAtOnce * Math.Exp(-Math.Max(0, years) / ForgetsYears);
        var spread = new double[n * n];
        for (var i = 0; i < n; i++)
        for (var j = 0; j < n; j++)
        {
            var sum = 0.0;
            for (var k = 0; k <= Math.Min(i, j); k++)
                sum += root[(i * n) + k] * root[(j * n) + k];
            spread[(i * n) + j] = (kept * kept * sum) + (i == j ? 1 - (kept * kept) : 0);
        }

        return Cholesky.TryFactor(spread, n, ProposalFit.LeastPivot)
            ? new([.. mean.Select(value => kept * value)], spread, errors)
            : null;
    }
}
