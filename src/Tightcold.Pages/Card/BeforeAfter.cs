using System.Collections.Immutable;
using Tightcold.Jobs.Entries;
using Tightcold.Jobs.Fields;
using Tightcold.Jobs.Journals;
using Tightcold.Picture;
using Tightcold.Picture.Cold;
using Tightcold.Quantities;
using Tightcold.Tongues;

namespace Tightcold.Pages.Card;

/// <summary>Readings as the car came and as it went, side by side, and the drawings of the hold and of the
/// vent.</summary>
/// <param name="Rows">What was read, before, after; an empty cell where nothing was.</param>
/// <param name="Plots">At most two.</param>
public sealed record BeforeAfter(
    ImmutableArray<(string What, string Before, string After)> Rows,
    ImmutableArray<CardPlot> Plots
)
{
    private static readonly ImmutableArray<string> Fields =
    [
        FieldNames.LowSide,
        FieldNames.HighSide,
        FieldNames.AmbientTemperature,
        FieldNames.RelativeHumidity,
        FieldNames.VentTemperature,
        FieldNames.CabinTemperature,
        FieldNames.SuctionLineTemperature,
        FieldNames.LiquidLineTemperature,
    ];

    public static BeforeAfter Of(JobPicture picture, IMeasureFormat units)
    {
        ArgumentNullException.ThrowIfNull(picture);
        var record = picture.Record;
        // Before: until something was taken out, opened or filled in.
        var turn = record
            .Journal.Standing.FirstOrDefault(entry =>
                entry.Kind is EntryKinds.Recovery or EntryKinds.Opened or EntryKinds.Pump or EntryKinds.ContainerMoved
            )
            ?.ObservedAt
            ?? DateTimeOffset.MaxValue;
        var rows = ImmutableArray.CreateBuilder<(string, string, string)>();
        Standing(record, turn, units, rows);
        var running = record.Journal.OfKind(EntryKinds.RunningReading).ToArray();
        var vents = record.Journal.OfKind(EntryKinds.VentReading).ToArray();
        var (before, after) = (
            running.LastOrDefault(entry => entry.ObservedAt < turn),
            running.LastOrDefault(entry => entry.ObservedAt > turn)
        );
        var vent = vents.LastOrDefault(entry => entry.ObservedAt > turn);
        foreach (var name in Fields)
        {
            var field = EntryKinds.Get(EntryKinds.RunningReading).Find(name)!;
            var first = Cell(before, name, units);
            if (first.Length == 0 && before is not null)
                first = Cell(record.WeatherAt(before.ObservedAt), name, units);
            var last = Cell(after, name, units) is { Length: > 0 } read ? read : Cell(vent, name, units);
            // What a reading left out, the weather of its own time tells, never that of the other end of the day.
            if (last.Length == 0 && (vent ?? after) is { } end)
                last = Cell(record.WeatherAt(end.ObservedAt), name, units);
            // The proof is read at the vent, after the gauges.
            if (name == FieldNames.VentTemperature && Cell(vent, name, units) is { Length: > 0 } proven)
                last = proven;
            if (first.Length + last.Length > 0)
                rows.Add((Say.It($"Running: {Say.Within(field.Label).Split('(')[0].Trim()}"), first, last));
        }
        var plots = new List<CardPlot>();
        if (Hold(record) is { } hold)
            plots.Add(hold);
        if (Vent(picture.Cold) is { } drawn)
            plots.Add(drawn);
        return new(rows.ToImmutable(), [.. plots]);
    }

    private static void Standing(
        JobRecord record,
        DateTimeOffset turn,
        IMeasureFormat units,
        ImmutableArray<(string, string, string)>.Builder rows
    )
    {
        var standing = record.Journal.OfKind(EntryKinds.StandingReading).ToArray();
        var (came, went) = (
            standing.LastOrDefault(entry => entry.ObservedAt < turn),
            standing.LastOrDefault(entry => entry.ObservedAt > turn)
        );
        foreach (
            var (name, label) in new[]
            {
                (FieldNames.LowSide, Say.It("Engine off: low side")),
                (FieldNames.HighSide, Say.It("Engine off: high side")),
            }
        )
        {
            var (first, last) = (Cell(came, name, units), Cell(went, name, units));
            if (first.Length + last.Length > 0)
                rows.Add((label, first, last));
        }
    }

    private static string Cell(Entry? entry, string field, IMeasureFormat units) =>
        entry?.Fields[field] is FieldValue.Quantity quantity ? units.Format(quantity.Value) : "";

    /// <summary>The rise after the pump was shut off, micron or mbar by what an absolute gauge read; null with fewer
    /// than three readings.</summary>
    private static CardPlot? Hold(JobRecord record)
    {
        var readings = record
            .Journal.OfKind(EntryKinds.VacuumReading)
            .Where(entry =>
                entry.Fields.Text(FieldNames.PumpValve) == Chosen.Shut
                && entry.Fields.Si(FieldNames.AbsolutePressure) is not null
            )
            .ToArray();
        return readings.Length < 3
            ? null
            : new CardPlot(
                Say.It("Vacuum after the pump was shut off"),
                Say.It("minutes"),
                Say.It("Pa (1 Pa = 0.01 mbar = 7.5 micron)"),
                [
                    .. readings.Select(entry =>
                        (
                            (entry.ObservedAt - readings[0].ObservedAt).TotalMinutes,
                            entry.Fields.Si(FieldNames.AbsolutePressure)!.Value
                        )
                    ),
                ],
                []
            );
    }

    private static CardPlot? Vent(ColdPicture? cold) =>
        cold is not { Readings: { Length: >= 2 } vents }
            ? null
            : new(
                Say.It("Vent in time; bars: what a sound car blows, from a model"),
                Say.It("minutes"),
                Say.It("°C at the vent"),
                [
                    .. vents.Select(vent =>
                        (
                            (vent.Entry.ObservedAt - vents[0].Entry.ObservedAt).TotalMinutes,
                            vent.Observation.VentK - 273.15
                        )
                    ),
                ],
                [.. vents.Select(vent => (vent.Observation.Band.LowK - 273.15, vent.Observation.Band.HighK - 273.15))]
            );

    /// <summary>Money by currency and hours, as the person wrote them down; empty when nothing was.</summary>
    public static string Costs(JobRecord record)
    {
        var standing = record.Journal.Standing;
        var parts = standing
            .Where(entry => entry.Kind is EntryKinds.PartChanged or EntryKinds.SealChanged)
            .Sum(entry => entry.Fields.Number(FieldNames.Price) ?? 0);
        var costs = standing.Where(entry => entry.Kind == EntryKinds.Cost).ToArray();
        var words = costs
            .GroupBy(entry => entry.Fields.Text(FieldNames.Currency) ?? "")
            .Select(group =>
                $"{group.Sum(entry => entry.Fields.Number(FieldNames.Amount) ?? 0).ToString("0.00", Say.Tongue.Culture)} {group.Key}".Trim()
            )
            .ToList();
        if (parts > 0)
            words.Insert(
                0,
                Say.It($"prices written beside parts and seals {parts.ToString("0.00", Say.Tongue.Culture)}")
            );
        var seconds = costs.Sum(entry => entry.Fields.Si(FieldNames.TimeSpent) ?? 0);
        if (seconds > 0)
            words.Add(Say.It($"{(seconds / 3600).ToString("0.0", Say.Tongue.Culture)} h"));
        return string.Join(", ", words);
    }
}
