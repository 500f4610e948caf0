using System.Globalization;

namespace Tightcold.Diagnosis.Tightness;

/// <summary>What evidence must be like; one sentence names field, value and what is allowed.</summary>
internal static class EvidenceRules
{
    public static void Check(TightnessEvidence evidence)
    {
        var (size, question) = (evidence.Size, evidence.Question);
        Between(size.VolumeM3, 1e-4, 0.1, "internal volume, m³");
        Between(size.VolumeSpread, 0, 1.5, "spread of the internal volume");
        Between(size.HoseVolumeM3, 1e-6, 0.02, "volume of the hoses, m³");
        Between(size.OilM3, 1e-6, 0.01, "volume of oil, m³");
        Between(size.AmbientK, 223, 343, "ambient temperature, K");
        Between(evidence.Setting.BarometerPa, 4e4, 1.2e5, "air pressure, Pa");
        Between(evidence.Setting.RestPressurePa, 1.2e5, 1e7, "pressure at rest, Pa");
        Between(question.HorizonSeconds, 86_400, 50 * Leaks.LeakForecast.Year, "time it should still cool, s");
        Between(question.ChargeKg, 0, 50, "charge, kg");
        Between(question.SufferingKg, 0, 50, "charge below which cooling suffers, kg");
        Between(question.ChargeSigmaKg, 0, 10, "standard deviation of the charge, kg");
        Between(question.WaterLimitKg, 1e-6, 1, "limit of water, kg");
        foreach (var hold in evidence.Holds)
        {
            Apart(
                hold.Readings.Length,
                hold.Readings.Length < 2 ? [] : hold.Readings.Select(reading => reading.SecondsSinceStart),
                "hold"
            );
            foreach (var reading in hold.Readings)
            {
                Between(reading.PressurePa, 0, 1.3e5, "pressure of a hold, Pa");
                Between(reading.StepPa, 1e-3, 2e4, "step of the vacuum gauge, Pa");
                Between(reading.ScatterPa, 1e-3, 2e4, "scatter of the vacuum gauge, Pa");
                if (reading.TemperatureK is { } kelvins)
                    Between(kelvins, 223, 373, "temperature of a hold, K");
            }
        }
        foreach (var test in evidence.Nitrogen)
        {
            Apart(
                test.Readings.Length,
                test.Readings.Length < 2 ? [] : test.Readings.Select(reading => reading.SecondsSinceStart),
                "pressure test"
            );
            Between(test.StepPa, 1, 2e5, "step of the gauge, Pa");
            Between(test.ScatterPa, 1, 2e5, "scatter of the gauge, Pa");
            foreach (var reading in test.Readings)
            {
                Between(reading.PressurePa, 0, 5e6, "pressure of a pressure test, Pa");
                if (reading.TemperatureK is { } kelvins)
                    Between(kelvins, 223, 373, "temperature of a pressure test, K");
            }
        }
        foreach (var loss in evidence.Losses)
        {
            Between(loss.Seconds, 1, 100 * Leaks.LeakForecast.Year, "time of a loss, s");
            Between(loss.SigmaKg, 1e-6, 10, "standard deviation of a loss, kg");
            Between(loss.LostKg, -10, 50, "mass lost, kg");
        }
        foreach (var charge in evidence.Charges)
        {
            Between(charge.Kilograms, -0.5, 50, "mass of a charge, kg");
            Between(charge.SigmaKg, 0, 10, "standard deviation of a charge, kg");
        }
    }

    private static void Apart(int count, IEnumerable<double> seconds, string what)
    {
        if (count < 2)
            throw new ArgumentException($"A {what} needs at least two readings; it has {count}.");
        double first = double.NaN,
            last = double.NegativeInfinity;
        foreach (var each in seconds)
        {
            if (!double.IsFinite(each) || each < last)
                throw new ArgumentException($"The readings of a {what} must be in the order of time.");
            if (double.IsNaN(first))
                first = each;
            last = each;
        }
        if (!(last > first))
            throw new ArgumentException($"The readings of a {what} must lie apart in time.");
    }

    private static void Between(double value, double least, double most, string name)
    {
        if (value >= least && value <= most)
            return;
        throw new ArgumentException(
            string.Create(
                CultureInfo.InvariantCulture,
                $"The {name}, is {value:G6}; allowed is {least:G6} to {most:G6}."
            )
        );
    }
}
