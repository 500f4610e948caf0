using System.Collections.Immutable;
using Tightcold.Jobs.Kits;
using Tightcold.Quantities;

namespace Tightcold.Web.Forms;

/// <summary>What is assumed of a kit that nobody described, in the reader's units; shown grey in the empty
/// fields.</summary>
internal static class KitGhosts
{
    public static IReadOnlyDictionary<string, string> Of(IMeasureFormat units)
    {
        var plain = Kit.Plain(Guid.Empty, DateTimeOffset.UnixEpoch);
        (string Field, QuantityKind Kind, double Si)[] assumed =
        [
            ("low-gauge-plus-minus", QuantityKind.PressureDifference, plain.LowGaugePlusMinusPa),
            ("high-gauge-plus-minus", QuantityKind.PressureDifference, plain.HighGaugePlusMinusPa),
            ("thermometer-plus-minus", QuantityKind.TemperatureDifference, plain.ThermometerPlusMinusK),
            ("hygrometer-plus-minus", QuantityKind.RelativeHumidity, plain.HygrometerPlusMinus),
            ("scale-plus-minus", QuantityKind.Mass, plain.ScalePlusMinusKg),
            ("vacuum-gauge-plus-minus", QuantityKind.PressureDifference, plain.VacuumGaugePlusMinusPa),
            ("vacuum-gauge-step", QuantityKind.PressureDifference, plain.VacuumGaugeStepPa),
            ("pump-ultimate", QuantityKind.Vacuum, plain.PumpUltimatePa),
            ("hose-bore", QuantityKind.Bore, plain.HoseBoreM),
            ("hose-length", QuantityKind.Length, plain.HoseLengthM),
        ];
        return assumed.ToImmutableDictionary(item => item.Field, item => units.Format(new Measure(item.Kind, item.Si)));
    }
}
