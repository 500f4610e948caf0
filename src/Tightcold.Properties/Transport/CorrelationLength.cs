using Tightcold.Properties.Helmholtz;

namespace Tightcold.Properties.Transport;

/// <summary>The correlation length of critical fluctuations in water, xi = xi0 (dchi/Gamma0)^(nu/gamma) (R12-08, eq.
/// 20-21), nm.</summary>
internal sealed record CorrelationLength(double Nu, double Gamma, double Xi0Nm, double Gamma0)
{
    public double Nm(
        in PointProperties point,
        ReferenceStiffness reference,
        double temperatureK,
        double densityKgPerM3,
        double pressurePa
    )
    {
        var rho = point.DensityKgPerM3 / densityKgPerM3;
        var scale = pressurePa / densityKgPerM3;
        var here = scale / point.PressureByDensity;
        var there = scale / reference.PressureByDensity(point.Delta);
        var excess = rho * (here - (there * reference.TemperatureK / point.TemperatureK));
        return excess > 0 ? Xi0Nm * Math.Pow(excess / Gamma0, Nu / Gamma) : 0;
    }
}
