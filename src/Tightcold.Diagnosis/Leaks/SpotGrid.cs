namespace Tightcold.Diagnosis.Leaks;

/// <summary>One spot's belief over its rate from its own tests alone, on a logarithmic grid, leaking and seeping.</summary>
internal sealed class SpotGrid
{
    public const int Count = 56;
    private const double LeastKgPerS = 0.03 * LeakPrior.GramPerYear;
    private const double MostKgPerS = 8000 * LeakPrior.GramPerYear;

    /// <summary>The same person with the same instrument errs the same way again: a repeat counts this much; assumed.</summary>
    public const double RepeatWorth = 0.4;

    /// <summary>A relief device may have opened once, long ago; assumed.</summary>
    private const double OpenedOnce = 0.10;

    public static readonly double[] Rates = [.. Enumerable.Range(0, Count).Select(i => LeastKgPerS * Math.Exp(Math.Log(MostKgPerS / LeastKgPerS) * i / (Count - 1)))];

    /// <summary>Cumulative beliefs for drawing.</summary>
    private readonly double[] leaking = new double[Count], seeping = new double[Count], failed = new double[Count], sound = new double[Count];

    public SpotGrid(LeakSpot spot, LeakSetting setting)
    {
        Prior = LeakPrior.Of(spot.Component);
        var mended = spot.MendedAt;
        var before = spot.Tests.Where(test => mended is null || test.Time <= mended).ToArray();
        var after = mended is null ? [] : spot.Tests.Where(test => test.Time > mended).ToArray();
        var (likelihood, opened) = Likelihood(before, spot.Component, setting);
        OpenedOnceOdds = opened;
        var afterLikelihood = after.Length == 0 ? null : Likelihood(after, spot.Component, setting).PerRate;
        Odds = Prior.Leaks / (1 - Prior.Leaks) * Fill(leaking, Prior.MedianKgPerS, LeakPrior.LeakSpread, likelihood) / Fill(seeping, Prior.SeepKgPerS, LeakPrior.SeepSpread, likelihood);
        Mended = mended is not null;
        if (!Mended) return;
        var bad = Prior.RepairFails * Fill(failed, Prior.MedianKgPerS, LeakPrior.LeakSpread, afterLikelihood);
        var good = (1 - Prior.RepairFails) * Fill(sound, Prior.SeepKgPerS, LeakPrior.SeepSpread, afterLikelihood);
        FailedProbability = bad / (bad + good);
    }

    public LeakPrior Prior { get; }

    /// <summary>Odds (not probability) that it leaked beyond seeping, by its own tests.</summary>
    public double Odds { get; }
    public bool Mended { get; }

    /// <summary>Probability that the repair did not hold, by the tests after it.</summary>
    public double FailedProbability { get; }

    /// <summary>For a relief device: probability that its residue comes from one opening.</summary>
    public double OpenedOnceOdds { get; }

    public int Draw(bool leaks, double uniform) => Pick(leaks ? leaking : seeping, uniform);

    public int DrawAfter(bool leaks, double uniform) => Pick(leaks ? failed : sound, uniform);

    private static int Pick(double[] cumulative, double uniform)
    {
        var at = Array.BinarySearch(cumulative, uniform * cumulative[^1]);
        return Math.Min(at < 0 ? ~at : at, Count - 1);
    }

    /// <summary>Fills a cumulative belief and returns the evidence of this state.</summary>
    private static double Fill(double[] cumulative, double median, double spread, double[]? likelihood)
    {
        double sum = 0, prior = 0;
        for (var i = 0; i < Count; i++)
        {
            var density = Math.Exp(-0.5 * Math.Pow(Math.Log(Rates[i] / median) / spread, 2));
            prior += density;
            cumulative[i] = sum += density * (likelihood?[i] ?? 1);
        }
        return Math.Max(sum / prior, 1e-12);
    }

    private static (double[]? PerRate, double Opened) Likelihood(LeakTest[] tests, LeakComponent component, LeakSetting setting)
    {
        if (tests.Length == 0) return (null, component == LeakComponent.Relief ? OpenedOnce : 0);
        double[] plain = Product(tests, component, setting, false);
        if (component != LeakComponent.Relief) return (plain, 0);
        var residue = Product(tests, component, setting, true);
        double withResidue = 0, without = 0;
        for (var i = 0; i < Count; i++)
        {
            var weight = Math.Exp(-0.5 * Math.Pow(Math.Log(Rates[i] / LeakPrior.Of(component).SeepKgPerS) / LeakPrior.SeepSpread, 2));
            withResidue += weight * OpenedOnce * residue[i];
            without += weight * (1 - OpenedOnce) * plain[i];
            plain[i] = (1 - OpenedOnce) * plain[i] + OpenedOnce * residue[i];
        }
        return (plain, withResidue / (withResidue + without));
    }

    private static double[] Product(LeakTest[] tests, LeakComponent component, LeakSetting setting, bool residue)
    {
        var product = new double[Count];
        Array.Fill(product, 1);
        foreach (var test in tests)
        {
            var same = 0;
            foreach (var other in tests) if (other.Kind == test.Kind) same++;
            var worth = (1 + (same - 1) * RepeatWorth) / same;
            for (var i = 0; i < Count; i++)
                product[i] *= Math.Pow(Math.Max(1e-9, LeakDetection.Likelihood(test, component, Rates[i], setting, residue)), worth);
        }
        return product;
    }
}
