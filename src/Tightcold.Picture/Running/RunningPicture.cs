using Tightcold.Jobs.Entries;
using Tightcold.Jobs.Fields;
using Tightcold.Jobs.Journals;
using Tightcold.Picture.Circuit;
using Tightcold.Picture.Pressures;
using Tightcold.Properties;

namespace Tightcold.Picture.Running;

/// <summary>The last running reading: both sides, what boils and condenses there, and what the line temperatures
/// add.</summary>
/// <param name="Entry">The reading.</param>
/// <param name="Low">Null where it was not read.</param>
/// <param name="High">Null where it was not read.</param>
public sealed record RunningPicture(Entry Entry, RunningPicture.Side? Low, RunningPicture.Side? High)
{
    /// <summary>A clamp on a pipe reads within about so many kelvins of the refrigerant, one standard deviation; common
    /// practice.</summary>
    private const double ClampK = 1.5;

    /// <param name="Pascals">Absolute.</param>
    /// <param name="SaturationK">Of the label's refrigerant; null outside what it condenses at.</param>
    public sealed record Side(double Pascals, double SigmaPa, double? SaturationK, double SaturationSigmaK);

    public readonly record struct Difference(double Kelvins, double SigmaK);

    public AirPressure Air { get; private init; } = new(101_325, 3000, AirKnown.SeaLevelAssumed);

    /// <summary>Of the air around the car, by the reading or the weather; null when neither was written down.</summary>
    public double? AmbientK { get; private init; }

    public Difference? Superheat { get; private init; }
    public Difference? Subcooling { get; private init; }

    /// <summary>High over low, absolute.</summary>
    public double? Ratio => Low is { } low && High is { } high ? high.Pascals / low.Pascals : null;

    /// <summary>Readings that cannot be; the last one, when it is later than the one that is shown.</summary>
    public (Entry Entry, Doubt Doubt)? Doubted { get; private init; }

    public static RunningPicture? Of(JobPicture picture)
    {
        ArgumentNullException.ThrowIfNull(picture);
        var (record, timeline) = (picture.Record, picture.Timeline);
        // A compressor that turned on a vacuum or on nitrogen tells nothing of this circuit.
        var entry = timeline
            .OfKind(EntryKinds.RunningReading)
            .LastOrDefault(one => timeline.Before(one).HoldsRefrigerant);
        if (entry is null)
            return null;
        var fluid = Evidence.FluidOf(record.Car);
        var (low, high) = (
            SideOf(record, fluid, entry, FieldNames.LowSide),
            SideOf(record, fluid, entry, FieldNames.HighSide)
        );
        return new(entry, low, high)
        {
            Air = AirPressure.At(record, entry.ObservedAt),
            AmbientK = entry.Fields.Si(FieldNames.AmbientTemperature)
                ?? record.WeatherAt(entry.ObservedAt)?.Fields.Si(FieldNames.AmbientTemperature),
            Superheat = Between(record, entry, FieldNames.SuctionLineTemperature, low, 1),
            Subcooling = Between(record, entry, FieldNames.LiquidLineTemperature, high, -1),
        };
    }

    private static Side? SideOf(JobRecord record, Fluid fluid, Entry entry, string field)
    {
        if (Gauges.Read(record, entry, field) is not { } read)
            return null;
        // A swinging needle: the middle counts, and the swing widens it.
        var swing = Gauges.Read(record, entry, field + "-swing-to") is { } top
            ? Math.Max(0, top.Pascals - read.Pascals)
            : 0;
        var pascals = read.Pascals + (swing / 2);
        var sigma = Math.Sqrt((read.SigmaPa * read.SigmaPa) + (swing * swing / 12));
        if (pascals < 20e3 || pascals > 0.97 * fluid.CriticalPressurePa)
            return new(pascals, sigma, null, 0);
        var slope =
            (
                fluid.SaturationAtPressure(pascals * 1.01).TemperatureK
                - fluid.SaturationAtPressure(pascals * 0.99).TemperatureK
            ) / (0.02 * pascals);
        return new(pascals, sigma, fluid.SaturationAtPressure(pascals).TemperatureK, slope * sigma);
    }

    private static Difference? Between(JobRecord record, Entry entry, string field, Side? side, int sign)
    {
        if (side is not { SaturationK: { } saturationK } || entry.Fields.Si(field) is not { } lineK)
            return null;
        var thermometer = Evidence.TemperatureSigma(entry, field, record.KitAt(entry.ObservedAt));
        return new(
            sign * (lineK - saturationK),
            Math.Sqrt((thermometer * thermometer) + (ClampK * ClampK) + (side.SaturationSigmaK * side.SaturationSigmaK))
        );
    }
}
