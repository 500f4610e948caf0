using System.Collections.Immutable;
using Tightcold.Jobs.Entries;
using Tightcold.Jobs.Fields;
using Tightcold.Quantities;
using static Tightcold.Jobs.Fields.Field;

namespace Tightcold.Jobs.Kinds;

/// <summary>The air of the day, which every reading is judged against.</summary>
internal sealed class WeatherKind()
    : Kind(
        EntryKinds.Weather,
        "Weather",
        [
            .. Open(
                Air(FieldNames.AmbientTemperature, "Air temperature", required: true).UsuallyCelsius(-10, 46),
                Humidity(),
                // The height of the place is asked for where the kit does not know it.
                Of(FieldNames.Altitude, "Altitude", QuantityKind.Altitude, -500, 9000)
                    .Usually(-50, 3500)
                    .OpenWhere(kit => kit?[FieldNames.Altitude] is null)
            ),
            Of(
                    FieldNames.StationPressure,
                    "Barometer here (not reduced to sea level)",
                    QuantityKind.AbsolutePressure,
                    30e3,
                    110e3
                )
                .Usually(70e3, 105e3),
            Unread(Choice(FieldNames.Sun, "Sun", false, "full sun", "shade", "indoors", "night")),
            Choice(FieldNames.Wind, "Wind", false, "still", Chosen.Breeze, Chosen.Windy),
        ]
    )
{
    public override CircuitEffect Effect => CircuitEffect.None;
    public override ImmutableArray<(Step Step, int Rank)> Steps => [(Step.ComplaintAndWeather, 0)];
}
