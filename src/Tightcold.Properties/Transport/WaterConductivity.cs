using Tightcold.Properties.Helmholtz;

namespace Tightcold.Properties.Transport;

/// <summary>The form of IAPWS R15-11 for water ("iapws_2011"; Huber et al. 2012), with its critical
/// enhancement.</summary>
internal sealed class WaterConductivity : ConductivityModel
{
    // Where y is this small the enhancement is set to zero (R15-11, eq. 19).
    private const double NoEnhancement = 1.2e-7;

    public required ReferenceStiffness Reference { get; init; }

    public required double TemperatureK { get; init; }

    public required double DensityKgPerM3 { get; init; }

    public required double PressurePa { get; init; }

    public required double UnitWPerMK { get; init; }

    public required double GasConstantJPerKgK { get; init; }

    public required double[] DiluteBottom { get; init; }

    public required (int I, int J, double L)[] Finite { get; init; }

    public required double Amplitude { get; init; }

    public required double QdPerNm { get; init; }

    public required CorrelationLength Length { get; init; }

    public override double Evaluate(in PointProperties point, double viscosityPaS)
    {
        var t = point.TemperatureK / TemperatureK;
        var rho = point.DensityKgPerM3 / DensityKgPerM3;
        var bottom = 0.0;
        for (var i = DiluteBottom.Length - 1; i >= 0; i--)
            bottom = (bottom / t) + DiluteBottom[i];
        var value = Math.Sqrt(t) / bottom * Math.Exp(rho * DoublePolynomial.Sum(Finite, (1 / t) - 1, rho - 1));
        var y = QdPerNm * Length.Nm(point, Reference, TemperatureK, DensityKgPerM3, PressurePa);
        if (y >= NoEnhancement)
        {
            double cp = point.CpJPerKgK,
                ratio = point.CvJPerKgK / cp;
            var z =
                2
                / (Math.PI * y)
                * (
                    (((1 - ratio) * Math.Atan(y)) + (ratio * y))
                    - (1 - Math.Exp(-1 / ((1 / y) + (y * y / (3 * rho * rho)))))
                );
            value += Amplitude * rho * cp / GasConstantJPerKgK * t / (viscosityPaS * 1e6) * z;
        }

        return UnitWPerMK * value;
    }
}
