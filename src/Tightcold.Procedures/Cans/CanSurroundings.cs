namespace Tightcold.Procedures.Cans;

/// <summary>What warms a can while it gives vapour.</summary>
/// <param name="TemperatureK">Of the air, the hand or the water at the start.</param>
/// <param name="ConductanceWPerK">Heat per kelvin into the can; assumed by kind, nobody measured this can.</param>
/// <param name="ConductanceSpread">The true conductance lies between this factor below and above; 1 or more.</param>
/// <param name="WaterKg">Mass of the water bath, which cools as it gives heat; null for surroundings that do
/// not.</param>
public readonly record struct CanSurroundings(
    double TemperatureK,
    double ConductanceWPerK,
    double ConductanceSpread,
    double? WaterKg
)
{
    /// <summary>52 °C (125 °F): never warmer. Label text of small cans, common practice.</summary>
    public const double HottestBathK = 273.15 + 52;

    /// <summary>Still air on a small can: 0.3 to 0.6 W/K; free convection and radiation over about 0.05 m² at 6 to 12
    /// W/(m² K), common practice.</summary>
    public static CanSurroundings StillAir(double temperatureK) => new(temperatureK, 0.42, 1.42, null);

    /// <summary>A hand around the can: 1 to 2 W/K at about 34 °C skin; common practice.</summary>
    public static CanSurroundings Hand() => new(273.15 + 34, 1.4, 1.42, null);

    /// <summary>A water bath: 8 to 15 W/K; common practice.</summary>
    /// <exception cref="ArgumentOutOfRangeException">Warmer than 52 °C: the can may burst; or not a number.</exception>
    public static CanSurroundings Bath(double temperatureK, double waterKg) =>
        !(temperatureK <= HottestBathK)
            ? throw new ArgumentOutOfRangeException(
                nameof(temperatureK),
                temperatureK,
                "a can is never warmed above 52 °C (125 °F)"
            )
        : !(waterKg > 0) ? throw new ArgumentOutOfRangeException(nameof(waterKg), waterKg, "a bath holds water")
        : new(temperatureK, 11, 1.37, waterKg);
}
