namespace Tightcold.SecondWorld.Cars;

/// <summary>A fault and how bad it is: 0 just there, 1 as bad as it gets.</summary>
public readonly record struct Fault(FaultKind Kind, double Severity)
{
    private const double GasConstant = 8.314462618;
    private const double LiquidKgPerM3 = 1100;
    private const double NominalKgPerS = 0.04;

    /// <summary>True where a car of this build can have it.</summary>
    public static bool Fits(FaultKind kind, CarBuild car)
    {
        ArgumentNullException.ThrowIfNull(car);
        var valve = car.Device == Device.ExpansionValve;
        var variable = car.Control == Control.VariableStroke;
        return kind switch
        {
            FaultKind.ValveStuckClosed or FaultKind.ValveStuckOpen or FaultKind.BulbLost => valve,
            FaultKind.OrificeBlocked or FaultKind.OrificeMissing => !valve,
            FaultKind.DrierBlocked or FaultKind.WaterFreezes => valve,
            FaultKind.StrokeStuckLow or FaultKind.StrokeStuckHigh => variable,
            _ => true,
        };
    }

    /// <summary>The condition of a car that has this fault besides what it already has.</summary>
    public Condition Upon(Condition condition, CarBuild car)
    {
        ArgumentNullException.ThrowIfNull(condition);
        ArgumentNullException.ThrowIfNull(car);
        var s = Severity;
        double Span(double from, double to) => from + (to - from) * s;
        double LogSpan(double from, double to) => from * Math.Pow(to / from, s);
        var label = car.LabelKg;
        return Kind switch
        {
            FaultKind.TooLittle => condition with { ChargeKg = label * Span(0.8, 0.08) },
            FaultKind.TooMuch => condition with { ChargeKg = label * Span(1.2, 1.7) },
            FaultKind.AirInside => condition with { AirMol = Span(0.15e5, 1e5) * car.VolumeM3 / (GasConstant * 293) },
            FaultKind.WrongGas => condition with { VapourPressureFactor = Span(1.08, 1.35) },
            FaultKind.FanDead => condition with { FanDead = true },
            FaultKind.FanWeak => condition with { FanPressureFactor = LogSpan(0.5, 0.08) },
            FaultKind.CondenserDirty => condition with { CoreResistanceFactor = LogSpan(2.5, 40) },
            FaultKind.CondenserBlockedInside => condition with { OpenTubes = Span(0.75, 0.25) },
            FaultKind.DrierBlocked => condition with
            {
                LineRestriction = Drop(LogSpan(2e5, 60e5)),
                RestrictionInDrier = true,
            },
            FaultKind.LiquidLineRestricted => condition with { LineRestriction = Drop(LogSpan(2e5, 60e5)) },
            FaultKind.ValveStuckClosed => condition with { ValveStuckAt = LogSpan(0.4, 0.03) },
            FaultKind.ValveStuckOpen => condition with { ValveStuckAt = Span(1, 1.5) },
            FaultKind.BulbLost => condition with { ValveStuckAt = 0.012 },
            FaultKind.OrificeBlocked => condition with { OrificeFactor = LogSpan(0.6, 0.04) },
            FaultKind.OrificeMissing => condition with { OrificeFactor = Span(2.5, 6) },
            FaultKind.CompressorWorn => condition with { BlowByM2 = LogSpan(1.2e-6, 6e-6) },
            FaultKind.CompressorDead => condition with { DeadHeadPa = LogSpan(1.5e5, 0.1e5) },
            FaultKind.ClutchOff => condition with { ClutchOpen = true },
            FaultKind.StrokeStuckLow => condition with { StrokeStuckAt = Span(0.2, 0.03) },
            FaultKind.StrokeStuckHigh => condition with { StrokeStuckAt = 1 },
            FaultKind.EvaporatorIced => condition with
            {
                EvaporatorAirFactor = Span(0.6, 0.15),
                EvaporatorSurfaceFactor = Span(0.8, 0.3),
            },
            FaultKind.EvaporatorAirBlocked => condition with
            {
                EvaporatorAirFactor = Span(0.7, 0.25),
                EvaporatorSurfaceFactor = Span(0.9, 0.6),
            },
            FaultKind.BlowerWeak => condition with { EvaporatorAirFactor = Span(0.65, 0.2) },
            FaultKind.CabinFilterDirty => condition with { EvaporatorAirFactor = Span(0.75, 0.35) },
            FaultKind.HeaterDoorLeaks => condition with { HeaterShare = Span(0.03, 0.3) },
            FaultKind.WaterFreezes => condition with { WaterFreezes = true },
            _ => throw new ArgumentOutOfRangeException(nameof(car)),
        };
    }

    private static double Drop(double pascalAtNominalFlow) =>
        pascalAtNominalFlow * LiquidKgPerM3 / (NominalKgPerS * NominalKgPerS);
}
