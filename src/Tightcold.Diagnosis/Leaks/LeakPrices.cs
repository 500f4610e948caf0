namespace Tightcold.Diagnosis.Leaks;

/// <summary>The user's prices, in one currency, and how far to look. Defaults are placeholders that a screen must show
/// as such.</summary>
/// <param name="RefrigerantPerKg">Of cans or cylinder.</param>
/// <param name="PartsPerSpot">Seal, core or part of the kind at hand, on average.</param>
/// <param name="EachOpening">Drier, oil, nitrogen, what each opening of the circuit costs besides.</param>
/// <param name="HourWorth">What an hour of one's own work is worth; 0 for pleasure.</param>
/// <param name="WorkshopJob">A workshop's price for finding and mending.</param>
/// <param name="HorizonSeconds">How far to look.</param>
public sealed record LeakPrices(
    double RefrigerantPerKg,
    double PartsPerSpot,
    double EachOpening,
    double HourWorth,
    double WorkshopJob,
    double HorizonSeconds
)
{
    public static readonly LeakPrices Placeholder = new(60, 25, 45, 0, 450, 3 * LeakForecast.Year);
}
