using Tightcold.Numerics.Distributions;
using Tightcold.Procedures.Evacuation;
using Tightcold.Properties;

namespace Tightcold.Diagnosis.Tightness;

/// <summary>Odds of every mass of water before a hold: what came in while it stood open, less what the pump
/// took.</summary>
internal static class WaterPrior
{
    /// <summary>Time in which the pump takes most of what is left; from a film to water in oil and ice. Assumed,
    /// log-uniform.</summary>
    private static readonly double[] FadesSeconds = [900, 2000, 4500, 10_000, 22_000];

    /// <summary>A circuit found open to air may hold rain or condensate; assumed, kg.</summary>
    private const double FoundOpenKg = 2e-3;

    /// <summary>Minutes that the pump-down hung where water boils, from which some grams are likelier than not;
    /// assumed.</summary>
    private const double HangsSeconds = 600;

    public static double[] Of(WaterEvidence water, double ambientK)
    {
        var (came, spread) = WaterGuess.Of(water.OpenSeconds, water.VapourKgPerM3, water.NewDrier);
        if (water.FoundOpen)
            came = Math.Max(came, FoundOpenKg);
        spread = Math.Max(1.0, spread);
        // Ice gives off far less: the pump's time counts by the vapour pressure against that at 20 °C. Parts whose
        // temperature nobody took may be 8 K colder than the air.
        var partK = water.PartTemperatureK ?? ambientK - 8;
        var pumped =
            water.PumpedSeconds
            * Math.Min(1, WaterVapour.SaturationPressurePa(partK) / WaterVapour.SaturationPressurePa(293.15));
        var hung = Hung(water, partK);
        var odds = new double[WaterGrid.Count];
        for (var w = 0; w < odds.Length; w++)
        {
            foreach (var fades in FadesSeconds)
            {
                var left = Math.Log(came) - Math.Min(pumped / fades, 12);
                odds[w] += Upper(w, left, spread) - (w == 0 ? 0 : Upper(w - 1, left, spread));
            }
            var grams = 1e3 * WaterGrid.Kilograms[w];
            odds[w] *= hung > HangsSeconds ? 0.05 + grams / (grams + 1) : 1;
        }
        var sum = odds.Sum();
        for (var w = 0; w < odds.Length; w++)
            odds[w] /= sum;
        return odds;
    }

    /// <summary>Odds of at most the upper end of this entry.</summary>
    private static double Upper(int w, double logMedian, double spread) =>
        w == WaterGrid.Count - 1
            ? 1
            : Normal.Cumulative((Math.Log(WaterGrid.Kilograms[w]) + 0.5 * WaterGrid.StepLog - logMedian) / spread);

    /// <summary>Seconds that the pressure hung between a third of water's vapour pressure and all of it.</summary>
    private static double Hung(WaterEvidence water, double partK)
    {
        var boils = WaterVapour.SaturationPressurePa(partK);
        var seconds = 0.0;
        for (var i = 1; i < water.PumpDown.Length; i++)
        {
            var (before, now) = (water.PumpDown[i - 1], water.PumpDown[i]);
            if (before.PressurePa < 1.3 * boils && now.PressurePa > boils / 3)
                seconds += now.Seconds - before.Seconds;
        }
        return seconds;
    }
}
