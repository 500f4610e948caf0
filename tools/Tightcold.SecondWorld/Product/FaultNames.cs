using Tightcold.SecondWorld.Cars;

namespace Tightcold.SecondWorld.Product;

/// <summary>
/// Which of the product's faults names a fault of the second world. Several where the product parts more finely or less
/// finely than this world, and where the same hand at the same place mends both. Names that it does not have are
/// harmless.
/// </summary>
internal static class FaultNames
{
    public static IReadOnlyList<string> Of(FaultKind kind, Device device) =>
        kind switch
        {
            FaultKind.TooLittle => ["undercharge"],
            FaultKind.TooMuch => ["overcharge"],
            FaultKind.AirInside => ["air-inside"],
            FaultKind.WrongGas => ["wrong-refrigerant", "other-refrigerant", "mixed-refrigerant", CarAnswer.None],
            FaultKind.FanDead => ["condenser-air", "condenser-fan", "fan-dead", "condenser-fan-dead"],
            FaultKind.FanWeak => ["condenser-air", "condenser-fan", "fan-weak", "condenser-fan-weak"],
            FaultKind.CondenserDirty =>
            [
                "condenser-air",
                "condenser-dirty",
                "condenser-fouled",
                "condenser-blocked-outside",
            ],
            FaultKind.CondenserBlockedInside => ["condenser-air", "condenser-blocked-inside", "condenser-inside"],
            FaultKind.DrierBlocked => ["line-restricted", "drier-blocked"],
            FaultKind.LiquidLineRestricted => device == Device.OrificeTube
                ? ["line-restricted", "drier-blocked", "tube-plugged"]
                : ["line-restricted", "drier-blocked"],
            FaultKind.ValveStuckClosed or FaultKind.BulbLost => ["valve-stuck-closed", "bulb-lost"],
            FaultKind.ValveStuckOpen => ["valve-stuck-open"],
            FaultKind.OrificeBlocked => ["tube-plugged"],
            FaultKind.OrificeMissing => ["tube-missing", "tube-oversized", "tube-too-large", CarAnswer.None],
            FaultKind.CompressorWorn => ["compressor-worn"],
            FaultKind.CompressorDead => ["compressor-worn", "compressor-dead", "compressor-not-pumping"],
            FaultKind.ClutchOff => ["clutch-dead", "no-voltage", "compressor-off"],
            FaultKind.StrokeStuckLow => ["control-stuck-low", "control-not-asked"],
            FaultKind.StrokeStuckHigh => ["control-stuck-high"],
            FaultKind.EvaporatorIced => ["evaporator-air", "evaporator-iced"],
            FaultKind.EvaporatorAirBlocked or FaultKind.BlowerWeak or FaultKind.CabinFilterDirty =>
            [
                "evaporator-air",
                "blower-weak",
                "cabin-filter",
            ],
            FaultKind.HeaterDoorLeaks => ["blend-door-leaks", "heater-valve"],
            FaultKind.WaterFreezes => ["moisture-ice"],
            _ => [],
        };
}
