namespace Tightcold.Diagnosis.Leaks;

/// <summary>
/// What each test shows of a leak: P(at least a trace | rate) = f + (1 − f)·a·1/(1 + (q₅₀/q)ᵏ), with the rate q at the
/// pressure of the moment. The half-seen rates q₅₀ and false alarms f are assumed from stated detector classes
/// (4, 7, 14 g/yr) and handbook limits of soap (1e-4 mbar·L/s skilled, 1e-3 usual); docs/physics/leaks.md.
/// </summary>
public static class LeakDetection
{
    private const double Gram = LeakPrior.GramPerYear;

    /// <summary>A test counts as blind when it would have missed a leak of this rate more often than not,
    /// kg/s.</summary>
    public const double WorthFinding = 30 * Gram;

    /// <summary>When a positive is no leak at all, it is rarely a clear one.</summary>
    private const double FalseClearShare = 0.12;

    /// <summary>A leak shows clearly, not as a trace, from about this many times the half-seen rate.</summary>
    private const double ClearFactor = 2.0;

    private readonly record struct Habit(
        double HalfSeenKgPerS,
        double Steepness,
        double FalseAlarm,
        double Reach,
        bool NeedsPressure,
        double SettleSeconds
    );

    private static Habit Of(LeakTestKind kind, LeakComponent component)
    {
        var reach = LeakPrior.Of(component).Reach;
        var hidden = component == LeakComponent.Evaporator;
        return kind switch
        {
            // After days of running; the evaporator cannot be seen with a lamp.
            LeakTestKind.UvLamp => new(12 * Gram, 1.5, 0.05, hidden ? 0.10 : reach, false, 40),
            LeakTestKind.Detector => new(6 * Gram, 2, 0.08, reach, true, 20),
            LeakTestKind.Soap => new(45 * Gram, 2, 0.03, hidden ? 0.02 : reach, true, 30),
            LeakTestKind.CoverAndWait => new(2 * Gram, 2, 0.04, hidden ? 0.3 : reach, true, 300),
            LeakTestKind.NitrogenAndSoap => new(45 * Gram, 2, 0.03, hidden ? 0.02 : reach, true, 30),
            LeakTestKind.OilTrace => new(40 * Gram, 1.2, 0.12, hidden ? 0.02 : reach, false, 10),
            LeakTestKind.DrainSniff => new(10 * Gram, 2, 0.08, hidden ? 0.75 : 0, true, 120),
            _ => new(25 * Gram, 1.5, 0.05, hidden ? 0.6 : 0, false, 20),
        };
    }

    /// <summary>Probability of this outcome at a spot that loses <paramref name="rateKgPerS"/> at rest.</summary>
    /// <param name="residue">Oil or dye lies there for another reason: a relief device that opened once.</param>
    public static double Likelihood(
        in LeakTest test,
        LeakComponent component,
        double rateKgPerS,
        LeakSetting setting,
        bool residue = false
    )
    {
        if (residue && test.Kind is LeakTestKind.UvLamp or LeakTestKind.OilTrace)
            return ByResidue(test.Outcome);
        var (nothing, trace, clear) = Outcomes(test, component, rateKgPerS, setting);
        return test.Outcome switch
        {
            LeakTestOutcome.Nothing => nothing,
            LeakTestOutcome.Trace => trace,
            _ => clear,
        };
    }

    /// <summary>Probabilities of nothing, a trace and a clear find; they sum to 1.</summary>
    public static (double Nothing, double Trace, double Clear) Outcomes(
        in LeakTest test,
        LeakComponent component,
        double rateKgPerS,
        LeakSetting setting
    )
    {
        var habit = Of(test.Kind, component);
        var felt = Felt(test, habit, rateKgPerS, setting);
        var falseAlarm = FalseAlarm(test, habit);
        var seen = SeenOf(test, habit, felt);
        var any = falseAlarm + (1 - falseAlarm) * seen;
        var clearShare = felt > 0 ? 1 / (1 + Math.Pow(ClearFactor * habit.HalfSeenKgPerS / felt, habit.Steepness)) : 0;
        var clear = (1 - falseAlarm) * seen * clearShare + falseAlarm * FalseClearShare;
        return (1 - any, any - clear, clear);
    }

    private static double ByResidue(LeakTestOutcome outcome) =>
        outcome switch
        {
            LeakTestOutcome.Nothing => 0.1,
            LeakTestOutcome.Trace => 0.4,
            _ => 0.5,
        };

    /// <summary>Probability that a leak of this rate shows at all, and that something shows without one.</summary>
    public static (double Seen, double FalseAlarm) Seen(
        in LeakTest test,
        LeakComponent component,
        double rateKgPerS,
        LeakSetting setting
    )
    {
        var habit = Of(test.Kind, component);
        return (SeenOf(test, habit, Felt(test, habit, rateKgPerS, setting)), FalseAlarm(test, habit));
    }

    private static double FalseAlarm(in LeakTest test, Habit habit) =>
        test.Kind is LeakTestKind.UvLamp or LeakTestKind.DrainDye && test.OldDye ? 0.2 : habit.FalseAlarm;

    private static double SeenOf(in LeakTest test, Habit habit, double felt)
    {
        if (!(felt > 0))
            return 0;
        var seen = habit.Reach / (1 + Math.Pow(habit.HalfSeenKgPerS / felt, habit.Steepness));
        return test.Seconds is { } seconds ? seen * (1 - Math.Exp(-seconds / habit.SettleSeconds)) : seen;
    }

    /// <summary>The rate as this test feels it: pressure, wind, whether dye was ever there, nitrogen instead of
    /// refrigerant.</summary>
    private static double Felt(in LeakTest test, Habit habit, double rate, LeakSetting setting)
    {
        var felt = rate;
        if (habit.NeedsPressure)
        {
            // Not written down: half of rest drive, neither trusted nor thrown away.
            felt *= test.PressurePa is { } pressure ? setting.Drive(pressure) : 0.5;
            // Bubbles count volume: the same channel passes nitrogen by the ratio of viscosities.
            if (test.Kind == LeakTestKind.NitrogenAndSoap)
                felt *= setting.ViscosityRatio;
        }
        if (test.Kind is LeakTestKind.Detector or LeakTestKind.DrainSniff)
            felt *= test.Wind switch
            {
                0 => 1,
                1 => 0.5,
                _ => 0.12,
            };
        if (test.Kind is LeakTestKind.UvLamp or LeakTestKind.DrainDye)
            felt *= test.EverDyed switch
            {
                true => 1,
                null => 0.3,
                false => 0,
            };
        if (test.Kind == LeakTestKind.CoverAndWait && test.Seconds is { } waited)
            felt *= Math.Min(3, waited / 600);
        return felt;
    }

    /// <summary>Why a “nothing” of this test is no evidence, or none of these.</summary>
    public static LeakBlindness Blindness(in LeakTest test, LeakComponent component, LeakSetting setting)
    {
        if (Seen(test, component, WorthFinding, setting).Seen >= BlindBelow(component))
            return LeakBlindness.None;
        if (test.Kind is LeakTestKind.UvLamp or LeakTestKind.DrainDye && test.EverDyed == false)
            return LeakBlindness.NeverDyed;
        var habit = Of(test.Kind, component);
        if (habit.Reach < 0.35)
            return LeakBlindness.OutOfReach;
        if (habit.NeedsPressure && test.PressurePa is { } pressure && setting.Drive(pressure) < 0.45)
            return LeakBlindness.Pressure;
        if (test.Wind == 2 && test.Kind is LeakTestKind.Detector or LeakTestKind.DrainSniff)
            return LeakBlindness.Wind;
        if (test.Seconds is { } seconds && seconds < habit.SettleSeconds)
            return LeakBlindness.TooShort;
        return test.Kind is LeakTestKind.Soap or LeakTestKind.NitrogenAndSoap or LeakTestKind.OilTrace
            ? LeakBlindness.TooCoarse
            : LeakBlindness.None;
    }

    private static double BlindBelow(LeakComponent component) => component == LeakComponent.Evaporator ? 0.3 : 0.4;

    /// <summary>Minutes that a test at one more spot takes; common practice.</summary>
    public static double Minutes(LeakTestKind kind) =>
        kind switch
        {
            LeakTestKind.UvLamp => 2,
            LeakTestKind.Detector => 3,
            LeakTestKind.Soap => 3,
            LeakTestKind.CoverAndWait => 14,
            LeakTestKind.NitrogenAndSoap => 4,
            LeakTestKind.OilTrace => 1,
            LeakTestKind.DrainSniff => 8,
            _ => 3,
        };
}
