using System.Collections.Immutable;
using Tightcold.Diagnosis.Tightness;

namespace Tightcold.Diagnosis.Leaks;

/// <summary>What one way costs over the horizon, as a distribution.</summary>
/// <param name="Money">In the user's currency.</param>
/// <param name="Refills">How often it must be filled again.</param>
/// <param name="EscapedKg">Refrigerant that escapes.</param>
/// <param name="StaysCold">Probability that no refill is needed within the horizon.</param>
public sealed record WayCost(
    WayForward Way,
    LeakQuantiles Money,
    double MeanMoney,
    LeakQuantiles Refills,
    LeakQuantiles EscapedKg,
    double StaysCold
)
{
    /// <summary>Hours by common practice: mend and fill 4, each further spot 1, top up 0.7, recover-evacuate-fill again
    /// 3.</summary>
    private const double MendHours = 4,
        SpotHours = 1,
        TopUpHours = 0.7,
        RefillHours = 3;

    /// <summary>A workshop finds this share of the leaks; assumed.</summary>
    private const double WorkshopFinds = 0.85;

    /// <param name="chargeKg">Full charge.</param>
    /// <param name="sufferingKg">Charge at which it is filled again.</param>
    public static ImmutableArray<WayCost> All(
        TightnessBelief belief,
        LeakPrices prices,
        double chargeKg,
        double sufferingKg
    )
    {
        string[] found = [.. belief.Spots.Where(spot => spot.Spot.Found).Select(spot => spot.Spot.Name)];
        var ranked = belief
            .Spots.Where(spot => spot.Spot.Name != LeakSpot.Elsewhere)
            .OrderByDescending(spot => spot.Leaking)
            .ToArray();
        string[] likeliest = [ranked[0].Spot.Name];
        if (found.Length == 0)
            found = [.. ranked.Where(spot => spot.Leaking > 0.5).Select(spot => spot.Spot.Name)];
        if (found.Length == 0)
            found = likeliest;
        var full = prices.EachOpening + chargeKg * prices.RefrigerantPerKg;
        return
        [
            Of(
                WayForward.RepairAllFound,
                belief.SamplesAfterMending(found),
                full
                    + found.Length * prices.PartsPerSpot
                    + (MendHours + (found.Length - 1) * SpotHours) * prices.HourWorth,
                full + RefillHours * prices.HourWorth,
                prices,
                chargeKg,
                sufferingKg,
                chargeKg
            ),
            Of(
                WayForward.RepairLikeliest,
                belief.SamplesAfterMending(likeliest),
                full + prices.PartsPerSpot + MendHours * prices.HourWorth,
                full + RefillHours * prices.HourWorth,
                prices,
                chargeKg,
                sufferingKg,
                chargeKg
            ),
            Of(
                WayForward.TopUpAndWatch,
                belief.NowSamples,
                0.5 * chargeKg * prices.RefrigerantPerKg + TopUpHours * prices.HourWorth,
                (chargeKg - sufferingKg) * prices.RefrigerantPerKg + TopUpHours * prices.HourWorth,
                prices,
                chargeKg,
                sufferingKg,
                chargeKg
            ),
            Of(
                WayForward.Workshop,
                Workshop(belief),
                prices.WorkshopJob,
                full + RefillHours * prices.HourWorth,
                prices,
                chargeKg,
                sufferingKg,
                chargeKg
            ),
        ];
    }

    /// <summary>The workshop mends what it finds: a mixture of all mended and none.</summary>
    private static IEnumerable<(double, double)> Workshop(TightnessBelief belief)
    {
        string[] all = [.. belief.Spots.Select(spot => spot.Spot.Name)];
        return
        [
            .. belief.SamplesAfterMending(all).Select(sample => (sample.KgPerS, sample.Weight * WorkshopFinds)),
            .. belief.NowSamples.Select(sample => (sample.KgPerS, sample.Weight * (1 - WorkshopFinds))),
        ];
    }

    private static WayCost Of(
        WayForward way,
        IEnumerable<(double KgPerS, double Weight)> samples,
        double now,
        double again,
        LeakPrices prices,
        double chargeKg,
        double sufferingKg,
        double startKg
    )
    {
        var all = samples.ToArray();
        var room = Math.Max(0.02, chargeKg - sufferingKg);
        double Lost((double KgPerS, double Weight) sample) =>
            sample.KgPerS * LossObservation.YearDuty * prices.HorizonSeconds;
        double Refills((double KgPerS, double Weight) sample) =>
            Math.Floor(Math.Max(0, Lost(sample) - (startKg - chargeKg)) / room);
        var weight = all.Sum(sample => sample.Weight);
        return new(
            way,
            LeakQuantiles.Of(all.Select(sample => (now + again * Refills(sample), sample.Weight))),
            all.Sum(sample => (now + again * Refills(sample)) * sample.Weight) / weight,
            LeakQuantiles.Of(all.Select(sample => (Refills(sample), sample.Weight))),
            LeakQuantiles.Of(all.Select(sample => (Lost(sample), sample.Weight))),
            all.Where(sample => Refills(sample) < 1).Sum(sample => sample.Weight) / weight
        );
    }
}
