using Tightcold.Diagnosis.Measurement;
using Tightcold.Diagnosis.Priors;
using Tightcold.Loop.Designs;

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
    // visits (it was judged by a model, and perhaps not sound), and this time takes it to a third. Assumed.
    private const double KeptAtOnce = 0.8;
    private const double ForgetsYears = 15;
    private const double Year = 365.25 * 86_400;

    // How many cars the law is to rest on, and how few are too few; the share of the whole effort spent on it.
    private const double WantedEffective = 150;
    private const double LeastEffective = 20;
    private const int ShareOfEffort = 8;
    private const int LeastWork = 600;
    private const int MoreFirstPoints = 3;

    private readonly double[] mean;
    private readonly double[] root;

    private CarMemory(double[] mean, double[] root) => (this.mean, this.root) = (mean, root);

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
                ?.After((visits[v].SecondsBefore - next) / Year)
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
        var data = new DataModel(new(car) { Points = visit.Points, Weighed = visit.Weighed });
        var simulator = new CarSimulator(car, data.HiddenIsSound, population, before);
        var run = new HypothesisRun(HypothesisSet.For(car)[0], simulator, data, seed);
        var first = MoreFirstPoints * effort.FirstPoints;
        run.First(PointSequence.Normal(first, Coordinate.Count, new Chance(seed)), first);
        var most = Math.Max(LeastWork, effort.Work / ShareOfEffort);
        while (run.Particles.Effective < WantedEffective && run.Work < most)
            run.Refine(first);
        return run.Particles.Effective < LeastEffective ? null : Moments(run.Particles, before);
    }

    /// <summary>The likely cars' middle and spread. So few points know a matrix badly: it is drawn towards that of all
    /// cars as if as many of those had been met as it has rows.</summary>
    private static CarMemory? Moments(ParticleStore particles, CarMemory? before)
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

        return Of(mean, spread);
    }

    private static CarMemory? Of(double[] mean, double[] spread) =>
        NormalProposal.Cholesky(spread, mean.Length) is { } root ? new(mean, root) : null;

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

        return Of([.. mean.Select(value => kept * value)], spread);
    }
}
