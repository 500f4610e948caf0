namespace Tightcold.Properties.Helmholtz;

/// <summary>Everything one evaluation of the equation yields at one (T, rho), with the derivatives solvers ask
/// for.</summary>
internal readonly record struct PointProperties(
    double TemperatureK,
    double Delta,
    double DensityKgPerM3,
    double PressurePa,
    double InternalEnergyJPerKg,
    double EnthalpyJPerKg,
    double EntropyJPerKgK,
    double GasConstant,
    double CaloricCurvature,
    double ThermalPressure,
    double Stiffness,
    double ResidualEntropyJPerKgK,
    double LogFugacityByDensity,
    double Tau,
    double ResidualD,
    double ResidualDt,
    double ResidualDd
)
{
    public double CvJPerKgK => -GasConstant * CaloricCurvature;

    public double CpJPerKgK => CvJPerKgK + (GasConstant * ThermalPressure * ThermalPressure / Stiffness);

    /// <summary>w^2 = R T (K + N^2 R / cv).</summary>
    public double SpeedOfSoundSquared =>
        GasConstant * TemperatureK * (Stiffness - (ThermalPressure * ThermalPressure / CaloricCurvature));

    /// <summary>dp/drho at constant T.</summary>
    public double PressureByDensity => GasConstant * TemperatureK * Stiffness;

    /// <summary>dp/dT at constant rho.</summary>
    public double PressureByTemperature => DensityKgPerM3 * GasConstant * ThermalPressure;

    /// <summary>dh/drho at constant T: R T / rho (delta A_d + delta^2 A_dd + delta tau A_dt).</summary>
    public double EnthalpyByDensity =>
        GasConstant * TemperatureK / DensityKgPerM3 * (ResidualD + ResidualDd + ResidualDt);

    /// <summary>dh/dT at constant rho: cv + R N.</summary>
    public double EnthalpyByTemperature => CvJPerKgK + (GasConstant * ThermalPressure);

    /// <summary>ds/drho at constant T: -(dp/dT)/rho^2.</summary>
    public double EntropyByDensity => -GasConstant * ThermalPressure / DensityKgPerM3;

    /// <summary>ds/dT at constant rho: cv/T.</summary>
    public double EntropyByTemperature => CvJPerKgK / TemperatureK;
}
