namespace Tightcold.Procedures.Cans;

/// <summary>From inside the can to the system: the can's tap and the port's core as one small opening, then a
/// hose.</summary>
/// <param name="OpeningAreaM2">Discharge coefficient times area of tap and core, m².</param>
/// <param name="HoseBoreM">Bore, m.</param>
/// <param name="HoseLengthM">Length, m.</param>
public readonly record struct FlowPath(double OpeningAreaM2, double HoseBoreM, double HoseLengthM)
{
    /// <summary>Smooth pipe at Reynolds numbers near 20 000 (Darcy): 0.025; textbook chart.</summary>
    private const double FrictionFactor = 0.025;

    /// <summary>
    /// Isentropic exponent of refrigerant vapour near saturation, about 1.1; with it the critical ratio is 0.585.
    /// </summary>
    private const double Exponent = 1.1;

    /// <summary>An opening like that of a usual can tap: 0.5 to 2 g/s of vapour at 2 bar of difference (common
    /// practice) is 1.4e-7 to 5.6e-7 m²; the middle is taken.</summary>
    public const double UsualOpeningM2 = 2.8e-7;

    /// <summary>The true opening lies between this factor below and above.</summary>
    public const double OpeningSpread = 2;

    public static FlowPath Usual(double hoseBoreM, double hoseLengthM) => new(UsualOpeningM2, hoseBoreM, hoseLengthM);

    /// <summary>Opening and hose in series: 1/a² = 1/a₁² + f·(l/d)/a₂², since both lose pressure with the square of the
    /// flow.</summary>
    public double EffectiveAreaM2
    {
        get
        {
            var bore = Math.PI / 4 * HoseBoreM * HoseBoreM;
            return 1
                / Math.Sqrt(
                    1 / (OpeningAreaM2 * OpeningAreaM2) + FrictionFactor * HoseLengthM / HoseBoreM / (bore * bore)
                );
        }
    }

    /// <summary>
    /// Vapour, kg/s: isentropic nozzle ṁ = a·√(2·κ/(κ−1)·p₁ρ₁·(r^(2/κ) − r^((κ+1)/κ))), r = p₂/p₁ not below the
    /// critical ratio (2/(κ+1))^(κ/(κ−1)); textbook gas dynamics. 0 when the pressure stands the other way.
    /// </summary>
    public double VapourKgPerS(double fromPa, double densityKgPerM3, double toPa)
    {
        if (toPa >= fromPa)
            return 0;
        var critical = Math.Pow(2 / (Exponent + 1), Exponent / (Exponent - 1));
        var ratio = Math.Max(toPa / fromPa, critical);
        var shape = Math.Pow(ratio, 2 / Exponent) - Math.Pow(ratio, (Exponent + 1) / Exponent);
        return EffectiveAreaM2
            * Math.Sqrt(2 * Exponent / (Exponent - 1) * fromPa * densityKgPerM3 * Math.Max(0, shape));
    }

    /// <summary>Liquid, kg/s: ṁ = a·√(2·ρ·Δp), Bernoulli; it flashes behind the opening, so that this is the
    /// most.</summary>
    public double LiquidKgPerS(double fromPa, double densityKgPerM3, double toPa) =>
        toPa >= fromPa ? 0 : EffectiveAreaM2 * Math.Sqrt(2 * densityKgPerM3 * (fromPa - toPa));
}
