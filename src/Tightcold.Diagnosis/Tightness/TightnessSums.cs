using Tightcold.Diagnosis.Leaks;
using Tightcold.Numerics.Distributions;

namespace Tightcold.Diagnosis.Tightness;

/// <summary>Sums over the weighted pictures: each odds and distribution that is told.</summary>
internal sealed class TightnessSums(int spots, TightnessQuestion question)
{
    private readonly double logRoom = Math.Log(
        Math.Max(question.ChargeKg - question.SufferingKg, 1e-9) / (LossObservation.YearDuty * question.HorizonSeconds)
    );

    /// <summary>A steady rate is true to a third, and the charge to its own spread.</summary>
    private readonly double spread = Math.Sqrt(
        Math.Pow(LossObservation.Unsteadiness, 2)
            + Math.Pow(question.ChargeSigmaKg / Math.Max(question.ChargeKg - question.SufferingKg, 1e-3), 2)
    );

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

    /// <summary>Odds that a car of this rate at rest still cools at the horizon.</summary>
    public double CoolsAt(double logKgPerS) =>
        question.ChargeKg <= question.SufferingKg ? 0 : Normal.Cumulative((logRoom - logKgPerS) / spread);
}
