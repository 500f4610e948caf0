namespace Tightcold.Diagnosis.Leaks;

/// <summary>What is thought of a spot before it is checked.</summary>
/// <param name="Leaks">Probability that it leaks beyond its kind's normal seep, for a car that came because it lost
/// refrigerant.</param>
/// <param name="SeepKgPerS">Median of its normal seep.</param>
/// <param name="MedianKgPerS">Median of its rate when it leaks.</param>
/// <param name="Reach">How well a lamp, probe or brush gets to it, 0 to 1.</param>
/// <param name="RepairFails">Probability that a repair there does not hold.</param>
public readonly record struct LeakPrior(
    double Leaks,
    double SeepKgPerS,
    double MedianKgPerS,
    double Reach,
    double RepairFails
)
{
    /// <summary>One gram a year, kg/s.</summary>
    public const double GramPerYear = 1e-3 / (365.25 * 86400);

    /// <summary>Spread of the logarithm of a leak's rate; of a normal seep's.</summary>
    public const double LeakSpread = 1.1;
    public const double SeepSpread = 0.6;

    /// <summary>
    /// By kind. Normal seeps after the emission summaries of R-134a cars (shaft seal 10 to 30 g/yr in older cars, hoses
    /// 10 to 20 g/yr together, O-ring joints below 1 to 3, capped ports 0.3 to 1); odds of a real leak and reach by
    /// trade practice. docs/physics/leaks.md names sources and says which are assumed.
    /// </summary>
    public static LeakPrior Of(LeakComponent component) =>
        component switch
        {
            LeakComponent.ShaftSeal => Make(0.16, 5, 80, 0.80, 0.05),
            LeakComponent.CompressorBody => Make(0.05, 0.5, 60, 0.80, 0.03),
            LeakComponent.Hose => Make(0.07, 5, 90, 0.85, 0.03),
            LeakComponent.Joint => Make(0.07, 1, 90, 0.90, 0.08),
            LeakComponent.Condenser => Make(0.24, 0.5, 130, 0.75, 0.03),
            LeakComponent.Evaporator => Make(0.08, 0.5, 90, 0.55, 0.03),
            LeakComponent.Drier => Make(0.05, 0.5, 80, 0.85, 0.05),
            LeakComponent.Pipe => Make(0.05, 0.3, 100, 0.80, 0.03),
            LeakComponent.ServiceValve => Make(0.08, 0.7, 70, 0.95, 0.06),
            LeakComponent.Sensor => Make(0.04, 0.7, 60, 0.90, 0.05),
            LeakComponent.ValveBlock => Make(0.05, 1, 80, 0.75, 0.08),
            LeakComponent.Relief => Make(0.03, 0.3, 80, 0.85, 0.05),
            _ => Make(0.04, 0.3, 80, 0, 0.10),
        };

    /// <summary>The figures above are shares of leaks over kinds; times this, a car with one found leak and nothing
    /// else checked has another with about two in five, and a leaking car 1.3 leaks on average. Assumed.</summary>
    private const double PerCar = 0.45;

    private static LeakPrior Make(double leaks, double seepGrams, double medianGrams, double reach, double fails) =>
        new(PerCar * leaks, seepGrams * GramPerYear, medianGrams * GramPerYear, reach, fails);
}
