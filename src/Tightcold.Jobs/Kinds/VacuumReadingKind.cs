using System.Collections.Immutable;
using Tightcold.Jobs.Entries;
using Tightcold.Jobs.Fields;
using Tightcold.Quantities;
using static Tightcold.Jobs.Fields.Field;

namespace Tightcold.Jobs.Kinds;

/// <summary>A vacuum read, with the pump on it or shut off.</summary>
internal sealed class VacuumReadingKind()
    : Kind(
        EntryKinds.VacuumReading,
        "Vacuum reading",
        [
            // The one that the kit's vacuum gauge is read into; both where the kit does not say.
            .. Open(
                Of(FieldNames.AbsolutePressure, "Absolute gauge", QuantityKind.Vacuum, 0, 110e3, hint: "micron or mbar")
                    .OpenWhere(kit => kit?.Text(FieldNames.VacuumGauge) != Chosen.Dial),
                Gauge(FieldNames.Dial, "Dial gauge", hint: "inHg below the surrounding air")
                    .UsuallyBar(-1.05, 0.1)
                    .OpenWhere(kit => kit?.Text(FieldNames.VacuumGauge) != Chosen.Absolute),
                Choice(FieldNames.PumpValve, "Valve to the pump", true, Chosen.Open, Chosen.Shut).Kept(),
                Temperature(FieldNames.PartTemperature, "Coldest part").UsuallyCelsius(-5, 55).Kept()
            ),
            Choice(FieldNames.HeldPart, "What is shut off together", false, "car and hoses", Chosen.HosesAlone).Kept(),
            Text(FieldNames.MeasuredAt, "Measured at", 60).Suggests("far port", Chosen.AtThePump).Kept(),
            Air(FieldNames.AmbientTemperature, "Air around the car"),
        ]
    )
{
    public override CircuitEffect Effect => CircuitEffect.ReadsVacuum;
    public override ImmutableArray<(Step Step, int Rank)> Steps => [(Step.PumpDown, 1), (Step.Hold, 0)];
}
