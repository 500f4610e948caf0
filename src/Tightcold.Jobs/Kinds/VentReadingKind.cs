using System.Collections.Immutable;
using Tightcold.Jobs.Entries;
using Tightcold.Jobs.Fields;
using Tightcold.Quantities;
using static Tightcold.Jobs.Fields.Field;

namespace Tightcold.Jobs.Kinds;

/// <summary>The proof of cold: the centre vent beside the day's air.</summary>
internal sealed class VentReadingKind()
    : Kind(
        EntryKinds.VentReading,
        "Vent reading, proof of cold",
        [
            .. Open(
                Temperature(FieldNames.VentTemperature, "Centre vent", required: true).UsuallyCelsius(0, 45),
                Temperature(FieldNames.CabinTemperature, "Cabin air at the blower intake").UsuallyCelsius(5, 75),
                Air(FieldNames.AmbientTemperature, "Outside air", required: true).UsuallyCelsius(5, 50),
                Humidity(),
                Choice(FieldNames.AirSource, "Air", true, "fresh", Chosen.Recirculated).Kept(),
                Choice(FieldNames.Moving, "Car", false, Chosen.ParkedInTheSun, "parked in shade", Chosen.Driving).Kept()
            ),
            Choice(FieldNames.Blower, "Blower", false, Chosen.Low, Chosen.Medium, "full").Kept(),
            Of(FieldNames.EngineSpeed, "Engine speed", QuantityKind.RotationalSpeed, 0, 150).Kept(),
            Minutes(FieldNames.SinceStart, "Since the A/C was switched on", 24 * 60),
        ]
    )
{
    public override CircuitEffect Effect => CircuitEffect.ReadRunning;
    public override ImmutableArray<(Step Step, int Rank)> Steps => [(Step.ProveCold, 0)];

    public override ImmutableArray<Preset> Presets { get; } =
    [Ran("parked in the sun"), Ran("parked in shade"), Ran("driving")];

    private static Preset Ran([Said] string moving) =>
        new(moving, [(FieldNames.Moving, moving), (FieldNames.AirSource, "recirculated"), (FieldNames.Blower, "full")]);
}
