using System.Collections.Immutable;
using Tightcold.Jobs.Entries;
using Tightcold.Jobs.Fields;
using Tightcold.Jobs.Journals;
using Tightcold.Picture.Pressures;
using Tightcold.Procedures.Charging;
using Tightcold.Procedures.Recovery;
using static Tightcold.Picture.Pressures.Evidence;

namespace Tightcold.Picture.Recover;

/// <summary>What was taken out, whether it was all, and whether the cylinders may hold it.</summary>
/// <param name="Entries">The recoveries, in their order.</param>
/// <param name="RecoveredKg">By the scale, oil that came along included.</param>
/// <param name="SigmaKg">Standard deviation.</param>
public sealed record RecoveryPicture(ImmutableArray<Entry> Entries, double RecoveredKg, double SigmaKg)
{
    /// <summary>Oil comes along with what is recovered: circulation ratios of 1 to 5 % (trade's figure, from
    /// memory).</summary>
    private const double OilAlong = 0.02;

    public const string Unknown = "mixed or unknown";

    /// <param name="MayKg">At the most, 80 % full at the hottest; null where capacity or tare is not known.</param>
    public readonly record struct Cylinder(
        string Name,
        double NetKg,
        double? MayKg,
        double HottestK,
        bool ContentUnknown
    )
    {
        public bool Overfilled => NetKg > MayKg;
    }

    /// <summary>Null when no pressure was read at the end.</summary>
    public RecoveryEnd? End { get; private init; }

    /// <summary>True at its end, false not, null when nobody waited.</summary>
    public bool? Ended { get; private init; }

    /// <summary>Waited long enough for the oil; null when nobody waited.</summary>
    public bool? WaitedEnough { get; private init; }

    /// <summary>Against what the standing pressure said; null where that said no mass.</summary>
    public RecoveredAgainst? Thought { get; private init; }
    public ImmutableArray<Cylinder> Cylinders { get; private init; } = [];

    public static RecoveryPicture? Of(JobPicture picture)
    {
        ArgumentNullException.ThrowIfNull(picture);
        var record = picture.Record;
        ImmutableArray<Entry> entries = [.. record.Journal.OfKind(EntryKinds.Recovery)];
        if (entries.IsEmpty)
            return null;
        var recovered = picture.Mass.RecoveredKg;
        var variance =
            entries.Sum(entry =>
                2 * Math.Pow(MassSigma(entry, FieldNames.GrossAfter, record.KitAt(entry.ObservedAt)), 2)
            ) + Math.Pow(OilAlong * recovered, 2);
        var sigma = Math.Sqrt(variance);
        var (end, ended, enough) = EndOf(record, entries[^1]);
        return new(entries, recovered, sigma)
        {
            End = end,
            Ended = ended,
            WaitedEnough = enough,
            Thought = Against(picture, recovered, sigma, end),
            Cylinders = [.. CylindersOf(picture, entries)],
        };
    }

    /// <summary>Fill of each cylinder that was used.</summary>
    private static IEnumerable<Cylinder> CylindersOf(JobPicture picture, ImmutableArray<Entry> entries)
    {
        var record = picture.Record;
        var fluid = FluidOf(record.Car);
        var hottestK = record
            .Journal.OfKind(EntryKinds.Weather)
            .Select(entry => entry.Fields.Si(FieldNames.AmbientTemperature) ?? 0)
            .DefaultIfEmpty(0)
            .Max();
        foreach (
            var name in entries
                .Select(entry => entry.Fields.Text(FieldNames.Container)!)
                .Distinct(StringComparer.OrdinalIgnoreCase)
        )
        {
            if (
                !picture.Mass.Holdings.TryGetValue(name, out var holding)
                || holding.Container.WaterCapacity is not { } capacity
            )
                continue;
            // Of an unknown mixture the density is unknown too: three quarters of the usual fill.
            var unknown = holding.Container.Refrigerant == Unknown;
            var most = CylinderFill.MostNetKg(fluid, capacity.Kilograms, hottestK) * (unknown ? 0.75 : 1);
            yield return new(
                name,
                holding.NetKg,
                holding.Container.Tare is null ? null : most,
                Math.Max(CylinderFill.ReferenceK, hottestK),
                unknown
            );
        }
    }

    private static (RecoveryEnd? End, bool? Ended, bool? Enough) EndOf(JobRecord record, Entry last)
    {
        if (Gauges.Read(record, last, FieldNames.FinalPressure) is not { } final)
            return (null, null, null);
        var waited = Gauges.Read(record, last, FieldNames.PressureAfterWait);
        var temperatureK = record.WeatherAt(last.ObservedAt)?.Fields.Si(FieldNames.AmbientTemperature) ?? 298.15;
        var end = RecoveryEnd.Of(
            FluidOf(record.Car),
            VolumeOf(record.Car).M3,
            OilM3(record.Car),
            temperatureK,
            final.Pascals,
            (waited ?? final).Pascals,
            final.GaugeSigmaPa,
            AirPressure.At(record, last.ObservedAt).Pascals
        );
        return waited is null
            ? (end, null, null)
            : (end, end.Done >= 0.5, last.Fields.Si(FieldNames.Waited) >= RecoveryEnd.LeastWaitS - 1);
    }

    private static RecoveredAgainst? Against(JobPicture picture, double recoveredKg, double sigma, RecoveryEnd? end)
    {
        if (picture.Came.Left is not { } left)
            return null;
        var inside = end is { } known ? 0.5 * (known.LeftLeastKg + known.LeftMostKg) : 0.01;
        return RecoveredAgainst.Of(recoveredKg, Math.Sqrt((sigma * sigma) + 1e-5), left.MeanKg, left.SigmaKg, inside);
    }
}
