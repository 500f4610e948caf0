using System.Collections.Immutable;
using Tightcold.Numerics.Sampling;

namespace Tightcold.Procedures.Evacuation;

/// <summary>Expected pump-down with its spread, and how long is enough.</summary>
/// <param name="Seconds">Times.</param>
/// <param name="LowPa">5 % of the plays lie below.</param>
/// <param name="MedianPa">Half.</param>
/// <param name="HighPa">95 % lie below.</param>
/// <param name="EnoughSeconds">Half of the plays are without water by then, and a hold begun then would settle below
/// the target; null when not within the longest time.</param>
/// <param name="SureSeconds">Nineteen in twenty are.</param>
/// <param name="TargetPa">Pressure that counts as deep enough here.</param>
public sealed record EvacuationForecast(
    ImmutableArray<double> Seconds,
    ImmutableArray<double> LowPa,
    ImmutableArray<double> MedianPa,
    ImmutableArray<double> HighPa,
    double? EnoughSeconds,
    double? SureSeconds,
    double TargetPa
)
{
    public const double LongestSeconds = 4 * 3600;
    private const int Plays = 24;

    /// <summary>Plays the uncertain water, oil and cores; the target is the dry pressure at the part
    /// temperature.</summary>
    public static EvacuationForecast Of(EvacuationSetup setup, ulong seed)
    {
        double[] times =
        [
            .. Enumerable.Range(1, 20).Select(i => 15.0 * i),
            .. Enumerable.Range(1, 85).Select(i => 300 + 60.0 * i),
            .. Enumerable.Range(1, 30).Select(i => 5400 + 300.0 * i),
        ];
        var chance = new SeededChance(seed + 5);
        var target = Dryness.HeldPa(setup.PartTemperatureK);
        var plays = new EvacuationPoint[Plays][];
        var enough = new double[Plays];
        for (var i = 0; i < Plays; i++)
        {
            // Stratified, so that a few plays cover the spread evenly.
            var water = setup.WaterKg * Math.Exp(setup.WaterSpread * Spread(i, chance));
            plays[i] = EvacuationModel.Run(setup, times, water, Math.Exp(0.5 * chance.Normal()), chance.Between(3, 6));
            var at = Array.FindIndex(plays[i], point => point.WouldSettlePa <= target && point.WaterKg < 1e-6);
            enough[i] = at < 0 ? double.PositiveInfinity : times[at];
        }
        Array.Sort(enough);
        var ranks = Enumerable
            .Range(0, times.Length)
            .Select(k => plays.Select(play => play[k].PressurePa).Order().ToArray())
            .ToArray();
        return new(
            [.. times],
            [.. ranks.Select(rank => Quantile.Of(rank, 0.05))],
            [.. ranks.Select(rank => Quantile.Of(rank, 0.5))],
            [.. ranks.Select(rank => Quantile.Of(rank, 0.95))],
            Finite(Quantile.Of(enough, 0.5)),
            Finite(Quantile.Of(enough, 0.95)),
            target
        );
    }

    private static double Spread(int i, SeededChance chance)
    {
        // Inverse normal by a logistic match, within 0.05 over the middle 98 %: good enough for a spread that is
        // assumed.
        var u = (i + chance.Uniform()) / Plays;
        return Math.Log(u / (1 - u)) / 1.702;
    }

    private static double? Finite(double seconds) => double.IsFinite(seconds) ? seconds : null;

    /// <summary>Expected median pressure at a time, between the tabled times.</summary>
    public (double LowPa, double MedianPa, double HighPa) At(double seconds)
    {
        var k = 0;
        while (k < Seconds.Length - 1 && Seconds[k] < seconds)
            k++;
        return (LowPa[k], MedianPa[k], HighPa[k]);
    }
}
