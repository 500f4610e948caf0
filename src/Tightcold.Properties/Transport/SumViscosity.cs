using Tightcold.Properties.Helmholtz;

namespace Tightcold.Properties.Transport;

/// <summary>
/// Dilute gas, initial density dependence (Rainwater-Friend) and a residual of polynomial and free-volume terms:
/// R-134a (Huber et al. 2003), nitrogen and air (Lemmon and Jacobsen 2004).
/// </summary>
internal sealed class SumViscosity : ViscosityModel
{
    public required double MolarMassKgPerMol { get; init; }

    public required double SigmaM { get; init; }

    public required double EpsilonOverK { get; init; }

    public required double DiluteFactor { get; init; }

    public required double DiluteMolarMassKgPerMol { get; init; }

    /// <summary>Powers of ln T* in the exponent of the collision integral.</summary>
    public required (double A, double T)[] Collision { get; init; }

    /// <summary>Powers of T* in the second viscosity virial; empty without one.</summary>
    public required (double B, double T)[] Initial { get; init; }

    public required double AvogadroPerMol { get; init; }

    public required double ResidualTemperatureK { get; init; }

    public required double ResidualDensityMolPerM3 { get; init; }

    public required (double A, double D, double T, double Gamma, double L)[] Polynomial { get; init; }

    public required (double F, double D, double T)[] FreeVolume { get; init; }

    public required (double G, double H)[] FreeVolumeTop { get; init; }

    public required (double P, double Q)[] FreeVolumeBottom { get; init; }

    public override double Dilute(double temperatureK)
    {
        var log = Math.Log(temperatureK / EpsilonOverK);
        var sum = 0.0;
        foreach (var (a, t) in Collision)
            sum += a * Math.Pow(log, t);
        var sigma = 1e9 * SigmaM;
        return DiluteFactor
            * Math.Sqrt(1000 * DiluteMolarMassKgPerMol * temperatureK)
            / (sigma * sigma * Math.Exp(sum));
    }

    public override double Evaluate(in PointProperties point) =>
        Dilute(point.TemperatureK) + Background(point.TemperatureK, point.DensityKgPerM3 / MolarMassKgPerMol);

    public override double Background(double temperatureK, double densityMolPerM3)
    {
        var initial = 0.0;
        if (Initial.Length > 0)
        {
            var reduced = temperatureK / EpsilonOverK;
            foreach (var (b, t) in Initial)
                initial += b * Math.Pow(reduced, t);
            initial *= AvogadroPerMol * SigmaM * SigmaM * SigmaM * densityMolPerM3 * Dilute(temperatureK);
        }

        var delta = densityMolPerM3 / ResidualDensityMolPerM3;
        var tau = ResidualTemperatureK / temperatureK;
        var polynomial = 0.0;
        foreach (var (a, d, t, gamma, l) in Polynomial)
            polynomial +=
                a * Math.Pow(delta, d) * Math.Pow(tau, t) * (gamma == 0 ? 1 : Math.Exp(gamma * Math.Pow(delta, l)));
        double factor = 0,
            top = 0,
            bottom = 0;
        foreach (var (f, d, t) in FreeVolume)
            factor += f * Math.Pow(delta, d) * Math.Pow(tau, t);
        if (factor == 0)
            return initial + polynomial;
        foreach (var (g, h) in FreeVolumeTop)
            top += g * Math.Pow(tau, h);
        foreach (var (p, q) in FreeVolumeBottom)
            bottom += p * Math.Pow(tau, q);
        var closest = top / bottom;
        return initial + polynomial + (factor * ((1 / (closest - delta)) - (1 / closest)));
    }
}
