namespace Tightcold.Procedures.Vacuum;

/// <summary>What air drawn into an evacuated system says about refrigerant lost from a charged one.</summary>
public static class LeakEquivalent
{
    private const double GasConstant = 8.314462618;
    private const double AirMolarMassKgPerMol = 0.0289647;

    /// <summary>Viscosity of air over refrigerant vapour near room temperature: 18.2 / 11.8 µPa·s for R-134a; the
    /// other car refrigerants lie within 10 %.</summary>
    private const double ViscosityRatio = 1.55;

    /// <summary>Air flowing in, kg/s, from a throughput in Pa·m³/s: Q·M/(R·T).</summary>
    public static double AirKgPerS(double throughputPaM3PerS, double temperatureK) =>
        throughputPaM3PerS * AirMolarMassKgPerMol / (GasConstant * temperatureK);

    /// <summary>
    /// Refrigerant that the same hole would lose at <paramref name="systemPressurePa"/>, per kg of air drawn in at
    /// full vacuum, between the two laws of flow: a choked opening (∝ p·√M) at the least, a fine viscous channel
    /// (∝ (p₁² − p₂²)·M/µ) at the most. Nobody knows which law a given leak obeys, so both ends are shown.
    /// </summary>
    public static (double Least, double Most) RefrigerantPerAir(
        double molarMassKgPerMol,
        double systemPressurePa,
        double barometerPa
    )
    {
        var massRatio = molarMassKgPerMol / AirMolarMassKgPerMol;
        var pressureRatio = systemPressurePa / barometerPa;
        return (pressureRatio * Math.Sqrt(massRatio), (pressureRatio * pressureRatio - 1) * massRatio * ViscosityRatio);
    }
}
