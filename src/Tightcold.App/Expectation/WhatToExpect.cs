using System.Collections.Immutable;
using Tightcold.Jobs.Cars;
using Tightcold.Loop;
using Tightcold.Loop.Calibration;
using Tightcold.Loop.Designs;
using Tightcold.Loop.Faults;
using Tightcold.Loop.Results;
using Tightcold.Numerics.Sampling;
using Tightcold.Quantities;

namespace Tightcold.App.Expectation;

/// <summary>
/// "What should I see?": from a car, the day and chosen faults to a sheet of readings, each with the 90 % range over
/// what is not known of the car. Deterministic: the same question gives the same sheet.
/// </summary>
public static class WhatToExpect
{
    private const int Cars = 60;
    private const int Seed = 20260704;

    /// <param name="car">A car of the book; null for one described in the question.</param>
    /// <param name="day">The question.</param>
    /// <param name="faults">Each inner list is a column of its own beside the healthy one.</param>
    /// <param name="earlier">What this car read while it was sound: narrows the car's class to the car.</param>
    public static ExpectationSheet For(
        Car? car,
        ExpectationDay day,
        IReadOnlyList<IReadOnlyList<AskedFault>> faults,
        EarlierReadings? earlier = null
    )
    {
        ArgumentNullException.ThrowIfNull(day);
        ArgumentNullException.ThrowIfNull(faults);
        var (design, guesses) = CarDesign.Of(car, day);
        var conditions = day.Conditions;
        var calibrated = CarCalibration.Of(design, (earlier ?? EarlierReadings.None).Points);
        var model = new LoopModel(calibrated.Design);
        var others = Neighbours(calibrated);
        var columns = faults.Prepend([]).Select(asked => Column(model, others, conditions, day.ChargeKg, asked));
        return new ExpectationSheet(
            model,
            conditions,
            [.. columns],
            [.. Narrowing(calibrated), .. guesses, .. day.Assumptions()]
        );
    }

    /// <summary>Charge and faults of a column, kept within the model's range.</summary>
    internal static (double ChargeKg, LoopFaults Faults) Combine(
        LoopDesign design,
        double? chargeKg,
        IReadOnlyList<AskedFault> asked
    )
    {
        var charge = chargeKg ?? design.LabelChargeKg;
        var faults = LoopFaults.None;
        foreach (var (fault, severity) in asked)
        {
            faults = fault.Apply(faults, severity);
            charge *= fault.ChargeShare?.Invoke(severity) ?? 1;
        }

        return (
            Math.Clamp(
                charge,
                LoopLimits.MinChargeShare * design.LabelChargeKg,
                LoopLimits.MaxChargeShare * design.LabelChargeKg
            ),
            faults
        );
    }

    private static ExpectedColumn Column(
        LoopModel model,
        ImmutableArray<LoopModel> others,
        LoopConditions conditions,
        double? chargeKg,
        IReadOnlyList<AskedFault> asked
    )
    {
        var (charge, faults) = Combine(model.Design, chargeKg, asked);
        var answer = model.Solve(conditions, charge, faults);
        var spread = others
            .Select(other => other.Solve(conditions, charge, faults))
            .Select(result => result.Readings)
            .OfType<LoopReadings>()
            .ToList();
        var key = asked.Count == 0 ? "healthy" : string.Join("+", asked.Select(one => one.Fault.Key));
        return new ExpectedColumn(
            key,
            [.. asked.Select(one => one.Fault)],
            answer.State,
            Readings(answer, spread, conditions.BarometricPa),
            answer
        );
    }

    private static ImmutableArray<Estimate> Readings(LoopResult answer, List<LoopReadings> spread, double ambientPa)
    {
        if (answer.Readings is not { } middle)
            return [];
        return
        [
            .. ReadingRows.All.Select(row =>
            {
                var value = row.Si(middle, ambientPa);
                var sorted = spread.Select(one => row.Si(one, ambientPa)).Append(value).Order().ToArray();
                double At(double share) => Quantile.Of(sorted, share);
                return Estimate.Between(
                    row.Key,
                    row.Name,
                    row.Kind,
                    value,
                    Math.Min(At(0.05), value),
                    Math.Max(At(0.95), value),
                    EstimateOrigin.Modelled
                );
            }),
        ];
    }

    private static IEnumerable<Phrase> Narrowing(CalibratedCar car)
    {
        if (car.Readings > 0)
            yield return Phrase.Many(
                car.Readings,
                $"Narrowed by {Measure.Number(car.Readings)} reading that this car gave in earlier jobs when it was "
                    + $"sound.",
                $"Narrowed by {Measure.Number(car.Readings)} readings that this car gave in earlier jobs when it was "
                    + $"sound."
            );
        else if (car.Refusal is not null)
            yield return Phrase.Words(
                "This car's readings after an earlier mend fit no sound car of its kind: they were left out, and the "
                    + "ordinary car of its size stands here."
            );
    }

    private static ImmutableArray<LoopModel> Neighbours(CalibratedCar car)
    {
        var chance = new SeededChance(Seed);
        return
        [
            .. Enumerable
                .Range(0, Cars)
                .Select(_ =>
                {
                    var scores = new double[DesignSpread.All.Length];
                    for (var i = 0; i < scores.Length; i++)
                        scores[i] = Math.Clamp(chance.Normal(), -2.5, 2.5);
                    return new LoopModel(car.Draw(scores));
                }),
        ];
    }
}
