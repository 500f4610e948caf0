using System.Collections.Immutable;
using System.Globalization;
using Tightcold.Jobs.Cars;
using Tightcold.Jobs.Entries;
using Tightcold.Jobs.Fields;
using Tightcold.Jobs.Kits;
using Tightcold.Jobs.Photos;
using Tightcold.Quantities;

namespace Tightcold.Jobs.Journals;

/// <summary>All that a finding may rest on: the car, the kit in its versions, the job and its journal.</summary>
public sealed record JobRecord(Car Car, ImmutableArray<Kit> Kits, Job Job, Journal Journal)
{
    /// <summary>The entries in the order of their arrival, each with its digest (<see cref="JournalChain"/>); empty
    /// for a record that was never stored, or came from a file without.</summary>
    public ImmutableArray<ChainLink> Chain { get; init; } = [];

    /// <summary>The job came with kits of its own, and the workshop's do not hold for it (<see
    /// cref="KitsOfJob"/>).</summary>
    public bool BringsKits { get; init; }

    /// <summary>Photos with their bytes: read for a file, empty otherwise.</summary>
    public ImmutableArray<Photo> Photos { get; init; } = [];

    /// <summary>The entries as they arrived where the record comes from, where that is known: a job that is new in
    /// another place keeps its chain.</summary>
    public ImmutableArray<Entry> InArrival =>
        Chain.Length == Journal.All.Length ? [.. Chain.Select(link => Journal.Find(link.Entry)!)] : Journal.All;

    /// <summary>The kit as it was at <paramref name="moment"/>; the first version before that.</summary>
    public Kit KitAt(DateTimeOffset moment) =>
        Kits.Where(kit => kit.From <= moment).OrderBy(kit => kit.From).LastOrDefault()
        ?? Kits.OrderBy(kit => kit.From).FirstOrDefault()
        ?? Kit.Plain(Guid.Empty, moment);

    /// <summary>The kit as of the last standing entry.</summary>
    public Kit Kit => KitAt(Journal.Standing.Length > 0 ? Journal.Standing[^1].ObservedAt : Job.OpenedAt);

    /// <summary>The weather entry in force at <paramref name="moment"/>: the last before it, else the first.</summary>
    public Entry? WeatherAt(DateTimeOffset moment) =>
        Journal.OfKind(EntryKinds.Weather).LastOrDefault(entry => entry.ObservedAt <= moment)
        ?? Journal.OfKind(EntryKinds.Weather).FirstOrDefault();

    private const string LookAgainOn = "a look again on ";

    /// <summary>open, waiting or closed, by the last such entry.</summary>
    public string State => Journal.Last(EntryKinds.JobState)?.Fields.Text(FieldNames.State) ?? "open";

    public string? WaitingFor => Journal.Last(EntryKinds.JobState) is { } last ? WaitsFor(last) : null;

    /// <summary>When to look again at a job that waits; null where nobody said.</summary>
    public DateTimeOffset? LookAgainAt => Journal.Last(EntryKinds.JobState) is { } last ? LookAgain(last) : null;

    /// <summary>What a job waits for from this entry on, in the words of who wrote it, or the day to look again; null
    /// when it does not wait or nobody said.</summary>
    public static string? WaitsFor(Entry state)
    {
        ArgumentNullException.ThrowIfNull(state);
        if (state.Fields.Text(FieldNames.State) != Chosen.Waiting)
            return null;
        return state.Fields.Text(FieldNames.WaitingFor)
            ?? (
                LookAgain(state) is { } day
                    ? LookAgainOn + day.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture)
                    : null
            );
    }

    /// <summary>What <see cref="WaitsFor"/> gave, as a person reads it; it is kept and searched in English.</summary>
    public static Phrase Waits(string waitsFor)
    {
        ArgumentNullException.ThrowIfNull(waitsFor);
        return waitsFor.StartsWith(LookAgainOn, StringComparison.Ordinal)
            ? Phrase.Of($"a look again on {Phrase.Verbatim(waitsFor[LookAgainOn.Length..])}")
            // One of the words that the form offers, or the person's own.
            : Phrase.Words(waitsFor, null);
    }

    private static DateTimeOffset? LookAgain(Entry state) =>
        state.Fields.Text(FieldNames.State) == Chosen.Waiting && state.Fields.Number(FieldNames.LookAgainIn) is { } days
            ? state.ObservedAt.AddDays(days)
            : null;

    /// <summary>Altitude of the place: the weather entry's, else the kit's, else unknown.</summary>
    public Altitude? AltitudeAt(DateTimeOffset moment) =>
        WeatherAt(moment)?.Fields.Get<Altitude>(FieldNames.Altitude)
        ?? KitAt(moment).Fields.Get<Altitude>(FieldNames.Altitude);
}
