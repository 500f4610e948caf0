namespace Tightcold.SecondWorld.Leaks;

/// <summary>How gas goes through a leak.</summary>
public enum LeakKind
{
    /// <summary>Pores: flow goes with the difference of pressures and the square root of the molar mass.</summary>
    Molecular,

    /// <summary>
    /// A long fine way: flow goes with the difference of squared pressures and one over the viscosity.
    /// </summary>
    Laminar,

    /// <summary>A hole: choked at the speed of sound.</summary>
    Orifice,

    /// <summary>A seal lip: lets out what presses on it, and shuts when the air presses from outside.</summary>
    Lip,
}

/// <summary>
/// One leak, sized by what it loses as refrigerant: g a year of R-134a gas at 25 °C saturation (6.65 bar absolute) to
/// the air. Flow laws: Knudsen, Poiseuille for gas, and the choked nozzle, as in textbooks of vacuum practice (from
/// memory).
/// </summary>
/// <param name="GramPerYear">Loss at that reference, g/yr.</param>
/// <param name="Kind">Flow law.</param>
/// <param name="ShutShare">Of a lip: the share that still passes inwards, 0 to 1.</param>
public readonly record struct Leak(double GramPerYear, LeakKind Kind, double ShutShare = 0)
{
    public const double ReferencePa = 665e3;
    public const double AirPa = 101325;
    private const double Gas = 8.314462618;
    private const double ReferenceK = 298.15;
    private const double SecondsPerYear = 365.25 * 86400;

    /// <summary>Gas volume flow times pressure at the reference, Pa·m³/s.</summary>
    private double ReferenceFlow =>
        GramPerYear / 1000 / SecondsPerYear / GasKind.Refrigerant.MolarKg * Gas * ReferenceK;

    /// <summary>
    /// Flow of a gas from one side to the other, Pa·m³/s at 25 °C; positive from <paramref name="fromPa"/> to
    /// <paramref name="toPa"/>.
    /// </summary>
    /// <param name="gas">What flows.</param>
    /// <param name="fromPa">Absolute.</param>
    /// <param name="toPa">Absolute, lower.</param>
    /// <param name="inwards">True when it flows into the circuit: a lip shuts then.</param>
    public double Flow(GasKind gas, double fromPa, double toPa, bool inwards)
    {
        if (fromPa <= toPa)
            return 0;
        var reference = GasKind.Refrigerant;
        return Kind switch
        {
            LeakKind.Molecular => ReferenceFlow
                * (fromPa - toPa)
                / (ReferencePa - AirPa)
                * Math.Sqrt(reference.MolarKg / gas.MolarKg),
            LeakKind.Laminar => Laminar(gas, fromPa, toPa),
            LeakKind.Orifice => ReferenceFlow * Choked(gas, fromPa, toPa) / Choked(reference, ReferencePa, AirPa),
            _ => (inwards ? ShutShare : 1) * Laminar(gas, fromPa, toPa),
        };
    }

    private double Laminar(GasKind gas, double fromPa, double toPa) =>
        ReferenceFlow
        * (fromPa * fromPa - toPa * toPa)
        / (ReferencePa * ReferencePa - AirPa * AirPa)
        * GasKind.Refrigerant.ViscosityPaS
        / gas.ViscosityPaS;

    /// <summary>Nozzle flow by volume times pressure, up to a constant.</summary>
    private static double Choked(GasKind gas, double fromPa, double toPa)
    {
        var k = gas.Isentrope;
        var ratio = Math.Max(toPa / fromPa, Math.Pow(2 / (k + 1), k / (k - 1)));
        return fromPa
            * Math.Sqrt(2 * k / (k - 1) / gas.MolarKg * (Math.Pow(ratio, 2 / k) - Math.Pow(ratio, (k + 1) / k)));
    }
}
