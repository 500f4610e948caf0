using Tightcold.Diagnosis.Leaks;

namespace Tightcold.Diagnosis.Tightness;

/// <summary>One place with the likelihood of its own tests: seeping, leaking, and, where it was mended, whether that
/// held.</summary>
internal sealed class SpotModel
{
    /// <summary>The same person with the same instrument errs the same way again: a repeat counts this much;
    /// assumed.</summary>
    public const double RepeatWorth = 0.4;

    /// <summary>A relief device may have opened once, long ago; assumed.</summary>
    private const double OpenedOnceBefore = 0.10;

    /// <summary>One leak in this share is gross: a cut hose, a stone's hole, a core left out. Log-uniform above 300
    /// g/yr; assumed.</summary>
    private const double GrossShare = 0.12,
        GrossFromGrams = 300;

    /// <summary>Hands and instruments differ: rates look larger or smaller by such a factor; assumed.</summary>
    private static readonly (double Factor, double Odds)[] Hands = [(0.5, 0.25), (1, 0.5), (2, 0.25)];

    private static readonly double[] LogRates = Array.ConvertAll(RateGrid.Values, Math.Log);

    public SpotModel(
        LeakSpot spot,
        SpotRole role,
        IReadOnlyList<LeakTest> tests,
        LeakSetting setting,
        double onset,
        double leaks
    )
    {
        Spot = spot;
        Role = role;
        Onset = onset;
        Prior = LeakPrior.Of(spot.Component);
        Habit = SpotHabit.Of(spot.Component);
        MendedAt = spot.MendedAt;
        var before = tests.Where(test => MendedAt is null || test.Time <= MendedAt).ToArray();
        var after = MendedAt is null ? [] : tests.Where(test => test.Time > MendedAt).ToArray();
        var (logBefore, opened) = Log(before, spot.Component, setting);
        OpenedOnce = opened;
        var called = spot.Found && !before.Any(test => test.Outcome != LeakTestOutcome.Nothing);
        var logAfter = Log(after, spot.Component, setting).PerRate;
        double seepPrior = 0,
            leakPrior = 0,
            freshSum = 0,
            freshPrior = 0;
        double[] seep = Seep(),
            leak = Leak();
        for (var r = 0; r < RateGrid.Count; r++)
        {
            seepPrior += seep[r];
            leakPrior += leak[r];
            freshPrior += seep[r];
            freshSum += seep[r] * Math.Exp(logAfter[r]);
        }
        var fresh = freshSum / freshPrior;
        for (var r = 0; r < RateGrid.Count; r++)
        {
            var found = called ? Called(RateGrid.Values[r]) : 1;
            var ofSeep =
                seep[r] / seepPrior * found * Math.Exp(logBefore[r]) * (MendedAt is null ? 1 : Math.Exp(logAfter[r]));
            SeepMass += ofSeep;
            SeepCumulative[r] = SeepMass;
            // Of those that leak, some do so only warm or running: at rest a tenth of it shows.
            var felt = leak[r] / leakPrior * found;
            var rest = RateGrid.At(logBefore, LogRates[r] + Math.Log(SpotHabit.RestShare));
            var held = felt * ((1 - Habit.OpensRunning) * Math.Exp(logBefore[r]) + Habit.OpensRunning * Math.Exp(rest));
            if (MendedAt is null)
            {
                Held[r] = held;
                HeldMass += held;
                continue;
            }
            var restAfter = RateGrid.At(logAfter, LogRates[r] + Math.Log(SpotHabit.RestShare));
            Held[r] = held * (1 - Prior.RepairFails) * fresh;
            Failed[r] =
                held
                * Prior.RepairFails
                * ((1 - Habit.OpensRunning) * Math.Exp(logAfter[r]) + Habit.OpensRunning * Math.Exp(restAfter));
            HeldMass += Held[r];
            FailedMass += Failed[r];
        }
        for (var r = 0; r < RateGrid.Count; r++)
        {
            HeldCumulative[r] = Held[r] + (r > 0 ? HeldCumulative[r - 1] : 0);
            FailedCumulative[r] = Failed[r] + (r > 0 ? FailedCumulative[r - 1] : 0);
        }
        Odds = leaks / (1 - leaks) * (HeldMass + FailedMass) / Math.Max(SeepMass, 1e-300);
    }

    public LeakSpot Spot { get; }
    public SpotRole Role { get; }
    public LeakPrior Prior { get; }
    public SpotHabit Habit { get; }
    public double? MendedAt { get; }

    /// <summary>Nothing leaked there before this time.</summary>
    public double Onset { get; }

    /// <summary>Odds (not probability) that it leaked beyond seeping, by its own tests.</summary>
    public double Odds { get; }
    public double OpenedOnce { get; }
    public double SeepMass { get; }
    public double HeldMass { get; }
    public double FailedMass { get; }
    public double[] SeepCumulative { get; } = new double[RateGrid.Count];

    /// <summary>Leaking with these rates; where mended, the repair held.</summary>
    public double[] Held { get; } = new double[RateGrid.Count];
    public double[] HeldCumulative { get; } = new double[RateGrid.Count];

    /// <summary>Leaking with these rates, and the repair did not hold.</summary>
    public double[] Failed { get; } = new double[RateGrid.Count];
    public double[] FailedCumulative { get; } = new double[RateGrid.Count];

    /// <summary>Whether it says the same of every car.</summary>
    public bool SaysTheSame(SpotModel other) =>
        Role == other.Role
        && Spot.Name == other.Spot.Name
        && Spot.Component == other.Spot.Component
        && Spot.Found == other.Spot.Found
        && MendedAt == other.MendedAt
        && Onset == other.Onset
        && Odds == other.Odds
        && SeepCumulative.AsSpan().SequenceEqual(other.SeepCumulative)
        && Held.AsSpan().SequenceEqual(other.Held)
        && Failed.AsSpan().SequenceEqual(other.Failed);

    /// <summary>A rate drawn by its cumulative masses.</summary>
    public static double Pick(double[] cumulative, double uniform, double jitter)
    {
        // Halving by hand: a search of the library's own costs several times this where code is interpreted.
        var wanted = uniform * cumulative[^1];
        int low = 0,
            high = cumulative.Length - 1;
        while (low < high)
        {
            var middle = (low + high) >> 1;
            if (cumulative[middle] >= wanted)
                high = middle;
            else
                low = middle + 1;
        }
        return RateGrid.Values[low] * Math.Exp((jitter - 0.5) * RateGrid.StepLog);
    }

    /// <summary>A person called it a leak and wrote no check down: seldom of a place that does not leak;
    /// assumed.</summary>
    private static double Called(double rate)
    {
        var share = rate / (20 * LeakPrior.GramPerYear);
        return 0.02 + 0.95 * share * share / (1 + share * share);
    }

    private double[] Seep() =>
        Array.ConvertAll(LogRates, log =>
            Math.Exp(-0.5 * Math.Pow((log - Math.Log(Prior.SeepKgPerS)) / LeakPrior.SeepSpread, 2))
        );

    private double[] Leak()
    {
        var gross = Math.Log(GrossFromGrams * LeakPrior.GramPerYear);
        var width = (LogRates[^1] - gross) / RateGrid.StepLog;
        var usual = 1 / (LeakPrior.LeakSpread * Math.Sqrt(2 * Math.PI)) * RateGrid.StepLog;
        return Array.ConvertAll(LogRates, log =>
            (1 - GrossShare)
                * usual
                * Math.Exp(-0.5 * Math.Pow((log - Math.Log(Prior.MedianKgPerS)) / LeakPrior.LeakSpread, 2))
            + (log >= gross ? GrossShare / width : 0)
        );
    }

    private static (double[] PerRate, double Opened) Log(LeakTest[] tests, LeakComponent component, LeakSetting setting)
    {
        var seeing = tests.Where(test => Counts(test, component, setting)).ToArray();
        var opened = component == LeakComponent.Relief ? OpenedOnceBefore : 0;
        if (seeing.Length == 0)
            return (new double[RateGrid.Count], opened);
        var plain = Product(seeing, component, setting, false);
        if (opened == 0)
            return (plain, 0);
        var residue = Product(seeing, component, setting, true);
        var least = Math.Exp(plain[0]);
        opened = opened * Math.Exp(residue[0]) / (opened * Math.Exp(residue[0]) + (1 - opened) * least);
        for (var r = 0; r < plain.Length; r++)
            plain[r] = Math.Log((1 - OpenedOnceBefore) * Math.Exp(plain[r]) + OpenedOnceBefore * Math.Exp(residue[r]));
        return (plain, opened);
    }

    /// <summary>A "nothing" of a test that could not have seen moves nothing; a coarse test counts as coarse as it
    /// is.</summary>
    public static bool Counts(in LeakTest test, LeakComponent component, LeakSetting setting) =>
        !test.Blind
        && (
            test.Outcome != LeakTestOutcome.Nothing
            || LeakDetection.Blindness(test, component, setting) is LeakBlindness.None or LeakBlindness.TooCoarse
        );

    /// <summary>ln of the product over tests against a place that leaks nothing. Of one kind the strongest counts whole
    /// and each further one by <see cref="RepeatWorth"/>, so that a weak test never takes from a strong one.</summary>
    private static double[] Product(LeakTest[] tests, LeakComponent component, LeakSetting setting, bool residue)
    {
        var sum = new double[RateGrid.Count];
        var kinds = tests.Select(test => test.Kind).Distinct().ToArray();
        var logs = new double[tests.Length];
        var sound = Array.ConvertAll(tests, test =>
            Math.Max(1e-9, LeakDetection.Likelihood(test, component, 0, setting))
        );
        for (var r = 0; r < sum.Length; r++)
        {
            var mean = 0.0;
            foreach (var (factor, odds) in Hands)
            {
                for (var i = 0; i < tests.Length; i++)
                    logs[i] = Math.Log(
                        Math.Max(
                            1e-9,
                            LeakDetection.Likelihood(tests[i], component, factor * RateGrid.Values[r], setting, residue)
                        ) / sound[i]
                    );
                var log = 0.0;
                foreach (var kind in kinds)
                {
                    double most = 0,
                        least = 0,
                        up = 0,
                        down = 0;
                    for (var i = 0; i < tests.Length; i++)
                    {
                        if (tests[i].Kind != kind)
                            continue;
                        most = Math.Max(most, logs[i]);
                        least = Math.Min(least, logs[i]);
                        if (logs[i] > 0)
                            up += logs[i];
                        else
                            down += logs[i];
                    }
                    log += (1 - RepeatWorth) * (most + least) + RepeatWorth * (up + down);
                }
                mean += odds * Math.Exp(log);
            }
            sum[r] = Math.Log(Math.Max(mean, 1e-12));
        }
        return sum;
    }
}
