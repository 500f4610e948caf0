using Tightcold.SecondWorld.Product;

namespace Tightcold.SecondWorld.Runs;

/// <summary>What a person has before the gauge table: bar gauge and °C.</summary>
internal readonly record struct PlainReading(
    double LowBar,
    double HighBar,
    double AmbientC,
    double? VentC,
    bool ClutchIn,
    bool? Variable,
    bool? Tube,
    bool Bubbles
);

/// <summary>
/// The ordinary gauge table of the trade (common practice, as taught in training pages): low, normal or high on either
/// side against the day, then the likely causes in order. No odds. It is the competitor that an inference must beat.
/// </summary>
internal static class PlainTable
{
    private const double PsiPerBar = 14.5038;

    public static IReadOnlyList<string> Of(PlainReading reading)
    {
        // High side 2.2 to 2.6 times the air's °F in psi, with a seventh to spare; low side 20 to 45 psi.
        var fahrenheit = 1.8 * reading.AmbientC + 32;
        double highFrom = 0.85 * 2.2 * fahrenheit / PsiPerBar,
            highTo = 1.15 * 2.6 * fahrenheit / PsiPerBar;
        const double LowFrom = 1.4,
            LowTo = 3.1;
        var low =
            reading.LowBar < LowFrom ? -1
            : reading.LowBar > LowTo ? 1
            : 0;
        var high =
            reading.HighBar < highFrom ? -1
            : reading.HighBar > highTo ? 1
            : 0;
        var throttle = reading.Tube == true ? "tube-plugged" : "valve-stuck-closed";
        var warm = reading.VentC is { } vent && vent > reading.AmbientC - 8;
        if (!reading.ClutchIn)
            return reading.LowBar < 2 ? ["undercharge", "clutch-dead"] : ["clutch-dead", "undercharge"];
        if (reading.HighBar - reading.LowBar < 1.5)
            return reading.Variable == true
                ? ["control-stuck-low", "compressor-worn"]
                : ["compressor-worn", "clutch-dead"];
        if (reading.LowBar < 0.2)
            return high > 0 ? ["line-restricted", throttle] : [throttle, "moisture-ice"];
        return (low, high) switch
        {
            (-1, -1) => ["undercharge", throttle],
            (-1, 1) => ["line-restricted", throttle],
            (-1, _) => warm ? [throttle, "undercharge"] : ["evaporator-air", throttle],
            (1, -1) => reading.Variable == true
                ? ["control-stuck-low", "compressor-worn"]
                : ["compressor-worn", "clutch-slips"],
            (1, 1) => reading.Bubbles ? ["air-inside", "condenser-air"] : ["condenser-air", "overcharge"],
            (1, _) => ["valve-stuck-open", "compressor-worn"],
            (_, -1) => ["undercharge", "compressor-worn"],
            (_, 1) => reading.Bubbles ? ["air-inside", "condenser-air"] : ["condenser-air", "overcharge"],
            _ => warm ? ["blend-door-leaks", CarAnswer.Sound] : [CarAnswer.Sound, "blend-door-leaks"],
        };
    }
}
