using System.Collections.Immutable;
using Tightcold.Picture.Vacuum;
using Tightcold.Procedures.Evacuation;
using Tightcold.Quantities;
using static Tightcold.Picture.Pressures.Evidence;

namespace Tightcold.Findings.Steps;

/// <summary>Pumping in the words of the trade: how long is enough, and what limits.</summary>
internal static class PumpWords
{
    /// <summary>Readings this much above the expected band point to the pump, its oil, or a leak.</summary>
    private const double FarAbove = 2.5;

    public static Phrase HowLong(PumpView view)
    {
        var forecast = view.Forecast;
        var target = Vacuum(forecast.TargetPa);
        if (forecast.EnoughSeconds is not { } enough)
            return Phrase.Of(
                $"With this pump and these hoses {target} is out of reach within "
                    + $"{Measure.Seconds(EvacuationForecast.LongestSeconds)}."
            );
        return forecast.SureSeconds is { } sure
            ? Phrase.Of(
                $"Pump for {Measure.Seconds(enough)} at the least, {Measure.Seconds(sure)} to be sure: then {target} "
                    + $"and no water left, which counts as dry at {At(view.Setup.PartTemperatureK)}."
            )
            : Phrase.Of(
                $"Pump for {Measure.Seconds(enough)} at the least; with more water inside than usual "
                    + $"{Measure.Seconds(EvacuationForecast.LongestSeconds)} would not do."
            );
    }

    public static ImmutableArray<Estimate> Estimates(PumpView view)
    {
        var estimates = ImmutableArray.CreateBuilder<Estimate>();
        estimates.Add(
            Estimate.AtMost(
                "dry-below",
                "Dry when a hold settles below",
                QuantityKind.Vacuum,
                view.Forecast.TargetPa,
                EstimateOrigin.Assumed
            )
        );
        if (view.Forecast.EnoughSeconds is { } enough)
        {
            var low = Math.Min(enough, 0.6 * enough);
            estimates.Add(
                Estimate.Between(
                    "pump-time",
                    "Pumping needed",
                    QuantityKind.Duration,
                    enough,
                    low,
                    Math.Max(enough, view.Forecast.SureSeconds ?? EvacuationForecast.LongestSeconds),
                    EstimateOrigin.Modelled
                )
            );
        }
        return estimates.ToImmutable();
    }

    /// <summary>The last reading against what was expected at that moment.</summary>
    public static Phrase AgainstExpected(PumpView view)
    {
        if (view.Observed.IsEmpty || view.Observed[^1] is not { OnDial: false, Seconds: > 60 } last)
            return Phrase.Empty;
        var (low, _, high) = view.Forecast.At(last.Seconds);
        var expected = (Vacuum(low), Vacuum(high));
        return last.PressurePa > FarAbove * high
                ? Phrase.Of(
                    $"Expected by now: {expected}. It hangs above that: water, a leak, wet pump oil, or a valve not "
                        + $"open."
                )
            : last.PressurePa < 0.4 * low
                ? Phrase.Of(
                    $"Expected by now: {expected}; it is deeper, as when the gauge sits at the pump instead of the "
                        + $"far port."
                )
            : Phrase.Of($"Expected by now: {expected}.");
    }

    public static IEnumerable<Phrase> Warnings(PumpView view, bool onDial)
    {
        var target = view.Forecast.TargetPa;
        if (view.Setup.UltimatePa > 0.7 * target)
            yield return Phrase.Of(
                $"The pump itself ends at {Vacuum(view.Setup.UltimatePa)}, too near the {Vacuum(target)} asked for: "
                    + $"change its oil, and test it alone against a shut valve."
            );
        if (onDial)
            yield return Phrase.Of(
                $"A dial cannot resolve {Vacuum(target)}: it is asked for a hundredth of what one of its steps is. It "
                    + $"shows gross leaks, not dryness."
            );
        if (
            view.Observed.Length >= 2
            && view.Observed[^1] is { OnDial: false } last
            && last.Seconds > 900
            && last.PressurePa > FarAbove * view.Forecast.At(last.Seconds).HighPa
            && view.Observed[^2] is var before
            && last.PressurePa > 0.9 * before.PressurePa
        )
            yield return Phrase.Words(
                "It stopped falling well above what this pump should reach: isolate the pump and read it alone. If "
                    + "that is no better, its oil is wet."
            );
        if (view.Setup.CoresIn)
            yield return Phrase.Words(
                "Pulling through the valve cores: with a core tool and the cores out it goes about four times as fast "
                    + "at the end."
            );
        if (view.Setup.PartTemperatureK < 278)
            yield return Phrase.Of(
                $"At {At(view.Setup.PartTemperatureK)} water freezes under vacuum and leaves slowly: warm the car, or "
                    + $"break the vacuum with dry nitrogen and pull again."
            );
    }
}
