namespace Tightcold.Loop.Solving;

/// <summary>Where Newton begins when nothing nearer is known.</summary>
internal static class Starts
{
    public const int Count = 3;

    public static void Get(in LoopCase c, in LoopBox box, int attempt, out double logSuction, out double logDischarge, out double h1)
    {
        // Practice: condensing 15 K over the air, evaporating a third of the way from 2 °C to the inlet air.
        var inlet = c.Coil.AirInK - 298.15;
        var evaporatingK = 275.15 + (0.35 * inlet);
        var condensingK = c.CondenserAirK + 15;
        var quality = 1.0;
        var superheat = 6.0;
        if (attempt == 1)
        {
            evaporatingK -= 25;
            condensingK = c.CondenserAirK + 4;
            superheat = 25;
        }
        else if (attempt == 2)
        {
            condensingK = c.CondenserAirK + 28;
            evaporatingK += 6;
            quality = 0.93;
            superheat = 0;
        }

        evaporatingK = Math.Clamp(evaporatingK, 235, c.Coil.AirInK - 6);
        condensingK = Math.Min(condensingK, c.Table.CriticalTemperatureK - 6);
        logSuction = Math.Clamp(Math.Log(c.Table.SaturationPressurePa(evaporatingK)), box.MinLogSuction, box.MaxLogSuction);
        logDischarge = Math.Clamp(Math.Log(c.Table.SaturationPressurePa(condensingK)), box.MinLogDischarge, box.MaxLogDischarge);
        c.Table.Row(logSuction, out var row);
        h1 = quality < 1
            ? row.LiquidEnthalpy + (quality * row.Latent)
            : row.SuperheatedEnthalpy(Math.Min(superheat, 0.8 * (c.Coil.AirInK - evaporatingK)));
    }
}
