namespace Tightcold.Procedures.Evacuation;

/// <summary>Pump, hoses and system, SI.</summary>
/// <param name="FreeAirM3PerS">The pump's free-air rate.</param>
/// <param name="UltimatePa">The pressure at which it moves nothing more.</param>
/// <param name="HoseBoreM">Of each service hose.</param>
/// <param name="HoseLengthM">Of each service hose.</param>
/// <param name="BothSides">Two hoses at two ports; else one, and the far side empties through the expansion
/// device.</param>
/// <param name="CoresIn">Pulling through the valve cores.</param>
/// <param name="VolumeM3">Internal volume.</param>
/// <param name="BarometerPa">Where the system starts.</param>
/// <param name="PartTemperatureK">Coldest part.</param>
/// <param name="WaterKg">Liquid water inside, best guess.</param>
/// <param name="WaterSpread">Standard deviation of its logarithm.</param>
/// <param name="OilM3">Oil that gives off gas.</param>
public sealed record EvacuationSetup(
    double FreeAirM3PerS,
    double UltimatePa,
    double HoseBoreM,
    double HoseLengthM,
    bool BothSides,
    bool CoresIn,
    double VolumeM3,
    double BarometerPa,
    double PartTemperatureK,
    double WaterKg,
    double WaterSpread,
    double OilM3
)
{
    /// <summary>A bare hose passes this many times what it does through a valve core: 3 to 6; assumed.</summary>
    public const double CoreResistance = 4;

    /// <summary>From the port to the pump at this mean pressure, m³/s; the core multiplies a hose's
    /// resistance.</summary>
    public double PathConductance(double meanPressurePa, double coreResistance = CoreResistance) =>
        (BothSides ? 2 : 1) * Conductance.Pipe(HoseBoreM, HoseLengthM, meanPressurePa) / (CoresIn ? coreResistance : 1);

    /// <summary>The pump's own rate falls to nothing at its ultimate pressure: S₀·(1 − p_ult/p).</summary>
    public double PumpRate(double pressurePa) =>
        FreeAirM3PerS * Math.Max(0, 1 - UltimatePa / Math.Max(pressurePa, 1e-6));
}
