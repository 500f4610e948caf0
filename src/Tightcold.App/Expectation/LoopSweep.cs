using System.Collections.Immutable;
using System.Globalization;
using System.Text;
using Tightcold.Diagnosis.Faults;
using Tightcold.Loop.Results;

namespace Tightcold.App.Expectation;

/// <summary>The model asked again and again while one thing moves: charge, weather, speed or a fault.</summary>
/// <param name="What">What moves, with its unit.</param>
/// <param name="Points">Where it stood and what came of it.</param>
public sealed record LoopSweep(string What, double BarometricPa, ImmutableArray<(double X, LoopResult Result)> Points)
{
    /// <summary>Things that can be moved besides the faults' keys.</summary>
    public static ImmutableArray<string> Words { get; } = ["charge", "ambient", "humidity", "rpm"];

    /// <summary>Moves one thing over a range in even steps; null if nothing is called so.</summary>
    /// <param name="what">"charge" (share of the label), "ambient" (°C), "humidity" (%), "rpm" or a fault's key
    /// (severity).</param>
    public static LoopSweep? Run(
        ExpectationSheet sheet,
        IReadOnlyList<AskedFault> asked,
        double? chargeKg,
        string what,
        double from,
        double to,
        int steps
    )
    {
        ArgumentNullException.ThrowIfNull(sheet);
        ArgumentNullException.ThrowIfNull(asked);
        var fault = NamedFault.Find(what);
        if (fault is null && !Words.Contains(what))
            return null;
        var points = ImmutableArray.CreateBuilder<(double, LoopResult)>();
        LoopResult? last = null;
        for (var i = 0; i < steps; i++)
        {
            var x = from + ((to - from) * i / Math.Max(steps - 1, 1));
            var day = sheet.Conditions;
            var faults = fault is null ? asked : [.. asked.Where(one => one.Fault != fault), new AskedFault(fault, x)];
            var charge = what == "charge" ? x * sheet.Model.Design.LabelChargeKg : chargeKg;
            if (what == "ambient")
                day = day with { AmbientK = x + 273.15, CabinK = day.CabinK + (x + 273.15 - day.AmbientK) };
            else if (what == "humidity")
                day = day with { RelativeHumidity = x / 100, CabinRelativeHumidity = x / 100 };
            else if (what == "rpm")
                day = day with { EngineRpm = x };
            var (kg, combined) = WhatToExpect.Combine(sheet.Model.Design, charge, faults);
            last = sheet.Model.Solve(day, kg, combined, last?.Start);
            points.Add((x, last));
        }

        return new LoopSweep(what, sheet.Conditions.BarometricPa, points.ToImmutable());
    }

    /// <summary>One line a point, SI, pressures absolute; empty fields where nothing was found.</summary>
    public string Csv()
    {
        var text = new StringBuilder();
        text.Append(
            CultureInfo.InvariantCulture,
            $"{What},state,low_side_abs_pa,high_side_abs_pa,vent_k,superheat_k,subcooling_k,cooling_w,power_w,duty,cycles_per_minute,sight_glass_quality,store_level,stroke\n"
        );
        foreach (var (x, result) in Points)
        {
            text.Append(CultureInfo.InvariantCulture, $"{x:G8},{result.State}");
            text.Append(
                result.Readings is { } r
                    ? string.Create(
                        CultureInfo.InvariantCulture,
                        $",{r.LowSidePa:F0},{r.HighSidePa:F0},{r.VentK:F2},{r.SuperheatK:F2},{r.SubcoolingK:F2},{r.CoolingW:F0},{r.PowerW:F0},{r.Duty:F3},{r.CyclesPerMinute:F2},{r.SightGlassQuality:F3},{r.StoreLevel:F3},{r.Stroke:F3}\n"
                    )
                    : ",,,,,,,,,,,,\n"
            );
        }

        return text.ToString();
    }
}
