using System.Collections.Immutable;
using Tightcold.Jobs.Entries;
using Tightcold.Jobs.Fields;
using Tightcold.Procedures.Oil;
using static Tightcold.Picture.Pressures.Evidence;

namespace Tightcold.Picture.Mend;

/// <summary>Parts and seals that went in, the oil that is due for them, and what the open circuit asks of the
/// drier.</summary>
/// <param name="Changed">Parts and seals, in their order.</param>
/// <param name="Oil">Due and added.</param>
/// <param name="Drier">What is known of it.</param>
public sealed record MendPicture(ImmutableArray<Entry> Changed, OilBalance Oil, DrierState Drier)
{
    /// <summary>Work of any kind on the circuit.</summary>
    public ImmutableArray<Entry> Work { get; private init; } = [];

    public static MendPicture Of(JobPicture picture)
    {
        ArgumentNullException.ThrowIfNull(picture);
        ImmutableArray<Entry> work =
        [
            .. picture.Record.Journal.Standing.Where(entry =>
                entry.Kind
                    is EntryKinds.PartChanged
                        or EntryKinds.SealChanged
                        or EntryKinds.OilMoved
                        or EntryKinds.Opened
                        or EntryKinds.Closed
            ),
        ];
        ImmutableArray<Entry> changed =
        [
            .. work.Where(entry => entry.Kind is EntryKinds.PartChanged or EntryKinds.SealChanged),
        ];
        return new(changed, OilBalance.Of(work, changed), DrierState.Of(picture, changed)) { Work = work };
    }
}

/// <summary>Oil that parts and drains ask for, against what went in; m³.</summary>
/// <param name="LowM3">Due at the least, by what makers publish per part.</param>
/// <param name="HighM3">At the most.</param>
/// <param name="AddedM3">Poured in, or in a part as it came.</param>
public sealed record OilBalance(double LowM3, double HighM3, double AddedM3)
{
    /// <summary>More than this beyond what is due costs cooling, m³; assumed.</summary>
    private const double MuchM3 = 20e-6;

    /// <summary>A new compressor whose old one was not drained and measured gets this, m³; common practice.</summary>
    private const double UndrainedLowM3 = 40e-6,
        UndrainedHighM3 = 110e-6;

    /// <summary>Nobody measured what came out of the old compressor.</summary>
    public bool CompressorNotDrained { get; private init; }

    /// <summary>To pour out of a new compressor that came filled for a whole system, m³; 0 when nothing.</summary>
    public double PourOutM3 { get; private init; }

    public bool Any => LowM3 + HighM3 + AddedM3 > 0;
    public bool TooLittle => AddedM3 < LowM3 - 1e-9;
    public bool TooMuch => AddedM3 > HighM3 + MuchM3;
    public bool Balanced => !TooLittle && !TooMuch;

    internal static OilBalance Of(ImmutableArray<Entry> work, ImmutableArray<Entry> changed)
    {
        double Sum(string direction, string? spot = null) =>
            work.Where(entry =>
                    entry.Kind == EntryKinds.OilMoved
                    && entry.Fields.Text(FieldNames.Direction) == direction
                    && (spot is null || entry.Fields.Text(FieldNames.Spot) == spot)
                )
                .Sum(entry => entry.Fields.Si(FieldNames.Amount) ?? 0);
        double low = 0,
            high = 0,
            cameFilled = 0,
            pour = 0,
            drained = Sum("drained");
        var undrained = false;
        foreach (var part in changed.Where(entry => entry.Kind == EntryKinds.PartChanged))
        {
            var spot = part.Fields.Text(FieldNames.Spot) ?? "";
            cameFilled += part.Fields.Si(FieldNames.OilInNewPart) ?? 0;
            if (spot == "compressor body")
            {
                var outOfIt = Sum("drained", spot);
                if (outOfIt <= 0)
                {
                    undrained = true;
                    (low, high) = (low + UndrainedLowM3, high + UndrainedHighM3);
                    continue;
                }
                var due = CompressorOil.Of(outOfIt, part.Fields.Si(FieldNames.OilInNewPart));
                drained -= outOfIt;
                (low, high) = (low + due.LowM3, high + due.HighM3);
                pour = due.PourOutM3 ?? 0;
            }
            else
            {
                var due = OilDue.With(spot);
                (low, high) = (low + due.LowM3, high + due.HighM3);
            }
        }
        drained = Math.Max(0, drained);
        return new(drained + low, drained + high, Sum("added") + cameFilled)
        {
            CompressorNotDrained = undrained,
            PourOutM3 = pour > 1e-6 ? pour : 0,
        };
    }
}

/// <summary>What the open circuit asks of the drier.</summary>
/// <param name="Renewed">A new one went in.</param>
/// <param name="Wanted">Why a new one belongs in; null when none is asked for.</param>
public sealed record DrierState(bool Renewed, DrierWanted? Wanted)
{
    /// <summary>A drier in an open circuit takes up the air's water; beyond this it is asked about. Common practice:
    /// fitted last, open under 5 to 10 minutes.</summary>
    private static readonly TimeSpan Patience = TimeSpan.FromMinutes(10);

    /// <summary>How long it stood open; null while it was not opened, or is not closed.</summary>
    public TimeSpan? OpenFor { get; private init; }

    /// <summary>It stands open.</summary>
    public bool StillOpen { get; private init; }
    public int OpenEnds { get; private init; }

    /// <summary>Water taken up, kg; null where it cannot be said.</summary>
    public (double LeastKg, double MostKg)? Water { get; private init; }

    internal static DrierState Of(JobPicture picture, ImmutableArray<Entry> changed)
    {
        var (record, timeline) = (picture.Record, picture.Timeline);
        var renewed = changed.Any(entry => entry.Fields.Text(FieldNames.Spot) is "receiver-drier" or "accumulator");
        var compressor = changed.Any(entry =>
            entry.Kind == EntryKinds.PartChanged && entry.Fields.Text(FieldNames.Spot) == "compressor body"
        );
        DrierWanted? wanted =
            renewed ? null
            : timeline.Moments.Any(moment => moment.After.CameOpen) ? DrierWanted.CameOpen
            : compressor ? DrierWanted.NewCompressor
            : null;
        var opened = timeline.Moments.FirstOrDefault(moment => moment.Entry.Kind == EntryKinds.Opened);
        if (opened.Entry is null)
            return new(renewed, wanted);
        // Closed when somebody wrote so, or when it was put under nitrogen or vacuum: an open circuit holds neither.
        var closed = timeline.Moments.LastOrDefault(moment =>
            moment.Entry.ObservedAt > opened.Entry.ObservedAt
            && !moment.Before.Open.IsEmpty
            && moment.After.Open.IsEmpty
        );
        if (closed.Entry is null || !timeline.Now.Open.IsEmpty)
            return new(renewed, wanted) { StillOpen = true };
        var span = closed.Entry.ObservedAt - opened.Entry.ObservedAt;
        var ends = (int)(opened.Entry.Fields.Number(FieldNames.OpenEnds) ?? 2);
        (double, double)? water = null;
        var weather = record.WeatherAt(opened.Entry.ObservedAt);
        if (weather?.Fields.Si(FieldNames.AmbientTemperature) is { } airK && airK is > 274 and < 323)
        {
            var taken = DrierExposure.Of(
                span.TotalSeconds,
                airK,
                weather.Fields.Si(FieldNames.RelativeHumidity) ?? 0.6,
                ends,
                VolumeOf(record.Car).M3
            );
            water = (taken.LeastKg, Math.Max(taken.MostKg, taken.LeastKg));
            if (!renewed && taken.MayBeSpent)
                wanted ??= DrierWanted.Water;
        }
        if (!renewed && span > Patience)
            wanted ??= DrierWanted.OpenTooLong;
        return new(renewed, wanted)
        {
            OpenFor = span,
            OpenEnds = ends,
            Water = water,
        };
    }
}

/// <summary>Why a new drier is asked for.</summary>
public enum DrierWanted
{
    CameOpen,
    NewCompressor,
    Water,
    OpenTooLong,
}
