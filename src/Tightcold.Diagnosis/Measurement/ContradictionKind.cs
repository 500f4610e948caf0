namespace Tightcold.Diagnosis.Measurement;

/// <summary>Ways in which readings cannot be.</summary>
public enum ContradictionKind
{
    /// <summary>Less than a perfect vacuum at this barometer.</summary>
    BelowVacuum,

    /// <summary>More than relief valves and hoses would leave in one piece.</summary>
    AboveRelief,

    /// <summary>Low side above the high side while running: hoses changed over, or a gauge off.</summary>
    SidesSwapped,

    /// <summary>Weather outside what the model speaks for; the whole point is set aside.</summary>
    WeatherOutsideModel,

    /// <summary>A vent warmer than everything the air could have taken heat from.</summary>
    VentTooWarm,

    /// <summary>Colder than the refrigerant can make it at the pressure read.</summary>
    ColderThanRefrigerant,

    /// <summary>A line warmer than the compressed gas it comes from.</summary>
    LiquidAboveDischarge,

    /// <summary>Colder than the outside air that cools it.</summary>
    LiquidBelowAir,
}
