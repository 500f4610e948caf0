namespace Tightcold.Diagnosis.Measurement;

/// <summary>
/// How likely what was seen is, for modelled numbers: sight glass, frost, clutch, cycles. Every outcome keeps a few
/// percent under every truth: people look wrong. Figures assumed; docs/physics/diagnosis.md.
/// </summary>
internal static class SeenLikelihood
{
    private const double Slip = 0.03;

    public static double Log(OperatingPoint point, ReadOnlySpan<double> predicted)
    {
        var log = 0.0;
        if (point.Glass != GlassSeen.NotLooked) log += Math.Log(Glass(point.Glass, predicted));
        if (point.Frost != FrostSeen.NotLooked) log += Math.Log(Frost(point.Frost, predicted));
        if (point.Clutch != ClutchSeen.NotLooked) log += Math.Log(Clutch(point.Clutch, predicted));
        if (point.CyclesPerMinute is { } cycles) log += Math.Log(Cycles(cycles, predicted));
        return log;
    }

    public static double Glass(GlassSeen seen, ReadOnlySpan<double> predicted)
    {
        var bubbles = predicted[Predicted.Off] > 0 ? 0.1 : 0.02 + (0.93 * Logistic((predicted[Predicted.GlassQuality] - 0.01) / 0.008));
        return seen switch
        {
            GlassSeen.Bubbles => bubbles,
            // Milky: oil, or very fine bubbles.
            GlassSeen.Milky => 0.05 + (0.3 * bubbles),
            _ => 1 - bubbles,
        };
    }

    public static double Frost(FrostSeen seen, ReadOnlySpan<double> predicted)
    {
        if (predicted[Predicted.Off] > 0) return seen == FrostSeen.Nowhere ? 1 - (3 * Slip) : Slip;
        var throttle = (1 - (4 * Slip)) * Logistic((271.15 - predicted[Predicted.EvaporatingK]) / 1.5);
        var suction = (1 - (4 * Slip)) * Logistic((271.65 - predicted[(int)Channel.SuctionLine]) / 1.5);
        var drier = (1 - (4 * Slip)) * Logistic((predicted[Predicted.LineStepK] - 12) / 3);
        return Slip + seen switch
        {
            FrostSeen.AtThrottle => 0.7 * throttle * (1 - (0.6 * suction)),
            FrostSeen.OnSuctionLine => 0.8 * suction,
            FrostSeen.OnDrier => 0.5 * drier * (1 - suction),
            _ => (1 - (0.7 * throttle)) * (1 - (0.8 * suction)) * (1 - (0.5 * drier)),
        } * (1 - (4 * Slip));
    }

    public static double Clutch(ClutchSeen seen, ReadOnlySpan<double> predicted)
    {
        var off = predicted[Predicted.Off];
        var cycling = (1 - off) * Logistic((0.97 - predicted[Predicted.Duty]) / 0.02);
        return Slip + ((1 - (3 * Slip)) * seen switch
        {
            // A clutch may look engaged and yet not turn the compressor.
            ClutchSeen.On => (1 - off - cycling) + (0.15 * off),
            ClutchSeen.Off => 0.85 * off,
            _ => cycling,
        });
    }

    public static double Cycles(double seen, ReadOnlySpan<double> predicted)
    {
        var modelled = predicted[Predicted.Cycles];
        const double LogSigma = 0.5;
        if (seen < 0.2) return Slip + ((1 - Slip) * (1 - Logistic((modelled - 0.4) / 0.2)));
        if (modelled < 0.05) return Slip / 10;
        var x = Math.Log(seen / modelled) / LogSigma;
        // Density per cycle a minute, over the 20 that can be counted.
        return (Slip / 20) + ((1 - Slip) * Math.Exp(-0.5 * x * x) / (LogSigma * Math.Sqrt(2 * Math.PI) * seen));
    }

    private static double Logistic(double x) => 1 / (1 + Math.Exp(-Math.Clamp(x, -40, 40)));
}
