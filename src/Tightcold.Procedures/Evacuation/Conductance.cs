namespace Tightcold.Procedures.Evacuation;

/// <summary>How easily air of about 20 °C flows through a round pipe under vacuum, m³/s.</summary>
/// <remarks>Viscous and molecular flow added, which meets both ends and errs by at most about 20 % between (Knudsen's
/// formula lies near the sum). Vacuum textbooks; the metric forms are 135·d⁴·p̄/L (mbar, cm, L/s) and
/// 12.1·d³/L.</remarks>
public static class Conductance
{
    /// <summary>Viscosity of air at 20 °C, Pa·s.</summary>
    public const double AirViscosityPaS = 1.82e-5;

    /// <summary>Hagen–Poiseuille: π·d⁴·p̄/(128·µ·L).</summary>
    public static double Viscous(double boreM, double lengthM, double meanPressurePa) =>
        Math.PI * Math.Pow(boreM, 4) * meanPressurePa / (128 * AirViscosityPaS * lengthM);

    /// <summary>Long pipe in molecular flow: (d³/L)·√(π·R·T/(18·M)) = 121·d³/L m³/s for air at 20 °C.</summary>
    public static double Molecular(double boreM, double lengthM)
    {
        const double Air20C = 121.0;
        return Air20C * Math.Pow(boreM, 3) / lengthM;
    }

    /// <summary>Both together at the mean pressure.</summary>
    public static double Pipe(double boreM, double lengthM, double meanPressurePa) =>
        Viscous(boreM, lengthM, meanPressurePa) + Molecular(boreM, lengthM);

    /// <summary>One behind the other: 1/C = 1/C₁ + 1/C₂.</summary>
    public static double InSeries(double first, double second) => 1 / (1 / first + 1 / second);
}
