using Tightcold.Numerics.Smoothing;

namespace Tightcold.Diagnosis.Measurement;

/// <summary>Water that freezes in the throttle and thaws again: how often a reading finds it frozen.</summary>
internal static class Ice
{
    // The jet behind the throttle is the coldest place, and ice once there keeps itself cold: near 0 °C of evaporating
    // it is frozen more often than not when somebody looks, above 8 °C one time in four. Assumed.
    private const double NeverAboveK = 281.15,
        BandK = 8,
        Least = 0.25,
        Most = 0.65;

    /// <param name="evaporatingK">With the throttle clear.</param>
    public static double Chance(double evaporatingK) =>
        Least + ((Most - Least) * Smooth.Step((NeverAboveK - evaporatingK) / BandK));

    /// <summary>The needle goes from the frozen state to the clear one and back: its ends are theirs.</summary>
    public static void Swing(Span<double> clear, ReadOnlySpan<double> iced)
    {
        var (low, high) = (clear[(int)Channel.LowSide], clear[(int)Channel.HighSide]);
        clear[(int)Channel.LowSwingTop] = Math.Max(low, iced[(int)Channel.LowSide]);
        clear[(int)Channel.LowSide] = Math.Min(low, iced[(int)Channel.LowSide]);
        clear[(int)Channel.HighSwingTop] = Math.Max(high, iced[(int)Channel.HighSide]);
        clear[(int)Channel.HighSide] = 0.5 * (high + iced[(int)Channel.HighSide]);
        clear[(int)Channel.Vent] = 0.5 * (clear[(int)Channel.Vent] + iced[(int)Channel.Vent]);
        clear[Predicted.SwingPa] = clear[(int)Channel.LowSwingTop] - clear[(int)Channel.LowSide];
    }
}
