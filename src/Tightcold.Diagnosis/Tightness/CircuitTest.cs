using Tightcold.Diagnosis.Leaks;
using Tightcold.Numerics.Interpolation;

namespace Tightcold.Diagnosis.Tightness;

/// <summary>One piece of evidence on the whole circuit, ready for the sampler: a table over a sum of rates.</summary>
internal sealed class CircuitTest
{
    private const double GasConstant = 8.314462618,
        AirMolarMass = 0.0289647,
        NitrogenMolarMass = 0.0280134;

    private CircuitTest(CircuitTestKind kind, double time, double[] log)
    {
        Kind = kind;
        Time = time;
        Log = log;
    }

    public CircuitTestKind Kind { get; }
    public double Time { get; }

    /// <summary>ln L, on <see cref="FlowGrid"/> for holds and nitrogen, on <see cref="RateGrid"/> for losses.</summary>
    public double[] Log { get; }
    public bool WithHoses { get; private init; } = true;
    public bool HosesAlone { get; private init; }

    /// <summary>ln of Pa·m³/s at the test for each kg/s at rest, for an opening and for a fine channel.</summary>
    public double LogChoked { get; private init; }
    public double LogViscous { get; private init; }

    public static CircuitTest Of(VacuumHold hold, TestTable table, LeakSetting setting, double temperatureK)
    {
        var (least, most) = Procedures.Vacuum.LeakEquivalent.RefrigerantPerAir(
            setting.MolarMassKgPerMol,
            setting.RestPressurePa,
            setting.BarometerPa
        );
        var perAir = Math.Log(GasConstant * temperatureK / AirMolarMass);
        return new(CircuitTestKind.Vacuum, hold.Time, table.Log)
        {
            WithHoses = hold.WithHoses || hold.HosesAlone,
            HosesAlone = hold.HosesAlone,
            LogChoked = perAir - Math.Log(least),
            LogViscous = perAir - Math.Log(most),
        };
    }

    public static CircuitTest Of(NitrogenTest test, TestTable table, LeakSetting setting, double temperatureK)
    {
        var pressure = test.Readings[0].PressurePa;
        var same = Math.Log(setting.Throughput(1, temperatureK));
        return new(CircuitTestKind.Nitrogen, test.Time, table.Log)
        {
            WithHoses = test.WithHoses,
            LogChoked =
                same
                + Math.Log(
                    pressure / setting.RestPressurePa * Math.Sqrt(setting.MolarMassKgPerMol / NitrogenMolarMass)
                ),
            LogViscous = same + Math.Log(Math.Max(setting.Drive(pressure), 1e-6) * setting.ViscosityRatio),
        };
    }

    public static CircuitTest Of(MassLoss loss) =>
        new(CircuitTestKind.Loss, loss.Time, MassTable.Of(loss)) { WithHoses = false };

    /// <summary>Law of flow of a leak at a share of all leaks: 0 an opening, 1 a fine channel, a little beyond for what
    /// neither law knows. A hundred grams a year through a channel flow at Reynolds numbers near 10: most lie near
    /// 1.</summary>
    public static double LawAt(double share) => 1.08 * Math.Cbrt(share);

    /// <summary>ln(Pa·m³/s per kg/s at rest) for a law of flow between opening (0) and fine channel (1).</summary>
    public double LogFactor(double law) =>
        Kind == CircuitTestKind.Loss ? 0 : LogChoked + law * (LogViscous - LogChoked);

    /// <summary>What a place that only seeps passes: hoses and lips let gas through by its own solubility, and air and
    /// nitrogen far less than refrigerant; assumed a third of what a fine channel would.</summary>
    private const double SeepShare = 1.0 / 3;

    public double SeepFactor =>
        Kind == CircuitTestKind.Loss ? 1 : SeepShare * Math.Exp(Math.Min(LogChoked, LogViscous));

    /// <summary>Likelihood against its peak over a sum of rates: kg/s for losses; Pa·m³/s over m³ for the others.</summary>
    public OctaveTable Likelihood =>
        likelihood ??=
            Kind == CircuitTestKind.Loss
                ? Over(RateGrid.At, RateGrid.LeastKgPerS, RateGrid.MostKgPerS)
                : Over(FlowGrid.At, FlowGrid.LeastPaPerS, FlowGrid.MostPaPerS);

    private OctaveTable? likelihood;

    private OctaveTable Over(Func<double[], double, double> at, double least, double most)
    {
        var top = Log.Max();
        return new(least, most, sum => Math.Exp(at(Log, Math.Log(sum)) - top));
    }

    /// <summary>Whether it says the same of every car.</summary>
    public bool SaysTheSame(CircuitTest other) =>
        Kind == other.Kind
        && Time == other.Time
        && WithHoses == other.WithHoses
        && HosesAlone == other.HosesAlone
        && LogChoked == other.LogChoked
        && LogViscous == other.LogViscous
        && Log.AsSpan().SequenceEqual(other.Log);
}
