using Tightcold.Diagnosis.Faults;
using Tightcold.Diagnosis.Measurement;
using Tightcold.Diagnosis.Priors;

namespace Tightcold.Diagnosis.Inference;

/// <summary>The evidence made ready: likelihoods, and the same numbers as one vector with a covariance for fitting
/// proposals.</summary>
internal sealed class DataModel
{
    private const double WeighedAnything = 1 / 1.5;

    private readonly double labelKg;
    private readonly bool seenPulledIn;

    /// <param name="evidence">All that speaks of the car.</param>
    /// <param name="memory">What it was like when it was sound; null where nobody knows.</param>
    public DataModel(DiagnosisEvidence evidence, CarMemory? memory = null)
    {
        SharedModel = memory?.SharedModel;
        Evidence = evidence;
        labelKg = CarPrior.LabelOf(evidence.Car);
        History = evidence.History is { } history ? ChargeByHistory.Of(history, labelKg) : null;
        seenPulledIn = evidence.Points.Any(point => point.Clutch is ClutchSeen.On or ClutchSeen.Cycling);
        Readings = new ReadingLikelihood(evidence.Points, SharedModel);
        Features = Readings.Items.Length + evidence.Standing.Length + (evidence.Weighed is null ? 0 : 1);
        Row = (evidence.Points.Length * Predicted.Width) + (2 * evidence.Standing.Length) + 1;
    }

    public DiagnosisEvidence Evidence { get; }

    /// <summary>What is still not known of this car's fixed errors, by channel; null where nothing is.</summary>
    public double[]? SharedModel { get; }

    public ReadingLikelihood Readings { get; }

    /// <summary>What the last filling says of the charge; null without one.</summary>
    public ChargeByHistory? History { get; }

    public int PointCount => Evidence.Points.Length;

    /// <summary>Numbers kept of each car tried: its points, then standing and saturation pressures, then its
    /// charge.</summary>
    public int Row { get; }

    /// <summary>Continuous data.</summary>
    public int Features { get; }

    /// <summary>Factor of the last filling on the odds of a tried car; 1 without one.</summary>
    public double HistoryFactor(ReadOnlySpan<double> row) => History?.Factor(row[Row - 1] / labelKg) ?? 1;

    /// <summary>Standing readings, the scale and the last filling.</summary>
    public double LogRest(ReadOnlySpan<double> row)
    {
        var log = 0.0;
        for (var i = 0; i < Evidence.Standing.Length; i++)
        {
            var at = (PointCount * Predicted.Width) + (2 * i);
            log += StandingLikelihood.Log(Evidence.Standing[i], row[at], row[at + 1]);
        }

        if (Evidence.Weighed is { } weighed)
        {
            var x = (weighed.ChargeKg - row[Row - 1]) / weighed.SigmaKg;
            log += Math.Log(
                ((1 - ErrorModel.GrossChance) * ReadingLikelihood.Student(x) / weighed.SigmaKg)
                    + (ErrorModel.GrossChance * WeighedAnything)
            );
        }

        return History is null ? log : log + Math.Log(HistoryFactor(row));
    }

    /// <summary>ln p of the data if they belong to no car on the list: every instrument anywhere on its scale, every
    /// outcome seen by chance.</summary>
    public double LogAnything()
    {
        var log = Readings.Items.Sum(item => Math.Log(ErrorModel.Anything((Channel)item.Channel)));
        foreach (var point in Evidence.Points)
        {
            log += Math.Log(SeenLikelihood.Anything(point));
            if (point.CyclesPerMinute is not null)
                log += Math.Log(1 / 10.0);
        }

        foreach (var sign in Evidence.Signs)
            log += Math.Log(SignOdds.Anything(sign));
        log += Evidence.Standing.Length * Math.Log(ErrorModel.Anything(Channel.LowSide));
        return Evidence.Weighed is null ? log : log + Math.Log(WeighedAnything);
    }

    /// <summary>ln of the odds of all that was looked at, felt or tried, for a car at its first way of
    /// running.</summary>
    public double LogSigns(IReadOnlyList<Fault> faults, CarSimulator.Car car, ReadOnlySpan<double> first)
    {
        var log = 0.0;
        foreach (var sign in Evidence.Signs)
            log += Math.Log(SignOdds.Of(sign, faults, car.Faults, first, car.HasTube));
        if (seenPulledIn)
            for (var i = 0; i < faults.Count; i++)
                log += Math.Log(faults[i].PulledIn);
        return log;
    }

    /// <summary>Whether a shortage that does not show counts as sound: while nothing but running gauges speaks of
    /// it.</summary>
    public bool HiddenIsSound => Evidence.Weighed is null && !Evidence.Points.IsEmpty;

    /// <summary>Datum <paramref name="feature"/> as read and as modelled in a row.</summary>
    public (double Read, double Modelled) Feature(int feature, ReadOnlySpan<double> row)
    {
        if (feature < Readings.Items.Length)
        {
            var item = Readings.Items[feature];
            return (item.Value, row[(item.Point * Predicted.Width) + item.Channel]);
        }

        var standing = feature - Readings.Items.Length;
        return standing < Evidence.Standing.Length
            ? (Evidence.Standing[standing].PressurePa, row[(PointCount * Predicted.Width) + (2 * standing)])
            : (Evidence.Weighed!.Value.ChargeKg, row[Row - 1]);
    }

    /// <summary>Covariance of two data given the model.</summary>
    public double Covariance(int i, int j)
    {
        var count = Readings.Items.Length;
        if (i >= count || j >= count)
            return i != j ? 0
                : i - count < Evidence.Standing.Length ? StandingVariance(Evidence.Standing[i - count])
                : Square(Evidence.Weighed!.Value.SigmaKg);
        var (a, b) = (Readings.Items[i], Readings.Items[j]);
        return a.Channel != b.Channel ? 0 : (a.Shared * b.Shared) + (i == j ? a.Own * a.Own : 0);
    }

    private static double StandingVariance(in StandingPressure reading) =>
        Square(reading.SigmaPa)
        + Square(0.029 * reading.PressurePa * reading.TemperatureSigmaK)
        + Square(0.02 * reading.PressurePa);

    private static double Square(double x) => x * x;
}
