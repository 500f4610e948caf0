using Tightcold.Diagnosis.Leaks;
using Tightcold.Numerics.Distributions;
using Tightcold.Numerics.Interpolation;

namespace Tightcold.Diagnosis.Tightness;

/// <summary>Sums over the weighted pictures: each odds and distribution that is told.</summary>
internal sealed class TightnessSums(int spots, OctaveTable cools)
{
    public double Weight { get; set; }
    public double Cools { get; set; }
    public double AnotherRemains { get; set; }
    public double[] LeaksNow { get; } = new double[spots];
    public double[] LeaksBefore { get; } = new double[spots];
    public double[] TooMuch { get; } = new double[spots];

    /// <summary>Rates of a spot where it leaks, place by place on <see cref="RateGrid"/>.</summary>
    public double[] Rates { get; } = new double[spots * RateGrid.Count];
    public double[] TotalNow { get; } = new double[TotalGrid.Count];

    /// <summary>The same of leaks alone, without seeps; and the weight of cars without any.</summary>
    public double[] HolesNow { get; } = new double[TotalGrid.Count];
    public double NoHoles { get; set; }
    public double[] TotalBefore { get; } = new double[TotalGrid.Count];

    /// <summary>Share of what was lost that the found and mended places explain, in hundredths.</summary>
    public double[] Explained { get; } = new double[101];

    /// <summary>Odds that a car of this rate at rest, kg/s, still cools at the horizon.</summary>
    public double CoolsAt(double kgPerS) => cools.At(kgPerS);

    /// <summary>Those odds over the rate.</summary>
    public OctaveTable Curve => cools;

    /// <summary>The same, to be worked out.</summary>
    public static OctaveTable CoolsOver(TightnessQuestion question)
    {
        var room = Math.Max(question.ChargeKg - question.SufferingKg, 0);
        if (room <= 0)
            return new(1, 2, _ => 0);
        var line = room / (LossObservation.YearDuty * question.HorizonSeconds);
        // A steady rate is true to a third, and the charge to its own spread.
        var spread = Math.Sqrt(
            Math.Pow(LossObservation.Unsteadiness, 2) + Math.Pow(question.ChargeSigmaKg / Math.Max(room, 1e-3), 2)
        );
        var reach = Math.Exp(Certain * spread);
        return new(line / reach, line * reach, rate => Normal.Cumulative(Math.Log(line / rate) / spread));
    }

    /// <summary>So many standard deviations from the line nothing is open any more: 1e-9.</summary>
    private const double Certain = 6;
}
