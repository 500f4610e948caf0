using System.Collections.Immutable;
using Tightcold.Jobs.Entries;
using Tightcold.Jobs.Fields;
using static Tightcold.Jobs.Fields.Field;

namespace Tightcold.Jobs.Kinds;

/// <summary>Both sides with the engine off: what is left.</summary>
internal sealed class StandingReadingKind()
    : Kind(
        EntryKinds.StandingReading,
        "Standing pressure, engine off",
        [
            // Engine off both sides stand at most at saturation of a hot bay, 60 °C: about 16 bar.
            .. Open(
                Gauge(FieldNames.LowSide, "Low side").UsuallyBar(-0.2, 16),
                Gauge(FieldNames.HighSide, "High side").UsuallyBar(-0.2, 16),
                Air(FieldNames.AmbientTemperature, "Air around the car", required: true).UsuallyCelsius(-10, 50)
            ),
            Temperature(FieldNames.CondenserTemperature, "Condenser"),
            Temperature(FieldNames.EngineBayTemperature, "Under the bonnet"),
            Temperature(FieldNames.CabinTemperature, "Cabin (evaporator)"),
            Minutes(FieldNames.SinceEngineRan, "Since the engine ran", 60 * 24 * 60),
            Choice(
                FieldNames.Identified,
                "Refrigerant identifier says",
                false,
                Chosen.AsLabelled,
                "another refrigerant",
                Chosen.MixedOrUnknown
            ),
        ]
    )
{
    public override CircuitEffect Effect => CircuitEffect.ReadAtRest;
    public override ImmutableArray<(Step Step, int Rank)> Steps => [(Step.StandingPressure, 0)];
}
