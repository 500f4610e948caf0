using Tightcold.Diagnosis.Inference;
using Tightcold.Diagnosis.Measurement;
using Tightcold.Diagnosis.Priors;
using Tightcold.Loop.Designs;
using Tightcold.Studies.Faults;

namespace Tightcold.Diagnosis.Tests.Odds;

/// <summary>A car on the usual test: warm day, fresh air, full blower, 1500 turns a minute, dial gauges of class
/// 1.6.</summary>
internal static class ACase
{
    public const double Air = 101_325;

    public static readonly CarKnowledge Valve = new("R134a")
    {
        LabelChargeKg = 0.55,
        Compressor = CompressorKind.FixedWithFinThermostat,
        Expansion = ExpansionKind.ExpansionValve,
    };

    public static OperatingPoint Point(double celsius = 32, double rpm = 1500) =>
        new()
        {
            AmbientK = celsius + 273.15,
            RelativeHumidity = 0.5,
            HumiditySigma = 0.06,
            EngineRpm = rpm,
        };

    public static OperatingPoint Gauges(this OperatingPoint point, double lowBarGauge, double highBarGauge) =>
        point with
        {
            Readings =
            [
                .. point.Readings,
                new(Channel.LowSide, (lowBarGauge * 1e5) + Air, 0.14e5, 0.1e5),
                new(Channel.HighSide, (highBarGauge * 1e5) + Air, 0.28e5, 0.5e5),
            ],
        };

    public static OperatingPoint At(this OperatingPoint point, Channel channel, double celsius) =>
        point with
        {
            Readings = point.Readings.Add(new(channel, celsius + 273.15, 0.8)),
        };

    public static DiagnosisEvidence Of(params OperatingPoint[] points) => new(Valve) { Points = [.. points] };

    public static FaultOdds Diagnose(DiagnosisEvidence evidence, ulong seed = 7) =>
        Diagnoser.Diagnose(evidence, Effort.Full, seed);

    /// <summary>Faults (and nothing wrong, none of these) by their odds over all explanations, likeliest
    /// first.</summary>
    public static string[] Ranked(FaultOdds answer) =>
        [.. CarScore.Marginal(answer).OrderByDescending(pair => pair.Value).Select(pair => pair.Key)];
}
