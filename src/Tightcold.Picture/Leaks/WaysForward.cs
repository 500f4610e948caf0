using System.Collections.Immutable;
using Tightcold.Diagnosis.Leaks;
using Tightcold.Jobs.Fields;
using Tightcold.Jobs.Kits;
using Tightcold.Quantities;

namespace Tightcold.Picture.Leaks;

/// <summary>What each way forward may cost over the person's horizon, with the person's prices from the kit.</summary>
/// <param name="Ways">As distributions.</param>
/// <param name="Prices">What was reckoned with.</param>
/// <param name="Assumed">Prices that nobody gave: placeholders, to be shown as such.</param>
public sealed record WaysForward(ImmutableArray<WayCost> Ways, LeakPrices Prices, [Said] ImmutableArray<string> Assumed)
{
    public static WaysForward Of(LeakView view, Kit kit)
    {
        ArgumentNullException.ThrowIfNull(view);
        var (prices, assumed) = PricesOf(kit);
        return new(WayCost.All(view.Belief, prices, view.ChargeKg, view.SufferingKg), prices, assumed);
    }

    /// <summary>The kit's prices; a placeholder where it has none.</summary>
    public static (LeakPrices Prices, ImmutableArray<string> Assumed) PricesOf(Kit kit)
    {
        ArgumentNullException.ThrowIfNull(kit);
        var usual = LeakPrices.Placeholder;
        var assumed = ImmutableArray.CreateBuilder<string>();
        double Price(string field, [Said] string name, double otherwise)
        {
            if (kit.Fields.Number(field) is { } given)
                return given;
            assumed.Add(name);
            return otherwise;
        }
        var prices = new LeakPrices(
            Price(FieldNames.PriceRefrigerant, "refrigerant", usual.RefrigerantPerKg),
            Price(FieldNames.PricePart, "part or seal", usual.PartsPerSpot),
            Price(FieldNames.PriceOpening, "drier, oil and nitrogen", usual.EachOpening),
            kit.Fields.Number(FieldNames.PriceHour) ?? usual.HourWorth,
            Price(FieldNames.PriceWorkshop, "workshop", usual.WorkshopJob),
            (kit.Fields.Number(FieldNames.PriceYears) ?? (usual.HorizonSeconds / LeakForecast.Year)) * LeakForecast.Year
        );
        return (prices, assumed.ToImmutable());
    }

    [Said]
    public static string Name(WayForward way) =>
        way switch
        {
            WayForward.RepairAllFound => "repair what is found",
            WayForward.RepairLikeliest => "repair the likeliest first",
            WayForward.TopUpAndWatch => "top up and watch",
            _ => "workshop",
        };
}
