using Tightcold.Diagnosis.Measurement;
using Tightcold.Jobs.Entries;
using Tightcold.Jobs.Fields;
using Tightcold.Jobs.Journals;
using Tightcold.Jobs.Kits;
using Tightcold.Picture.Pressures;
using Tightcold.Quantities;
using static Tightcold.Picture.Pressures.Evidence;

namespace Tightcold.Picture.Machine;

/// <summary>One running reading as an operating point with its instruments' errors.</summary>
internal static class PointMaker
{
    private const double RunningRpm = 400;

    public static OperatingPoint? Of(JobRecord record, Entry entry, List<Assumption> assumptions, List<Phrase> missing)
    {
        var kit = record.KitAt(entry.ObservedAt);
        var weather = record.WeatherAt(entry.ObservedAt);
        var own = entry.Fields.Si(FieldNames.AmbientTemperature);
        if ((own ?? weather?.Fields.Si(FieldNames.AmbientTemperature)) is not { } ambient)
        {
            missing.Add(
                Phrase.Words(
                    "the outside air's temperature at a running reading: without it that reading cannot be weighed"
                )
            );
            return null;
        }

        var rpm = entry.Fields.Si(FieldNames.EngineSpeed) * 60;
        if (rpm < RunningRpm)
            return null;
        if (rpm is null)
            assumptions.Add(
                new(
                    Phrase.Words("Engine speed somewhere between idle and 1800 a minute"),
                    Phrase.Words("it moves both gauges: note it with each reading")
                )
            );
        var humidity = entry.Fields.Si(FieldNames.RelativeHumidity) ?? weather?.Fields.Si(FieldNames.RelativeHumidity);
        if (humidity is null)
            missing.Add(Phrase.Words("humidity: damp air loads the coil and warms the vent"));
        var air = AirPressure.At(record, entry.ObservedAt);
        if (air.Assumption is { } assumedAir)
            assumptions.Add(assumedAir);
        var recirculated = entry.Fields.Text(FieldNames.AirSource) == Chosen.Recirculated;
        var cabin = recirculated ? entry.Fields.Si(FieldNames.CabinTemperature) : null;
        if (recirculated && cabin is null)
            missing.Add(Phrase.Words("the cabin air's temperature: on recirculation that is what gets cooled"));
        OnlyOneEnd(entry, missing);
        if (entry.Fields.Text(FieldNames.LinePart) == Chosen.Drier && LineStep(entry) is not null)
            assumptions.Add(
                new(
                    Phrase.Words("The fall across the drier is taken for that of the whole liquid line"),
                    Phrase.Words("a kink or screen behind it would not show there: read before the expansion device")
                )
            );
        return new()
        {
            AmbientK = ambient,
            AmbientSigmaK = TemperatureSigma(entry, FieldNames.AmbientTemperature, kit) + (own is null ? 1.5 : 0.5),
            RelativeHumidity = humidity ?? 0.5,
            HumiditySigma = humidity is null
                ? 0.18
                : kit.HygrometerPlusMinus / SigmasInPlusMinus
                    + (entry.Fields.Si(FieldNames.RelativeHumidity) is null ? 0.05 : 0.02),
            BarometricPa = air.Pascals,
            EngineRpm = rpm ?? 1200,
            EngineSigma = rpm is null ? 0.25 : 0.05,
            BlowerShare = entry.Fields.Text(FieldNames.Blower) switch
            {
                Chosen.Low => 0.4,
                Chosen.Medium => 0.7,
                _ => 1,
            },
            FreshShare = recirculated ? 0.05 : 1,
            IntakeSaid = entry.Fields.Text(FieldNames.AirSource) is not null,
            Doors = entry.Fields.Text(FieldNames.Doors) switch
            {
                Chosen.Open => DoorsAre.Open,
                Chosen.WindowsOpen => DoorsAre.WindowsOpen,
                Chosen.Closed => DoorsAre.Closed,
                _ => DoorsAre.NotSaid,
            },
            CabinK = cabin,
            CabinRelativeHumidity = recirculated ? entry.Fields.Si(FieldNames.CabinHumidity) : null,
            MinutesRunning = entry.Fields.Si(FieldNames.SinceStart) / 60,
            SwitchBridged = entry.Fields.Text(FieldNames.SwitchBridged) == Chosen.Yes,
            Aid = entry.Fields.Text(FieldNames.Aid) switch
            {
                Chosen.FanOnCondenser => Aid.Fan,
                Chosen.WaterMist => Aid.Mist,
                Chosen.BlockedAirflow => Aid.Blocked,
                _ => Aid.None,
            },
            Readings = [.. Readings(record, entry, kit)],
            CyclesPerMinute = entry.Fields.Number(FieldNames.CyclesPerMinute),
            Clutch = entry.Fields.Text(FieldNames.Clutch) switch
            {
                Chosen.On => ClutchSeen.On,
                Chosen.Off => ClutchSeen.Off,
                Chosen.Cycling => ClutchSeen.Cycling,
                _ => ClutchSeen.NotLooked,
            },
            Glass = entry.Fields.Text(FieldNames.SightGlass) switch
            {
                Chosen.Clear => GlassSeen.Clear,
                Chosen.Bubbles => GlassSeen.Bubbles,
                Chosen.Milky => GlassSeen.Milky,
                _ => GlassSeen.NotLooked,
            },
            Frost = entry.Fields.Text(FieldNames.Frost) switch
            {
                Chosen.None => FrostSeen.Nowhere,
                Chosen.AtTheExpansionDevice => FrostSeen.AtThrottle,
                Chosen.OnTheSuctionLine => FrostSeen.OnSuctionLine,
                Chosen.OnTheDrier => FrostSeen.OnDrier,
                _ => FrostSeen.NotLooked,
            },
        };
    }

    private static IEnumerable<Reading> Readings(JobRecord record, Entry entry, Kit kit)
    {
        if (Pressure(record, entry, FieldNames.LowSide) is { } low)
            yield return low with
            {
                Channel = Channel.LowSide,
            };
        if (
            Pressure(record, entry, FieldNames.LowSide) is { } from
            && Pressure(record, entry, FieldNames.LowSideSwingTo) is { } top
            && top.Value > from.Value
        )
            yield return top with
            {
                Channel = Channel.LowSwingTop,
            };
        if (Pressure(record, entry, FieldNames.HighSide) is { } high)
            yield return high with
            {
                Channel = Channel.HighSide,
            };
        if (
            Pressure(record, entry, FieldNames.HighSide) is { } fromHigh
            && Pressure(record, entry, FieldNames.HighSideSwingTo) is { } topHigh
            && topHigh.Value > fromHigh.Value
        )
            yield return topHigh with
            {
                Channel = Channel.HighSwingTop,
            };
        if (Temperature(entry, FieldNames.VentTemperature, kit) is { } vent)
            yield return vent with
            {
                Channel = Channel.Vent,
            };
        if (Temperature(entry, FieldNames.SuctionLineTemperature, kit) is { } suction)
            yield return suction with
            {
                Channel = Channel.SuctionLine,
            };
        if (Temperature(entry, FieldNames.LiquidLineTemperature, kit) is { } liquid)
            yield return liquid with
            {
                Channel = Channel.LiquidLine,
            };
        if (Temperature(entry, FieldNames.DischargeLineTemperature, kit) is { } discharge)
            yield return discharge with
            {
                Channel = Channel.DischargeLine,
            };
        if (LineStep(entry) is { } step)
            yield return step;
    }

    // Two clampings of one thermometer differ by the contact alone, K, one standard deviation each; assumed.
    private const double ClampedTwiceK = 0.35;

    /// <summary>The fall along the liquid line by one thermometer, whose own error falls out.</summary>
    private static Reading? LineStep(Entry entry)
    {
        if (
            entry.Fields.Si(FieldNames.LineBeforeTemperature) is not { } before
            || entry.Fields.Si(FieldNames.LineBehindTemperature) is not { } behind
        )
            return null;
        double Sigma(string field) =>
            Math.Max(ClampedTwiceK, (entry.Fields.PlusMinusSi(field) ?? 0) / SigmasInPlusMinus);
        var (one, other) = (Sigma(FieldNames.LineBeforeTemperature), Sigma(FieldNames.LineBehindTemperature));
        return new(Channel.LineStep, before - behind, Math.Sqrt((one * one) + (other * other)));
    }

    /// <summary>What tells nothing without its other half.</summary>
    private static void OnlyOneEnd(Entry entry, List<Phrase> missing)
    {
        bool Has(string field) => entry.Fields[field] is not null;
        if (Has(FieldNames.LineBeforeTemperature) != Has(FieldNames.LineBehindTemperature))
            missing.Add(
                Phrase.Words("the other end of the liquid line: one temperature there tells nothing, the fall does")
            );
        if (Has(FieldNames.LowSideSwingTo) && !Has(FieldNames.LowSide))
            missing.Add(Phrase.Words("where the low side swings down to: the upper end alone tells nothing"));
        if (Has(FieldNames.HighSideSwingTo) && !Has(FieldNames.HighSide))
            missing.Add(Phrase.Words("where the high side swings down to: the upper end alone tells nothing"));
    }

    private static Reading? Pressure(JobRecord record, Entry entry, string field) =>
        Gauges.Read(record, entry, field) is { } read
            ? new(Channel.LowSide, read.Pascals, read.SigmaWithZeroPa, read.StepPa)
            : null;

    private static Reading? Temperature(Entry entry, string field, Kit kit) =>
        entry.Fields.Si(field) is { } kelvins
            ? new(Channel.Vent, kelvins, Math.Max(0.2, TemperatureSigma(entry, field, kit)))
            : null;
}
