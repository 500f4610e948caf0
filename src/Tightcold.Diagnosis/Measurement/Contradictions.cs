using System.Collections.Immutable;
using Tightcold.Loop;
using Tightcold.Loop.Refrigerant;

namespace Tightcold.Diagnosis.Measurement;

/// <summary>Finds readings that cannot be under any fault, sets them aside and names them. What is merely unlikely
/// stays: that is the likelihood's business.</summary>
internal static class Contradictions
{
    // Relief valves open at 35 to 40 bar; common practice.
    private const double ReliefPa = 42e5;

    // Clamp errors and warm surroundings together hardly exceed this, K.
    private const double ProbeMarginK = 8;
    private const double Sigmas = 4;

    public static (DiagnosisEvidence Kept, ImmutableArray<Contradiction> Named) Of(DiagnosisEvidence evidence)
    {
        var named = new List<Contradiction>();
        var table = RefrigerantTables.For(evidence.Car.Refrigerant);
        var points = new List<OperatingPoint>();
        for (var index = 0; index < evidence.Points.Length; index++)
        {
            var point = evidence.Points[index];
            if (!(point.AmbientK >= LoopLimits.MinAmbientK && point.AmbientK <= LoopLimits.MaxAmbientK))
            {
                named.Add(
                    new(
                        index,
                        ContradictionKind.WeatherOutsideModel,
                        null,
                        point.AmbientK,
                        point.AmbientK < 300 ? LoopLimits.MinAmbientK : LoopLimits.MaxAmbientK
                    )
                );
                continue;
            }

            var bad = new HashSet<Channel>();
            foreach (var one in InPoint(point, table))
            {
                named.Add(one with { Point = index });
                bad.Add(one.Channel!.Value);
                if (one.Kind == ContradictionKind.SidesSwapped)
                    bad.UnionWith([Channel.LowSide, Channel.HighSide, Channel.LowSwingTop]);
            }

            points.Add(point with { Readings = [.. point.Readings.Where(reading => !bad.Contains(reading.Channel))] });
        }

        var standing = new List<StandingPressure>();
        foreach (var reading in evidence.Standing)
        {
            if (!(reading.TemperatureK >= LoopLimits.MinAmbientK && reading.TemperatureK <= LoopLimits.MaxAmbientK))
                named.Add(
                    new(
                        -1,
                        ContradictionKind.WeatherOutsideModel,
                        null,
                        reading.TemperatureK,
                        reading.TemperatureK < 300 ? LoopLimits.MinAmbientK : LoopLimits.MaxAmbientK
                    )
                );
            else if (reading.PressurePa < -Sigmas * reading.SigmaPa)
                named.Add(new(-1, ContradictionKind.BelowVacuum, null, reading.PressurePa, 0));
            else if (reading.PressurePa > ReliefPa)
                named.Add(new(-1, ContradictionKind.AboveRelief, null, reading.PressurePa, ReliefPa));
            else
                standing.Add(reading);
        }

        return (evidence with { Points = [.. points], Standing = [.. standing] }, [.. named]);
    }

    private static IEnumerable<Contradiction> InPoint(OperatingPoint point, RefrigerantTable table)
    {
        Reading? Find(Channel channel) =>
            point
                .Readings.Where(reading => reading.Channel == channel)
                .Select(reading => (Reading?)reading)
                .FirstOrDefault();
        foreach (
            var reading in point.Readings.Where(reading =>
                reading.Channel is Channel.LowSide or Channel.HighSide or Channel.LowSwingTop
            )
        )
        {
            if (reading.Value < -Sigmas * reading.SigmaInstrument)
                yield return new(0, ContradictionKind.BelowVacuum, reading.Channel, reading.Value, 0);
            if (reading.Value > ReliefPa)
                yield return new(0, ContradictionKind.AboveRelief, reading.Channel, reading.Value, ReliefPa);
        }

        var (low, high) = (Find(Channel.LowSide), Find(Channel.HighSide));
        if (
            low is { } l
            && high is { } h
            && l.Value - h.Value
                > (
                    Sigmas
                    * Math.Sqrt((l.SigmaInstrument * l.SigmaInstrument) + (h.SigmaInstrument * h.SigmaInstrument))
                ) + 0.3e5
        )
            yield return new(0, ContradictionKind.SidesSwapped, Channel.LowSide, l.Value, h.Value);
        var coldest =
            low is { } cold && cold.Value > table.MinPressurePa
                ? table.SaturationTemperatureK(Math.Min(cold.Value, table.MaxPressurePa))
                : (double?)null;
        foreach (var reading in point.Readings.Where(reading => reading.Channel is Channel.Vent or Channel.SuctionLine))
        {
            var margin = ProbeMarginK + (Sigmas * reading.SigmaInstrument);
            // The gauge stands between the coil and the compressor: what is read there boils a little warmer in the
            // coil.
            if (coldest is { } boiling && Math.Min(boiling, point.AmbientK) - reading.Value > margin)
                yield return new(0, ContradictionKind.ColderThanRefrigerant, reading.Channel, reading.Value, boiling);
        }

        if (Find(Channel.Vent) is { } vent && vent.Value > Math.Max(point.CabinK ?? 0, point.AmbientK) + 45)
            yield return new(
                0,
                ContradictionKind.VentTooWarm,
                Channel.Vent,
                vent.Value,
                Math.Max(point.CabinK ?? 0, point.AmbientK) + 45
            );
        if (Find(Channel.LiquidLine) is { } liquid)
        {
            var margin = ProbeMarginK + (Sigmas * liquid.SigmaInstrument);
            if (point.Aid != Aid.Mist && point.AmbientK - liquid.Value > margin)
                yield return new(0, ContradictionKind.LiquidBelowAir, Channel.LiquidLine, liquid.Value, point.AmbientK);
            if (Find(Channel.DischargeLine) is { } discharge && liquid.Value - discharge.Value > margin)
                yield return new(
                    0,
                    ContradictionKind.LiquidAboveDischarge,
                    Channel.LiquidLine,
                    liquid.Value,
                    discharge.Value
                );
        }
    }
}
