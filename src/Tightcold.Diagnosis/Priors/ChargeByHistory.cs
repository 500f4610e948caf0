using System.Collections.Immutable;
using Tightcold.Diagnosis.Inference;
using Tightcold.Diagnosis.Leaks;
using Tightcold.Numerics.Distributions;
using Tightcold.Numerics.Interpolation;

namespace Tightcold.Diagnosis.Priors;

/// <summary>
/// How much likelier a charge is after a known filling than in a car of which nobody knows. Both follow from one model
/// of fillings, seeps and leaks, the second averaged over fillings and years: a history that says nothing changes
/// nothing. Figures are assumptions unless a source is named; docs/physics/diagnosis.md.
/// </summary>
public sealed class ChargeByHistory
{
    private const double Lowest = 0.05,
        Highest = 1.80,
        Step = 0.025;
    private const int Bins = 70;

    /// <summary>Chance that a history is not this car's as it stands here: an entry wrong, or somebody worked on it
    /// since.</summary>
    public const double WrongWritten = 0.10,
        WrongRemembered = 0.15;

    /// <summary>Charge over the label's after a top-up on an unknown charge, and its standard deviation: mostly still
    /// short, as cans and gauges go by pressure, and sometimes too much; assumed.</summary>
    public const double ToppedUpShare = 0.75,
        ToppedUpSigma = 0.20;

    // No history, however good, says more than this.
    private const double MostFactor = 3;

    // All seeps of a tight car at rest, g/yr: 7 to 30 through a year, the more the older.
    private const double SeepGrams = 25;

    // Leaks in a leaking car: docs/physics/leaks.md.
    private const double LeaksInALeaker = 1.3;

    // Chance a year that a tight car begins to leak: with it the mean loss after three to four years is some 45 to 70
    // g/yr, against 52 g/yr of European cars up to seven years old (docs/physics/diagnosis.md).
    private const double NewLeaksPerYear = 0.05;

    // Of leaks, those that empty a car in weeks: a mend that let go, a stone; and how many times the usual leak that
    // is.
    private const double GrossShare = 0.10,
        GrossTimes = 20;

    // Below this share vapour alone is left and the loss slows down.
    private const double VapourShare = 0.15;

    // Charges that no filling of this model reaches, all together.
    private const double Rare = 1e-4;

    private const double UnknownYears = 2,
        UnknownSpread = 0.8;

    // A car is topped up because it had lost something like this share of its label, over a time that nobody knows.
    private const double UsualLoss = 0.30,
        UsualLossSigma = 0.12,
        UsualLossSpread = 1;

    private static readonly ImmutableArray<(FilledHow How, double Weight)> Population =
    [
        (FilledHow.ByWeight, 0.72),
        (FilledHow.NotWeighed, 0.12),
        (FilledHow.ToppedUp, 0.16),
    ];
    private static readonly ImmutableArray<(double Z, double Weight)> Coarse = Nodes(5, 1.6),
        Fine = Nodes(15, 2.4);
    private static readonly double LeakKgPerS = LeaksInALeaker * UsualLeak();

    private readonly double[] factor = new double[Bins];

    private ChargeByHistory(double[] known, double[] unknown, double wrong)
    {
        for (var i = 0; i < Bins; i++)
            factor[i] = Math.Min(MostFactor, wrong + ((1 - wrong) * known[i] / unknown[i]));
        Expected = Interval.Of([.. known.Select((mass, i) => (Middle(i), mass))]);
    }

    /// <summary>Charge over the label's that this history alone lets expect.</summary>
    public Interval Expected { get; }

    /// <param name="history">What is known.</param>
    /// <param name="labelKg">The label's charge, kg.</param>
    public static ChargeByHistory Of(ChargeHistory history, double labelKg)
    {
        ArgumentNullException.ThrowIfNull(history);
        return new(Known(history, labelKg), Unknown(labelKg), history.Remembered ? WrongRemembered : WrongWritten);
    }

    /// <summary>Factor on the odds of every explanation with this charge over the label's.</summary>
    public double Factor(double share) => StraightLines.At(factor, ((share - Lowest) / Step) - 0.5);

    private static double Middle(int bin) => Lowest + ((bin + 0.5) * Step);

    private static double[] Known(ChargeHistory history, double labelKg)
    {
        var mass = new double[Bins];
        Add(mass, history, labelKg, 1);
        // A scale does not overfill by half; without one everything happens.
        return Normalised(mass, history.How == FilledHow.ByWeight ? 0 : Rare);
    }

    private static double[] Unknown(double labelKg)
    {
        var mass = new double[Bins];
        foreach (var (how, weight) in Population)
            Add(mass, new(how, UnknownYears * LeakForecast.Year, UnknownSpread, Remembered: false), labelKg, weight);
        return Normalised(mass, Rare);
    }

    private static double[] Normalised(double[] mass, double rare)
    {
        var sum = mass.Sum();
        return [.. mass.Select(one => ((one / sum) + (rare / Bins)) / (1 + rare))];
    }

    /// <summary>Spreads a history's charge over the bins.</summary>
    private static void Add(double[] mass, ChargeHistory history, double labelKg, double weight)
    {
        var (share, sigma) = history.Left ?? Filling(history.How);
        var rates = Rates(history, labelKg).ToArray();
        var sum = rates.Sum(rate => rate.Weight);
        var spread = Math.Sqrt(
            (history.SecondsSpread * history.SecondsSpread)
                + (LossObservation.Unsteadiness * LossObservation.Unsteadiness)
        );
        foreach (var (z, part) in Coarse)
        {
            var lostPerRate = LossObservation.YearDuty * history.Seconds * Math.Exp(spread * z) / labelKg;
            foreach (var rate in rates)
            {
                var lost = lostPerRate * rate.KgPerS;
                // Between the nodes the loss is spread by about their distance.
                Lay(
                    mass,
                    Left(share - lost),
                    Math.Sqrt((sigma * sigma) + Math.Pow(0.25 * Math.Min(lost, share), 2)),
                    weight * part * rate.Weight / sum
                );
            }
        }
    }

    private static (double Share, double Sigma) Filling(FilledHow how) =>
        how switch
        {
            FilledHow.ByWeight => (1, 0.04),
            FilledHow.NotWeighed => (1, 0.12),
            _ => (ToppedUpShare, ToppedUpSigma),
        };

    private static double Leaks(ChargeHistory history) =>
        history.How switch
        {
            // What is remembered of a workshop's filling is mostly a refill of a car that had lost its charge, mended
            // or not.
            FilledHow.ByWeight => history.ProvenTight ? 0.05
            : history.Remembered ? 0.30
            : 0.12,
            FilledHow.NotWeighed => 0.30,
            _ => 0.60,
        };

    /// <summary>Rates at rest of the whole car, averaged over the time since the filling, with their odds.</summary>
    private static IEnumerable<(double KgPerS, double Weight)> Rates(ChargeHistory history, double labelKg)
    {
        var leaks = Leaks(history);
        var begins = (1 - leaks) * (1 - Math.Exp(-NewLeaksPerYear * history.Seconds / LeakForecast.Year));
        var before = history.LostBefore
            ?? (
                history.How == FilledHow.ToppedUp
                    ? new LossObservation(
                        UsualLoss * labelKg,
                        UsualLossSigma * labelKg,
                        UnknownYears * LeakForecast.Year,
                        UsualLossSpread,
                        LossObservation.YearDuty,
                        false
                    )
                    : null
            );
        double Told(double rate) => before is { } lost ? Math.Exp(Math.Max(-30, lost.LogLikelihood(rate))) : 1;
        foreach (var (z, part) in Coarse)
        {
            var seep = SeepGrams * LeakPrior.GramPerYear * Math.Exp(LeakPrior.SeepSpread * z);
            yield return (seep, (1 - leaks - begins) * part * Told(seep));
        }

        var usual = SeepGrams * LeakPrior.GramPerYear;
        foreach (var (z, part) in Fine)
        {
            var leak = LeakKgPerS * Math.Exp(LeakPrior.LeakSpread * z);
            yield return (usual + leak, (1 - GrossShare) * leaks * part * Told(usual + leak));
            yield return (usual + (GrossTimes * leak), GrossShare * leaks * part * Told(usual + (GrossTimes * leak)));
            // A leak that began in between has had a third, or two thirds, of the time.
            for (var third = 1; third <= 2; third++)
                yield return (usual + (third * leak / 3), 0.5 * begins * part * Told(usual));
        }
    }

    /// <summary>Charge that is left, never below nothing: the last of it leaves slowly.</summary>
    private static double Left(double share) =>
        share > VapourShare ? share : VapourShare * Math.Exp((share - VapourShare) / VapourShare);

    private static void Lay(double[] mass, double middle, double sigma, double weight)
    {
        double below = 0;
        for (var i = 0; i < Bins; i++)
        {
            // What lies outside the bins belongs to the first and the last.
            var upTo = i == Bins - 1 ? 1 : Normal.Cumulative((Lowest + ((i + 1) * Step) - middle) / sigma);
            mass[i] += weight * (upTo - below);
            below = upTo;
        }
    }

    /// <summary>The middle of one leak over all kinds of places, by how often each leaks.</summary>
    private static double UsualLeak()
    {
        var all = Enum.GetValues<LeakComponent>().Select(LeakPrior.Of).ToArray();
        return Math.Exp(all.Sum(one => one.Leaks * Math.Log(one.MedianKgPerS)) / all.Sum(one => one.Leaks));
    }

    private static ImmutableArray<(double, double)> Nodes(int count, double to)
    {
        var nodes = Enumerable.Range(0, count).Select(i => -to + (2 * to * i / (count - 1))).ToArray();
        var sum = nodes.Sum(Normal.Density);
        return [.. nodes.Select(z => (z, Normal.Density(z) / sum))];
    }
}
