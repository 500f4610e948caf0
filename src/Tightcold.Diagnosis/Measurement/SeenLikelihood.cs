namespace Tightcold.Diagnosis.Measurement;

/// <summary>
/// How likely what was seen is, for modelled numbers: sight glass, frost, clutch, cycles. Every outcome keeps a few
/// percent under every truth: people look wrong. Figures assumed; docs/physics/diagnosis.md.
/// </summary>
internal static class SeenLikelihood
{
    private const double Slip = 0.03;
    private const double SeenTurning = 0.05;
    private const double WetK = 0.5,
        WetSuction = 0.45;
    private const double AirBubbles = 0.5,
        MuchAirBubbles = 0.8,
        MuchAirPa = 1.2e5;

    public static double Log(OperatingPoint point, ReadOnlySpan<double> predicted)
    {
        var log = 0.0;
        if (point.Glass != GlassSeen.NotLooked)
            log += Math.Log(Glass(point.Glass, predicted));
        if (point.Frost != FrostSeen.NotLooked)
            log += Math.Log(Frost(point.Frost, predicted));
        if (point.Clutch != ClutchSeen.NotLooked)
            log += Math.Log(Clutch(point.Clutch, predicted));
        if (point.CyclesPerMinute is { } cycles)
            log += Math.Log(Cycles(cycles, predicted));
        return log;
    }

    /// <summary>What eyes tell of cars of no known kind: as often as people report it. Assumed.</summary>
    public static double Anything(OperatingPoint point)
    {
        var glass = point.Glass switch
        {
            GlassSeen.Clear => 0.5,
            GlassSeen.Bubbles => 0.35,
            GlassSeen.Milky => 0.15,
            _ => 1,
        };
        var clutch = point.Clutch switch
        {
            ClutchSeen.On => 0.6,
            ClutchSeen.Off or ClutchSeen.Cycling => 0.2,
            _ => 1,
        };
        return glass
            * clutch
            * point.Frost switch
            {
                FrostSeen.Nowhere => 0.65,
                FrostSeen.AtThrottle => 0.12,
                FrostSeen.OnSuctionLine => 0.15,
                FrostSeen.OnDrier => 0.05,
                _ => 1,
            };
    }

    public static double Glass(GlassSeen seen, ReadOnlySpan<double> predicted)
    {
        var bubbles =
            predicted[Predicted.Off] > 0
                ? 0.1
                : 0.02 + (0.93 * Logistic((predicted[Predicted.GlassQuality] - 0.008) / 0.0025));
        // Air shows as bubbles too (two makers' fault tables).
        if (predicted[Predicted.AirPa] > 0)
            bubbles = Math.Max(bubbles, predicted[Predicted.AirPa] > MuchAirPa ? MuchAirBubbles : AirBubbles);
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
        if (predicted[Predicted.Off] > 0)
            return seen == FrostSeen.Nowhere ? 1 - (2 * Slip) - RareSlip : SlipOf(seen);
        // Only liquid that flashes makes cold: a circuit so empty that vapour comes to the throttle frosts nothing
        // there.
        var liquid = 1 - Logistic((predicted[Predicted.GlassQuality] - 0.6) / 0.08);
        var throttle = (1 - (4 * Slip)) * liquid * Logistic((271.15 - predicted[Predicted.EvaporatingK]) / 1.5);
        var suction = (1 - (4 * Slip)) * Logistic((271.65 - predicted[(int)Channel.SuctionLine]) / 1.5);
        // Liquid that comes back past a valve makes the pipe run with water, which people call frost (fault tables do).
        if (predicted[Predicted.Tube] == 0 && predicted[Predicted.SuperheatK] < WetK)
            suction = Math.Max(suction, WetSuction);
        var drier = (1 - (4 * Slip)) * Logistic((predicted[(int)Channel.LineStep] - 12) / 3);
        return SlipOf(seen)
            + (
                seen switch
                {
                    FrostSeen.AtThrottle => 0.7 * throttle * (1 - (0.6 * suction)),
                    FrostSeen.OnSuctionLine => 0.8 * suction,
                    FrostSeen.OnDrier => 0.5 * drier * (1 - suction),
                    _ => (1 - (0.7 * throttle)) * (1 - (0.8 * suction)) * (1 - (0.5 * drier)),
                } * (1 - (3 * Slip) - RareSlip)
            );
    }

    // Nobody sees frost on a drier by chance.
    private const double RareSlip = 0.006;

    private static double SlipOf(FrostSeen seen) => seen == FrostSeen.OnDrier ? RareSlip : Slip;

    public static double Clutch(ClutchSeen seen, ReadOnlySpan<double> predicted)
    {
        var off = predicted[Predicted.Off];
        var cycling = (1 - off) * Logistic((0.97 - predicted[Predicted.Duty]) / 0.02);
        return Slip
            + (
                (1 - (3 * Slip))
                * seen switch
                {
                    // A plate that turns is easily seen; one that is pulled in and turns nothing is rare.
                    ClutchSeen.On => (1 - off - cycling) + (SeenTurning * off),
                    ClutchSeen.Off => (1 - SeenTurning) * off,
                    _ => cycling,
                }
            );
    }

    public static double Cycles(double seen, ReadOnlySpan<double> predicted)
    {
        var modelled = predicted[Predicted.Cycles];
        const double LogSigma = 0.5;
        if (seen < 0.2)
            return Slip + ((1 - Slip) * (1 - Logistic((modelled - 0.4) / 0.2)));
        if (modelled < 0.05)
            return Slip / 10;
        var x = Math.Log(seen / modelled) / LogSigma;
        // Density per cycle a minute, over the 20 that can be counted.
        return (Slip / 20) + ((1 - Slip) * Math.Exp(-0.5 * x * x) / (LogSigma * Math.Sqrt(2 * Math.PI) * seen));
    }

    private static double Logistic(double x) => 1 / (1 + Math.Exp(-Math.Clamp(x, -40, 40)));
}
