using Tightcold.Properties.Helmholtz;

namespace Tightcold.Properties.Transport;

/// <summary>The form of Laesecke and Muzny 2017 for carbon dioxide ("co2_2017").</summary>
internal sealed class CarbonDioxideViscosity : ViscosityModel
{
    public required double MolarMassKgPerMol { get; init; }

    public required double GasConstantJPerMolK { get; init; }

    public required double SigmaM { get; init; }

    public required double EpsilonOverK { get; init; }

    public required double Prefactor { get; init; }

    public required double[] A { get; init; }

    public required (double B, double T)[] Initial { get; init; }

    public required double AvogadroPerMol { get; init; }

    public required double C1 { get; init; }

    public required double C2 { get; init; }

    public required double Gamma { get; init; }

    public required double TripleTemperatureK { get; init; }

    public required double TripleLiquidDensityKgPerM3 { get; init; }

    public required double Scale { get; init; }

    public override double Dilute(double temperatureK)
    {
        var third = Math.Cbrt(temperatureK);
        var sum =
            A[0]
            + (A[1] * Math.Sqrt(third))
            + (A[2] * Math.Exp(A[3] * third))
            + ((A[4] + (A[5] * third)) * Math.Exp(-third))
            + (A[6] * Math.Sqrt(temperatureK));
        return Prefactor * Math.Sqrt(temperatureK) / sum;
    }

    public override double Evaluate(in PointProperties point)
    {
        var reduced = point.TemperatureK / EpsilonOverK;
        var initial = 0.0;
        foreach (var (b, t) in Initial)
            initial += b * Math.Pow(reduced, t);
        initial *= AvogadroPerMol * SigmaM * SigmaM * SigmaM * point.DensityKgPerM3 / MolarMassKgPerMol;
        var x = point.DensityKgPerM3 / TripleLiquidDensityKgPerM3;
        var y = point.TemperatureK / TripleTemperatureK;
        var scale =
            Math.Pow(TripleLiquidDensityKgPerM3, 2.0 / 3)
            * Math.Sqrt(GasConstantJPerMolK * TripleTemperatureK)
            / (Math.Pow(MolarMassKgPerMol, 1.0 / 6) * Scale);
        return (Dilute(point.TemperatureK) * (1 + initial))
            + (scale * ((C1 * y * x * x * x) + (((x * x) + Math.Pow(x, Gamma)) / (y - C2))));
    }
}
