using Tightcold.Diagnosis.Measurement;
using Tightcold.Jobs.Entries;
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
        var own = entry.Fields.Si("ambient-temperature");
        if ((own ?? weather?.Fields.Si("ambient-temperature")) is not { } ambient)
        {
            missing.Add(
                Phrase.Words(
                    "the outside air's temperature at a running reading: without it that reading cannot be weighed"
                )
            );
            return null;
        }

        var rpm = entry.Fields.Si("engine-speed") * 60;
        if (rpm < RunningRpm)
            return null;
        if (rpm is null)
            assumptions.Add(
                new(
                    Phrase.Words("Engine speed somewhere between idle and 1800 a minute"),
                    Phrase.Words("it moves both gauges: note it with each reading")
                )
            );
        var humidity = entry.Fields.Si("relative-humidity") ?? weather?.Fields.Si("relative-humidity");
        if (humidity is null)
            missing.Add(Phrase.Words("humidity: damp air loads the coil and warms the vent"));
        var air = AirPressure.At(record, entry.ObservedAt);
        if (air.Assumption is { } assumedAir)
            assumptions.Add(assumedAir);
        var recirculated = entry.Fields.Text("air-source") == "recirculated";
        var cabin = recirculated ? entry.Fields.Si("cabin-temperature") : null;
        if (recirculated && cabin is null)
            missing.Add(Phrase.Words("the cabin air's temperature: on recirculation that is what gets cooled"));
        OnlyOneEnd(entry, missing);
        if (entry.Fields.Text("line-part") == "drier" && LineStep(entry) is not null)
            assumptions.Add(
                new(
                    Phrase.Words("The fall across the drier is taken for that of the whole liquid line"),
                    Phrase.Words("a kink or screen behind it would not show there: read before the expansion device")
                )
            );
        return new()
        {
            AmbientK = ambient,
            AmbientSigmaK = TemperatureSigma(entry, "ambient-temperature", kit) + (own is null ? 1.5 : 0.5),
            RelativeHumidity = humidity ?? 0.5,
            HumiditySigma = humidity is null
                ? 0.18
                : kit.HygrometerPlusMinus / SigmasInPlusMinus
                    + (entry.Fields.Si("relative-humidity") is null ? 0.05 : 0.02),
            BarometricPa = air.Pascals,
            EngineRpm = rpm ?? 1200,
            EngineSigma = rpm is null ? 0.25 : 0.05,
            BlowerShare = entry.Fields.Text("blower") switch
            {
                "low" => 0.4,
                "medium" => 0.7,
                _ => 1,
            },
            FreshShare = recirculated ? 0.05 : 1,
            IntakeSaid = entry.Fields.Text("air-source") is not null,
            Doors = entry.Fields.Text("doors") switch
            {
                "open" => DoorsAre.Open,
                "windows open" => DoorsAre.WindowsOpen,
                "closed" => DoorsAre.Closed,
                _ => DoorsAre.NotSaid,
            },
            CabinK = cabin,
            CabinRelativeHumidity = recirculated ? entry.Fields.Si("cabin-humidity") : null,
            MinutesRunning = entry.Fields.Si("since-start") / 60,
            SwitchBridged = entry.Fields.Text("switch-bridged") == "yes",
            Aid = entry.Fields.Text("aid") switch
            {
                "fan on condenser" => Aid.Fan,
                "water mist" => Aid.Mist,
                "blocked airflow" => Aid.Blocked,
                _ => Aid.None,
            },
            Readings = [.. Readings(record, entry, kit)],
            CyclesPerMinute = entry.Fields.Number("cycles-per-minute"),
            Clutch = entry.Fields.Text("clutch") switch
            {
                "on" => ClutchSeen.On,
                "off" => ClutchSeen.Off,
                "cycling" => ClutchSeen.Cycling,
                _ => ClutchSeen.NotLooked,
            },
            Glass = entry.Fields.Text("sight-glass") switch
            {
                "clear" => GlassSeen.Clear,
                "bubbles" => GlassSeen.Bubbles,
                "milky" => GlassSeen.Milky,
                _ => GlassSeen.NotLooked,
            },
            Frost = entry.Fields.Text("frost") switch
            {
                "none" => FrostSeen.Nowhere,
                "at the expansion device" => FrostSeen.AtThrottle,
                "on the suction line" => FrostSeen.OnSuctionLine,
                "on the drier" => FrostSeen.OnDrier,
                _ => FrostSeen.NotLooked,
            },
        };
    }

    private static IEnumerable<Reading> Readings(JobRecord record, Entry entry, Kit kit)
    {
        if (Pressure(record, entry, "low-side") is { } low)
            yield return low with
            {
                Channel = Channel.LowSide,
            };
        if (
            Pressure(record, entry, "low-side") is { } from
            && Pressure(record, entry, "low-side-swing-to") is { } top
            && top.Value > from.Value
        )
            yield return top with
            {
                Channel = Channel.LowSwingTop,
            };
        if (Pressure(record, entry, "high-side") is { } high)
            yield return high with
            {
                Channel = Channel.HighSide,
            };
        if (
            Pressure(record, entry, "high-side") is { } fromHigh
            && Pressure(record, entry, "high-side-swing-to") is { } topHigh
            && topHigh.Value > fromHigh.Value
        )
            yield return topHigh with
            {
                Channel = Channel.HighSwingTop,
            };
        if (Temperature(entry, "vent-temperature", kit) is { } vent)
            yield return vent with
            {
                Channel = Channel.Vent,
            };
        if (Temperature(entry, "suction-line-temperature", kit) is { } suction)
            yield return suction with
            {
                Channel = Channel.SuctionLine,
            };
        if (Temperature(entry, "liquid-line-temperature", kit) is { } liquid)
            yield return liquid with
            {
                Channel = Channel.LiquidLine,
            };
        if (Temperature(entry, "discharge-line-temperature", kit) is { } discharge)
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
            entry.Fields.Si("line-before-temperature") is not { } before
            || entry.Fields.Si("line-behind-temperature") is not { } behind
        )
            return null;
        double Sigma(string field) =>
            Math.Max(ClampedTwiceK, (entry.Fields.PlusMinusSi(field) ?? 0) / SigmasInPlusMinus);
        var (one, other) = (Sigma("line-before-temperature"), Sigma("line-behind-temperature"));
        return new(Channel.LineStep, before - behind, Math.Sqrt((one * one) + (other * other)));
    }

    /// <summary>What tells nothing without its other half.</summary>
    private static void OnlyOneEnd(Entry entry, List<Phrase> missing)
    {
        bool Has(string field) => entry.Fields[field] is not null;
        if (Has("line-before-temperature") != Has("line-behind-temperature"))
            missing.Add(
                Phrase.Words("the other end of the liquid line: one temperature there tells nothing, the fall does")
            );
        if (Has("low-side-swing-to") && !Has("low-side"))
            missing.Add(Phrase.Words("where the low side swings down to: the upper end alone tells nothing"));
        if (Has("high-side-swing-to") && !Has("high-side"))
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
