using System.Collections.Immutable;
using Tightcold.Jobs.Fields;
using Tightcold.Jobs.Kits;
using Tightcold.Quantities;

namespace Tightcold.Pages.Forms;

/// <summary>What is assumed of a kit that nobody described, in the reader's units; shown grey in the empty
/// fields.</summary>
internal static class KitGhosts
{
    public static IReadOnlyDictionary<string, string> Of(IMeasureFormat units)
    {
        var plain = Kit.Plain(Guid.Empty, DateTimeOffset.UnixEpoch);
        (string Field, QuantityKind Kind, double Si)[] assumed =
        [
            (FieldNames.LowGaugePlusMinus, QuantityKind.PressureDifference, plain.LowGaugePlusMinusPa),
            (FieldNames.HighGaugePlusMinus, QuantityKind.PressureDifference, plain.HighGaugePlusMinusPa),
            (FieldNames.ThermometerPlusMinus, QuantityKind.TemperatureDifference, plain.ThermometerPlusMinusK),
            (FieldNames.HygrometerPlusMinus, QuantityKind.RelativeHumidity, plain.HygrometerPlusMinus),
            (FieldNames.ScalePlusMinus, QuantityKind.Mass, plain.ScalePlusMinusKg),
            (FieldNames.VacuumGaugePlusMinus, QuantityKind.PressureDifference, plain.VacuumGaugePlusMinusPa),
            (FieldNames.VacuumGaugeStep, QuantityKind.PressureDifference, plain.VacuumGaugeStepPa),
            (FieldNames.PumpUltimate, QuantityKind.Vacuum, plain.PumpUltimatePa),
            (FieldNames.HoseBore, QuantityKind.Bore, plain.HoseBoreM),
            (FieldNames.HoseLength, QuantityKind.Length, plain.HoseLengthM),
        ];
        return assumed.ToImmutableDictionary(item => item.Field, item => units.Format(new Measure(item.Kind, item.Si)));
    }
}
