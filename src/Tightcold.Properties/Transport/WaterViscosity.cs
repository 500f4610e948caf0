using Tightcold.Properties.Helmholtz;

namespace Tightcold.Properties.Transport;

/// <summary>The form of IAPWS R12-08 for water ("iapws_2008"; Huber et al. 2009), with its critical
/// enhancement.</summary>
internal sealed class WaterViscosity : ViscosityModel
{
    // Below this correlation length the series of the crossover function is used (R12-08, eq. 17).
    private const double ShortLengthNm = 0.3817016416;

    public required ReferenceStiffness Reference { get; init; }

    public required double TemperatureK { get; init; }

    public required double DensityKgPerM3 { get; init; }

    public required double PressurePa { get; init; }

    public required double UnitPaS { get; init; }

    public required double DiluteTop { get; init; }

    public required double[] DiluteBottom { get; init; }

    public required (int I, int J, double H)[] Finite { get; init; }

    public required double Strength { get; init; }

    public required double QcPerNm { get; init; }

    public required double QdPerNm { get; init; }

    public required CorrelationLength Length { get; init; }

    public override double Dilute(double temperatureK) => UnitPaS * DiluteReduced(temperatureK / TemperatureK);

    public override double Evaluate(in PointProperties point)
    {
        var t = point.TemperatureK / TemperatureK;
        var rho = point.DensityKgPerM3 / DensityKgPerM3;
        return UnitPaS
            * DiluteReduced(t)
            * Math.Exp(rho * DoublePolynomial.Sum(Finite, (1 / t) - 1, rho - 1))
            * Critical(point);
    }

    private double DiluteReduced(double t)
    {
        var sum = 0.0;
        for (var i = DiluteBottom.Length - 1; i >= 0; i--)
            sum = (sum / t) + DiluteBottom[i];
        return DiluteTop * Math.Sqrt(t) / sum;
    }

    private double Critical(in PointProperties point)
    {
        var xi = Length.Nm(point, Reference, TemperatureK, DensityKgPerM3, PressurePa);
        double qc = QcPerNm * xi,
            qd = QdPerNm * xi;
        double y;
        if (xi < ShortLengthNm)
        {
            y = 0.2 * qc * Math.Pow(qd, 5) * (1 - qc + (qc * qc) - (765.0 / 504 * qd * qd));
        }
        else
        {
            var angle = Math.Acos(1 / Math.Sqrt(1 + (qd * qd)));
            var w = Math.Sqrt(Math.Abs((qc - 1) / (qc + 1))) * Math.Tan(0.5 * angle);
            var l = qc > 1 ? Math.Log((1 + w) / (1 - w)) : 2 * Math.Atan(Math.Abs(w));
            y =
                (Math.Sin(3 * angle) / 12)
                - (Math.Sin(2 * angle) / (4 * qc))
                + ((1 - (1.25 * qc * qc)) * Math.Sin(angle) / (qc * qc))
                - ((((1 - (1.5 * qc * qc)) * angle) - (Math.Pow(Math.Abs((qc * qc) - 1), 1.5) * l)) / (qc * qc * qc));
        }

        return Math.Exp(Strength * y);
    }
}
