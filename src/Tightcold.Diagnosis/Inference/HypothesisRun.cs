using System.Collections.Immutable;
using Tightcold.Diagnosis.Faults;
using Tightcold.Diagnosis.Measurement;
using Tightcold.Diagnosis.Priors;
using Tightcold.Loop.Results;

namespace Tightcold.Diagnosis.Inference;

/// <summary>One explanation held against the evidence.</summary>
internal sealed class HypothesisRun(Hypothesis hypothesis, CarSimulator simulator, DataModel data, ulong seed)
{
    private const double PriorShareOfBatch = 0.15;

    private readonly LoopStart?[] nearest = new LoopStart?[data.PointCount];
    private readonly ReadingLikelihood.Running readings = data.Readings.Start();
    private readonly Roulette roulette = new(data.PointCount, seed);

    private readonly ImmutableArray<KindRange> kinds = simulator.KindRanges(hypothesis.Faults);

    public Hypothesis Hypothesis => hypothesis;

    public ParticleStore Particles { get; } = new(data.Row);

    public int Solves { get; private set; }

    /// <summary>In solutions of the loop; building a car and weighing it costs half of one.</summary>
    public double Work => Solves + (0.5 * Particles.Count);

    /// <summary>ln evidence; for “none of these” the flat one.</summary>
    public double LogEvidence => hypothesis.IsNoneOfThese ? data.LogAnything() : Particles.LogEvidence;

    /// <summary>Relative standard error of the evidence, from the effective number of points; few points know their own
    /// error badly, so theirs is taken larger.</summary>
    public double RelativeError =>
        hypothesis.IsNoneOfThese ? 0
        : Particles.Effective < 1 ? 2
        : Math.Sqrt(Math.Max(0, (1 / Particles.Effective) - (1.0 / Math.Max(1, Particles.Count))))
            * (1 + (3 / Particles.Effective));

    /// <param name="common">Standard normal points shared by all explanations, so that their errors go
    /// together.</param>
    public void First(double[] common, int count)
    {
        Particles.Grow(count);
        for (var i = 0; i < count; i++)
        {
            common.AsSpan(i * Coordinate.Count, Coordinate.Count).CopyTo(Particles.NewPoint(i));
            Try(i, null);
        }

        Particles.Settle(count, count, null);
    }

    public void Refine(int count)
    {
        var chance = new Chance(seed + (ulong)(1000 * (Particles.Rounds + 1)) + (ulong)Particles.Count);
        var from = Particles.Count;
        var prior = (int)(PriorShareOfBatch * count);
        var proposal = Proposal(count - prior);
        var even = PointSequence.Normal(count - prior, Coordinate.Count, chance);
        Particles.Grow(count);
        for (var i = from; i < from + count; i++)
        {
            var at = Particles.NewPoint(i);
            if (i - from < prior)
            {
                for (var k = 0; k < at.Length; k++)
                    at[k] = chance.Normal();
                Try(i, null);
            }
            else
            {
                even.AsSpan((i - from - prior) * Coordinate.Count, Coordinate.Count).CopyTo(at);
                Try(i, proposal.Place(i - from - prior, at));
            }
        }

        Particles.Settle(count, prior, proposal);
    }

    /// <summary>A fit for every kind of circuit, each drawn as often as half its weight so far and half its prior
    /// say.</summary>
    private KindProposal Proposal(int count)
    {
        var anchored = Particles.Rounds % 2 == 1;
        if (kinds.Length == 1)
            return new([(kinds[0], count, ProposalFit.Of(data, Particles, anchored, null))]);
        var weights = Particles.Weights();
        var parts = ImmutableArray.CreateBuilder<(KindRange, int, CarFit)>();
        double wanted = 0;
        var given = 0;
        for (var k = 0; k < kinds.Length; k++)
        {
            var weight = 0.0;
            for (var i = 0; i < weights.Length; i++)
                if (weights[i] > 0 && kinds[k].Holds(Particles.Point(i)[Coordinate.Kind]))
                    weight += weights[i];
            wanted += 0.5 * (weight + kinds[k].To - kinds[k].From) * count;
            var many = k == kinds.Length - 1 ? count - given : (int)Math.Round(wanted) - given;
            given += many;
            parts.Add((kinds[k], many, many == 0 ? default : ProposalFit.Of(data, Particles, anchored, kinds[k])));
        }

        return new(parts.ToImmutable());
    }

    private void Try(int i, StartMap? guess)
    {
        var z = Particles.NewPoint(i);
        var row = Particles.NewRow(i);
        var car = simulator.At(hypothesis.Faults, z);
        row[^1] = car.ChargeKg;
        for (var s = 0; s < data.Evidence.Standing.Length; s++)
        {
            var at = (data.PointCount * Predicted.Width) + (2 * s);
            (row[at], row[at + 1]) = CarSimulator.Standing(car, data.Evidence.Standing[s].TemperatureK);
        }

        var rest = data.LogRest(row);
        readings.Clear();
        double log = 0,
            mixed = 0,
            kept = 1;
        LoopStart? before = null;
        for (var p = 0; p < data.PointCount; p++)
        {
            var predicted = row.Slice(p * Predicted.Width, Predicted.Width);
            var start = (guess is null ? before : guess.At(z, p, before)) ?? nearest[p];
            Solves++;
            var result = simulator.Run(car, data.Evidence.Points[p], z, start, predicted);
            if (result is null || (p == 0 && !Belongs(car, predicted)))
            {
                Particles.SetNotClosed(i);
                return;
            }

            // The same car at its last point is a nearer start than another car at this one.
            before = result.Start;
            nearest[p] ??= before;
            if (car.Iced is not null)
                mixed += Freezes(car, p, z, before, predicted);
            log = readings.Add(p, predicted) + mixed;
            if (p == 0)
            {
                rest += data.LogSigns(hypothesis.Faults, car, predicted);
                log += Unstopped(predicted);
            }

            if (p == data.PointCount - 1 || roulette.Keeps(p, rest + log, ref kept))
                continue;
            Particles.Drop(i);
            return;
        }

        if (data.PointCount == 0)
            rest += data.LogSigns(hypothesis.Faults, car, []);
        Particles.SetLikelihood(i, rest + log, kept);
    }

    private readonly bool glassLooked = data.PointCount > 0 && data.Evidence.Points[0].Glass != GlassSeen.NotLooked;

    // A low-pressure switch or sensor stops most cars that are so short that the low side would run in vacuum; one in
    // four has none that works, or an owner who bridged it. Assumed.
    private const double RunsInVacuum = 0.25;

    /// <summary>Whether a car is one of this explanation: too little means a shortage that shows, and one that does not
    /// counts as sound, as no gauge tells it from one. Left out of the mean, so that both priors are of their own
    /// cars.</summary>
    private bool Belongs(CarSimulator.Car car, ReadOnlySpan<double> first)
    {
        if (!simulator.HiddenIsSound)
            return true;
        var shows = Shortage.Shows(first, glassLooked);
        if (hypothesis.Has(Fault.Undercharge))
            return shows;
        return !hypothesis.IsNothingWrong || !shows || car.ChargeKg >= 0.8 * simulator.LabelKg;
    }

    private double Unstopped(ReadOnlySpan<double> first)
    {
        var point = data.Evidence.Points[0];
        var vacuum = first[(int)Channel.LowSide] < point.BarometricPa && first[Predicted.Off] == 0;
        return vacuum && !point.SwitchBridged && hypothesis.Faults is [var only] && only == Fault.Undercharge
            ? Math.Log(RunsInVacuum)
            : 0;
    }

    /// <summary>
    /// Water in the throttle: a reading finds it frozen or clear. The row becomes that of the likelier of the two; what
    /// is given back brings its likelihood to that of both by their chances. Where both ends of a swing were read, the
    /// swing goes from one to the other.
    /// </summary>
    private double Freezes(CarSimulator.Car car, int p, ReadOnlySpan<double> z, LoopStart? near, Span<double> clear)
    {
        var iced = frozen.AsSpan();
        Solves++;
        var point = data.Evidence.Points[p];
        if (simulator.Run(car, point, z, near, iced, iced: true) is null)
            return 0;
        var chance = Ice.Chance(clear[Predicted.EvaporatingK]);
        if (point.SwingRead || point.HighSwingRead)
        {
            Ice.Swing(clear, iced);
            return Math.Log(chance);
        }

        double asClear = data.Readings.Alone(p, clear) + Math.Log(1 - chance),
            asIced = data.Readings.Alone(p, iced) + Math.Log(chance);
        var likelier = Math.Max(asClear, asIced);
        var both = likelier + Math.Log(Math.Exp(asClear - likelier) + Math.Exp(asIced - likelier));
        if (asIced <= asClear)
            return both - data.Readings.Alone(p, clear);
        var own = data.Readings.Alone(p, iced);
        iced.CopyTo(clear);
        return both - own;
    }

    private readonly double[] frozen = new double[Predicted.Width];
}
