using Tightcold.Diagnosis.Leaks;

namespace Tightcold.Diagnosis.Tightness;

/// <summary>Water left inside: the guess from openings, drier and pumping, weighed by the last hold on an absolute
/// gauge.</summary>
internal static class DrynessInference
{
    /// <summary>Below this the odds of water are named as the doubt; parts colder than this hide water as
    /// ice.</summary>
    private const double ColdK = 278.15;

    public static DrynessBelief Of(TightnessEvidence evidence, TestTables tables)
    {
        var odds = (double[])tables.Water.Clone();
        var before = Share(odds, evidence.Question.WaterLimitKg);
        int? used = null;
        for (var i = evidence.Holds.Length - 1; i >= 0 && used is null; i--)
            if (!evidence.Holds[i].HosesAlone && !evidence.Holds[i].OnDial)
                used = i;
        double? floor = null;
        var settles = false;
        if (used is { } at && tables.Hold(at).ByWater is { } byWater)
        {
            // The leak of this hold as the hold itself sees it: from even odds of none and of any size.
            var logs = byWater.Select(row => LogMean(row)).ToArray();
            var top = logs.Max();
            for (var w = 0; w < odds.Length; w++)
                odds[w] *= Math.Exp(logs[w] - top) + 0.005;
            var sum = odds.Sum();
            for (var w = 0; w < odds.Length; w++)
                odds[w] /= sum;
            settles = Array.IndexOf(logs, top) > 0 && Share(odds, evidence.Question.WaterLimitKg) < before;
            for (var w = odds.Length - 1; w >= 0 && logs[w] < top - Math.Log(9); w--)
                floor = WaterGrid.Kilograms[w];
        }
        var dry = Share(odds, evidence.Question.WaterLimitKg);
        // A hold that speaks for dry needs its temperature: without one the guess alone stands at the most between
        // both.
        var temperature = used is { } held
            ? evidence.Holds[held].Readings[^1].TemperatureK
            : evidence.Water.PartTemperatureK;
        if (temperature is null && dry > before)
            dry = 0.5 * (dry + before);
        var doubt =
            dry >= TightnessInference.ProvenFrom ? DrynessDoubt.None
            : settles ? DrynessDoubt.Settles
            : used is null ? DrynessDoubt.NotHeld
            : temperature is null ? DrynessDoubt.NoTemperature
            : temperature < ColdK ? DrynessDoubt.ColdParts
            : DrynessDoubt.PumpedTooShort;
        return new(dry, LeakQuantiles.Of(odds.Select((odd, w) => (WaterGrid.Kilograms[w], odd))), doubt, floor);
    }

    private static double LogMean(double[] row)
    {
        var log = double.NegativeInfinity;
        for (var q = 1; q < row.Length; q++)
            log = TrendModel.LogSum(log, row[q]);
        return TrendModel.LogSum(row[0], log - Math.Log(row.Length - 1));
    }

    private static double Share(double[] odds, double limitKg)
    {
        var sum = 0.0;
        for (var w = 0; w < odds.Length; w++)
        {
            // Straight in ln(mass) within the entry that the limit lies in.
            var part = (Math.Log(limitKg) - Math.Log(WaterGrid.Kilograms[w])) / WaterGrid.StepLog + 0.5;
            sum += odds[w] * Math.Clamp(part, 0, 1);
        }
        return sum;
    }
}
