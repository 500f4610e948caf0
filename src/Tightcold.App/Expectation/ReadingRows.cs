using System.Collections.Immutable;
using Tightcold.Jobs.Fields;
using Tightcold.Loop.Results;
using Tightcold.Quantities;

namespace Tightcold.App.Expectation;

/// <summary>The rows of the sheet: which readings, in which order, as which quantity.</summary>
internal static class ReadingRows
{
    internal sealed record Row(
        string Key,
        [Said] string Name,
        QuantityKind Kind,
        Func<LoopReadings, double, double> Si
    );

    public static ImmutableArray<Row> All { get; } =
    [
        new(FieldNames.LowSide, "low side, gauge", QuantityKind.GaugePressure, (r, ambient) => r.LowSidePa - ambient),
        new("low-side-least", "low side, lowest of its swing", QuantityKind.GaugePressure, (r, ambient) =>
            r.LowSideMinPa - ambient
        ),
        new("low-side-most", "low side, highest of its swing", QuantityKind.GaugePressure, (r, ambient) =>
            r.LowSideMaxPa - ambient
        ),
        new(FieldNames.HighSide, "high side, gauge", QuantityKind.GaugePressure, (r, ambient) =>
            r.HighSidePa - ambient
        ),
        new("vent", "centre vent", QuantityKind.Temperature, (r, _) => r.VentK),
        new("evaporator-out", "pipe out of the evaporator", QuantityKind.Temperature, (r, _) => r.EvaporatorOutK),
        new("suction-line", "suction line at the compressor", QuantityKind.Temperature, (r, _) => r.SuctionLineK),
        new("discharge-line", "discharge line", QuantityKind.Temperature, (r, _) => r.DischargeLineK),
        new("liquid-line", "liquid line at the condenser", QuantityKind.Temperature, (r, _) => r.LiquidLineK),
        new("fin", "evaporator fins", QuantityKind.Temperature, (r, _) => r.FinK),
        new("superheat", "superheat", QuantityKind.TemperatureDifference, (r, _) => r.SuperheatK),
        new("subcooling", "subcooling by gauge and clamp", QuantityKind.TemperatureDifference, (r, _) =>
            r.ApparentSubcoolingK
        ),
        new(FieldNames.SightGlass, "vapour in the liquid line, by mass", QuantityKind.Ratio, (r, _) =>
            Math.Min(r.SightGlassQuality, 1)
        ),
        new("duty", "compressor runs, share of time", QuantityKind.Ratio, (r, _) => r.Duty),
        new("cycles", "clutch cycles a minute", QuantityKind.Number, (r, _) => r.CyclesPerMinute),
        new("stroke", "stroke or speed, share of the most", QuantityKind.Ratio, (r, _) => r.Stroke),
        new("store", "receiver or accumulator filled", QuantityKind.Ratio, (r, _) => r.StoreLevel),
        new("condensate", "water off the evaporator, kg/h", QuantityKind.Number, (r, _) => r.CondensateKgPerS * 3600),
        new("cooling", "cooling, kW", QuantityKind.Number, (r, _) => r.CoolingW / 1e3),
        new("power", "power, kW", QuantityKind.Number, (r, _) => r.PowerW / 1e3),
    ];
}
