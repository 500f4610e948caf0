using Tightcold.LeakTests;

namespace Tightcold.Diagnosis.Leaks;

/// <summary>
/// What each test shows of a leak: P(at least a trace | rate) = f + (1 − f)·a·1/(1 + (q₅₀/q)ᵏ), with the rate q at the
/// pressure of the moment; the figures stand with each test (<see cref="LeakTestKind"/>).
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

    /// <summary>How well a test gets to a spot, 0 to 1.</summary>
    private static double Reach(LeakTestKind kind, LeakComponent component) =>
        (component == LeakComponent.Evaporator ? kind.Reach.Evaporator : kind.Reach.Others)
        ?? LeakPrior.Of(component).Reach;

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
        if (residue && test.Kind.Goes(Feels.Residue))
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
        var felt = Felt(test, rateKgPerS, setting);
        var falseAlarm = FalseAlarm(test);
        var seen = SeenOf(test, component, felt);
        var any = falseAlarm + (1 - falseAlarm) * seen;
        var (grams, steepness) = test.Kind.HalfSeen;
        var clearShare = felt > 0 ? 1 / (1 + Math.Pow(ClearFactor * (grams * Gram) / felt, steepness)) : 0;
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
    ) => (SeenOf(test, component, Felt(test, rateKgPerS, setting)), FalseAlarm(test));

    private static double FalseAlarm(in LeakTest test) =>
        test.Kind.Goes(Feels.Dye) && test.OldDye ? 0.2 : test.Kind.FalseAlarm;

    private static double SeenOf(in LeakTest test, LeakComponent component, double felt)
    {
        if (!(felt > 0))
            return 0;
        var kind = test.Kind;
        var seen = Reach(kind, component) / (1 + Math.Pow(kind.HalfSeen.Grams * Gram / felt, kind.HalfSeen.Steepness));
        return test.Seconds is { } seconds ? seen * (1 - Math.Exp(-seconds / kind.SettleSeconds)) : seen;
    }

    /// <summary>The rate as this test feels it: pressure, wind, whether dye was ever there, nitrogen instead of
    /// refrigerant.</summary>
    private static double Felt(in LeakTest test, double rate, LeakSetting setting)
    {
        var felt = rate;
        if (test.Kind.Goes(Feels.Pressure))
        {
            // Not written down: half of rest drive, neither trusted nor thrown away.
            felt *= test.PressurePa is { } pressure ? setting.Drive(pressure) : 0.5;
            // Bubbles count volume: the same channel passes nitrogen by the ratio of viscosities.
            if (test.Kind.Goes(Feels.Nitrogen))
                felt *= setting.ViscosityRatio;
        }
        if (test.Kind.Goes(Feels.Wind))
            felt *= test.Wind switch
            {
                0 => 1,
                1 => 0.5,
                _ => 0.12,
            };
        if (test.Kind.Goes(Feels.Dye))
            felt *= test.EverDyed switch
            {
                true => 1,
                null => 0.3,
                false => 0,
            };
        if (test.Kind.GathersSeconds is { } once && test.Seconds is { } waited)
            felt *= Math.Min(3, waited / once);
        return felt;
    }

    /// <summary>Why a “nothing” of this test is no evidence, or none of these.</summary>
    public static LeakBlindness Blindness(in LeakTest test, LeakComponent component, LeakSetting setting)
    {
        if (Seen(test, component, WorthFinding, setting).Seen >= BlindBelow(component))
            return LeakBlindness.None;
        if (test.Kind.Goes(Feels.Dye) && test.EverDyed == false)
            return LeakBlindness.NeverDyed;
        if (Reach(test.Kind, component) < 0.35)
            return LeakBlindness.OutOfReach;
        if (test.Kind.Goes(Feels.Pressure) && test.PressurePa is { } pressure && setting.Drive(pressure) < 0.45)
            return LeakBlindness.Pressure;
        if (test.Wind == 2 && test.Kind.Goes(Feels.Wind))
            return LeakBlindness.Wind;
        if (test.Seconds is { } seconds && seconds < test.Kind.SettleSeconds)
            return LeakBlindness.TooShort;
        return test.Kind.Goes(Feels.Coarse) ? LeakBlindness.TooCoarse : LeakBlindness.None;
    }

    private static double BlindBelow(LeakComponent component) => component == LeakComponent.Evaporator ? 0.3 : 0.4;
}
