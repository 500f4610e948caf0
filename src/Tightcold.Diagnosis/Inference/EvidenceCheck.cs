using Tightcold.Diagnosis.Measurement;
using Tightcold.Diagnosis.Priors;

namespace Tightcold.Diagnosis.Inference;

/// <summary>The public wall of the diagnosis: what passes is a number.</summary>
internal static class EvidenceCheck
{
    public static void Finite(DiagnosisEvidence evidence)
    {
        foreach (var visit in evidence.Earlier)
            Positive(visit.SecondsBefore, nameof(SoundVisit));
        foreach (var point in evidence.Points.Concat(evidence.Earlier.SelectMany(visit => visit.Points)))
        {
            foreach (var reading in point.Readings)
            {
                Wall(reading.Value, reading.Channel.ToString());
                Positive(reading.SigmaInstrument, reading.Channel.ToString());
                Wall(reading.Step, reading.Channel.ToString());
            }

            Wall(
                point.AmbientK
                    + point.AmbientSigmaK
                    + point.RelativeHumidity
                    + point.HumiditySigma
                    + point.BarometricPa
                    + point.EngineRpm
                    + point.EngineSigma
                    + point.BlowerShare
                    + point.FreshShare
                    + (point.CabinK ?? 0)
                    + point.CabinSigmaK
                    + (point.CyclesPerMinute ?? 0)
                    + (point.CabinRelativeHumidity ?? 0)
                    + (point.MinutesRunning ?? 0),
                nameof(OperatingPoint)
            );
        }

        if (evidence.SoundBefore is { } sound && !(sound >= 0.01 && sound <= 0.96))
            throw new ArgumentOutOfRangeException(
                nameof(evidence),
                sound,
                "SoundBefore: odds from 0.01 to 0.96 are wanted."
            );
        foreach (var standing in evidence.Standing)
        {
            Wall(standing.PressurePa + standing.TemperatureK + standing.TemperatureSigmaK, nameof(StandingPressure));
            Positive(standing.SigmaPa, nameof(StandingPressure));
        }

        if (evidence.Weighed is { } weighed)
        {
            Wall(weighed.ChargeKg, nameof(WeighedCharge));
            Positive(weighed.SigmaKg, nameof(WeighedCharge));
        }

        if (evidence.History is not { } history)
            return;
        Positive(history.Seconds, nameof(ChargeHistory));
        Wall(history.SecondsSpread, nameof(ChargeHistory));
        if (history.Left is { } left)
        {
            Wall(left.Share, nameof(ChargeHistory));
            Positive(left.Sigma, nameof(ChargeHistory));
        }

        if (history.LostBefore is not { } lost)
            return;
        Wall(lost.LostKg + lost.DurationSpread, nameof(ChargeHistory));
        Positive(lost.SigmaKg, nameof(ChargeHistory));
        Positive(lost.Seconds, nameof(ChargeHistory));
        Positive(lost.Duty, nameof(ChargeHistory));
    }

    private static void Wall(double value, string name)
    {
        if (!double.IsFinite(value))
            throw new ArgumentOutOfRangeException(name, value, "A finite number is wanted.");
    }

    private static void Positive(double value, string name)
    {
        if (!(value > 0 && double.IsFinite(value)))
            throw new ArgumentOutOfRangeException(name, value, "A spread above 0 is wanted.");
    }
}
