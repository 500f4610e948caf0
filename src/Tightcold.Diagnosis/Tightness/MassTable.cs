using System.Collections.Immutable;
using Tightcold.Diagnosis.Leaks;
using Tightcold.Numerics.Distributions;
using Tightcold.Procedures.Standing;

namespace Tightcold.Diagnosis.Tightness;

/// <summary>Refrigerant that went missing as a table of likelihoods over the car's rate at rest.</summary>
internal static class MassTable
{
    /// <summary>A standing pressure that was read twice; assumed.</summary>
    private const double ReadOutlier = 0.002;
    private const int Points = 33;

    /// <summary>Below this nobody calls a circuit anything but empty, kg.</summary>
    private const double EmptyKg = 0.03;

    /// <summary>Gas and thermometer differ by this much at rest, K.</summary>
    private const double ApartK = 0.7;

    /// <summary>Where liquid may still be inside a standing pressure is no measure of mass.</summary>
    private const double VapourOnlyBelow = 0.93;

    /// <summary>ln L on <see cref="RateGrid"/>: the expected loss is uncertain by the steadiness of the rate and the
    /// date.</summary>
    public static double[] Of(MassLoss loss)
    {
        var spread = Math.Sqrt(loss.DurationSpread * loss.DurationSpread + Math.Pow(LossObservation.Unsteadiness, 2));
        var log = new double[RateGrid.Count];
        for (var r = 0; r < log.Length; r++)
        {
            var middle = RateGrid.Values[r] * loss.Duty * loss.Seconds;
            var sum = 0.0;
            for (var k = 0; k < Points; k++)
            {
                var z = -3.2 + 6.4 * k / (Points - 1);
                var expected = middle * Math.Exp(spread * z);
                // The step between two such points is part of the width.
                var sigma = Math.Sqrt(loss.SigmaKg * loss.SigmaKg + Math.Pow(0.12 * spread * expected, 2));
                var apart = (loss.LostKg - expected) / sigma;
                sum +=
                    Normal.Density(z)
                    * loss.Known switch
                    {
                        MassLossKnown.AtLeast => Normal.Cumulative(-apart),
                        MassLossKnown.AtMost => Normal.Cumulative(apart),
                        _ => Normal.Density(apart) / sigma,
                    };
            }
            log[r] = Math.Log(Math.Max(sum, 1e-300));
        }
        TestTable.Cap(log, loss.Outlier, loss.Outlier);
        return log;
    }

    public static ImmutableArray<MassLoss> Of(ImmutableArray<ChargeEvent> charges)
    {
        var losses = ImmutableArray.CreateBuilder<MassLoss>();
        ChargeEvent? known = null;
        double added = 0,
            variance = 0;
        foreach (var each in charges)
        {
            if (each.Kind == ChargeEventKind.Added)
            {
                added += each.Kilograms;
                variance += each.SigmaKg * each.SigmaKg;
                continue;
            }
            if (known is { } start && each.Time > start.Time)
                losses.Add(Between(start, each, added, variance));
            if (each.Kind == ChargeEventKind.InsideAtLeast)
                continue;
            known = each.Kind == ChargeEventKind.Recovered ? null : each;
            added = variance = 0;
        }
        return losses.ToImmutable();
    }

    private static MassLoss Between(ChargeEvent start, ChargeEvent end, double added, double variance)
    {
        var sigma = Math.Sqrt(start.SigmaKg * start.SigmaKg + end.SigmaKg * end.SigmaKg + variance);
        var empty = end.Kind != ChargeEventKind.InsideAtLeast && end.Kilograms < EmptyKg;
        return new(
            end.Time,
            end.Time - start.Time,
            Math.Max(start.TimeSpread, end.TimeSpread),
            start.Kilograms + added - end.Kilograms,
            Math.Max(sigma, 1e-3),
            LossObservation.YearDuty
        )
        {
            Known =
                empty ? MassLossKnown.AtLeast
                : end.Kind == ChargeEventKind.InsideAtLeast ? MassLossKnown.AtMost
                : MassLossKnown.Both,
        };
    }

    /// <summary>Vapour alone, apart in time: V·Δρ and what the oil gave back.</summary>
    public static ImmutableArray<MassLoss> Of(StandingWatch watch, CircuitSize size, LeakSetting setting)
    {
        var losses = ImmutableArray.CreateBuilder<MassLoss>();
        StandingPoint? before = null;
        double massBefore = 0,
            sigmaBefore = 0;
        foreach (var point in watch.Points)
        {
            var saturation = watch.Fluid.SaturationAtTemperature(point.TemperatureK);
            if (!(point.PressurePa < VapourOnlyBelow * saturation.PressurePa))
                continue;
            var vapour =
                size.VolumeM3 * watch.Fluid.AtTemperaturePressure(point.TemperatureK, point.PressurePa).DensityKgPerM3;
            var least =
                OilSolution.DissolvedKg(
                    watch.Fluid,
                    point.TemperatureK,
                    point.PressurePa,
                    size.OilM3,
                    OilSolution.HighInteraction
                ) / 3;
            var most = OilSolution.DissolvedKg(
                watch.Fluid,
                point.TemperatureK,
                point.PressurePa,
                size.OilM3,
                OilSolution.LowInteraction
            );
            var mass = vapour + 0.5 * (least + most);
            // In oil, a kelvin moves far more: some 3 % of the saturation pressure.
            var sigma = Math.Sqrt(
                Math.Pow(vapour * point.PressureSigmaPa / point.PressurePa, 2)
                    + Math.Pow(vapour * ApartK / point.TemperatureK, 2)
                    + Math.Pow(0.5 * (least + most) * 0.03 * ApartK * 2, 2)
            );
            if (before is { } first && point.Time > first.Time)
            {
                var lost = massBefore - mass;
                // Volume and oil scale both masses alike: they make the loss larger or smaller, never another sign.
                var scale = 0.5 * Math.Max(size.VolumeSpread, (most - least) / Math.Max(mass, 1e-6));
                losses.Add(
                    new(
                        point.Time,
                        point.Time - first.Time,
                        scale,
                        lost,
                        Math.Sqrt(sigma * sigma + sigmaBefore * sigmaBefore),
                        Math.Max(0.01, setting.Drive(0.5 * (first.PressurePa + point.PressurePa)))
                    )
                    {
                        Outlier = ReadOutlier,
                    }
                );
            }
            (before, massBefore, sigmaBefore) = (point, mass, sigma);
        }
        return losses.ToImmutable();
    }
}
