using Tightcold.Loop.Designs;
using Tightcold.Loop.Solving;

namespace Tightcold.Loop.Results;

/// <summary>Names for what a point and its readings show.</summary>
internal static class RegimeNames
{
    private const double VisibleQuality = 0.005;
    private const double StarvedSuperheatK = 15;
    private const double WetSuction = 0.9;

    public static LoopRegimes Of(in LoopCase c, in LoopPoint p, in LoopReadings r, double offWeight)
    {
        var regimes = LoopRegimes.None;
        if (offWeight > 0.5)
            regimes |= LoopRegimes.Off;
        if (p.LineQuality > VisibleQuality)
            regimes |= LoopRegimes.LineFlashing;
        if (p.SuperheatK > StarvedSuperheatK)
            regimes |= LoopRegimes.EvaporatorStarved;
        if (p.LineQuality >= 1)
            regimes |= LoopRegimes.NoCondensation;
        if (p.SuctionQuality < WetSuction)
            regimes |= LoopRegimes.LiquidCarryOver;
        if (r.LowSidePa < c.Coil.BarometricPa)
            regimes |= LoopRegimes.Vacuum;
        if (c.Kind is CompressorKind.Variable or CompressorKind.Electric && r.Stroke < 1.02 * Least(c))
            regimes |= LoopRegimes.LeastCapacity;
        if (
            r.Duty > 0.99
            && r.CondensateKgPerS > 1e-6
            && ReadingMaker.BoilingFinK(c, p) < 273.15
            && p.BoilingShare > 0.1
        )
            regimes |= LoopRegimes.Icing;
        return regimes;
    }

    public static LoopState Foremost(LoopRegimes r)
    {
        bool Has(LoopRegimes one) => (r & one) != 0;
        return Has(LoopRegimes.MostlyAir) ? LoopState.MostlyAir
            : Has(LoopRegimes.Off) ? LoopState.Off
            : Has(LoopRegimes.LiquidFull) ? LoopState.LiquidFull
            : Has(LoopRegimes.HighSwitchActing) ? LoopState.HighPressureCutOut
            : Has(LoopRegimes.LowSwitchCycling | LoopRegimes.FinCycling) ? LoopState.Cycling
            : Has(LoopRegimes.LiquidCarryOver) ? LoopState.Flooded
            : Has(LoopRegimes.LineFlashing | LoopRegimes.EvaporatorStarved) ? LoopState.Starved
            : Has(LoopRegimes.Icing) ? LoopState.Icing
            : LoopState.Steady;
    }

    private static double Least(in LoopCase c) =>
        c.Kind == CompressorKind.Electric ? c.Design.ElectricMinRpm / c.Design.ElectricMaxRpm : c.Design.MinStroke;
}
