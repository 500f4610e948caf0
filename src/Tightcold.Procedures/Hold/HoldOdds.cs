using System.Collections.Immutable;

namespace Tightcold.Procedures.Hold;

/// <summary>What a hold says.</summary>
/// <param name="Odds">Of each <see cref="HoldExplanation"/>, in its order; they sum to 1.</param>
/// <param name="LeakLowPaM3PerS">Air inflow, 5 % quantile, among the explanations with a hole.</param>
/// <param name="LeakMedianPaM3PerS">Median of the same.</param>
/// <param name="LeakHighPaM3PerS">95 % quantile of the same: the largest leak that these readings leave
/// possible.</param>
/// <param name="FloorPaM3PerS">Smallest inflow whose rise this hold would have shown half the time.</param>
/// <param name="LeakSeen">Probability of a hole larger than half that floor: one that shows.</param>
/// <param name="Fits">Whether the best explanation fits the readings at all.</param>
/// <param name="TemperatureKnown">Whether every reading carried its temperature.</param>
/// <param name="WaterPa">Saturation pressure of water at the coldest moment.</param>
public sealed record HoldOdds(
    ImmutableArray<double> Odds,
    double LeakLowPaM3PerS,
    double LeakMedianPaM3PerS,
    double LeakHighPaM3PerS,
    double FloorPaM3PerS,
    double LeakSeen,
    bool Fits,
    bool TemperatureKnown,
    double WaterPa
)
{
    public double Of(HoldExplanation explanation) => Odds[(int)explanation];

    /// <summary>Any hole, seen or too small to be seen.</summary>
    public double AnyLeak =>
        Of(HoldExplanation.Leak)
        + Of(HoldExplanation.HoseLeak)
        + Of(HoldExplanation.LeakAndOilGas)
        + Of(HoldExplanation.LeakAndMoisture)
        + Of(HoldExplanation.LeakAndTemperature);

    public double Wet => Of(HoldExplanation.Moisture) + Of(HoldExplanation.LeakAndMoisture);

    /// <summary>No hole and no water.</summary>
    public double TightAndDry =>
        Of(HoldExplanation.Tight) + Of(HoldExplanation.OilGas) + Of(HoldExplanation.TemperatureDrift);

    /// <summary>The share of hoses among the holes.</summary>
    public double HoseShare => AnyLeak > 0 ? Of(HoldExplanation.HoseLeak) / AnyLeak : 0;

    public HoldExplanation Best => (HoldExplanation)Enumerable.Range(0, Odds.Length).MaxBy(i => Odds[i]);
}
