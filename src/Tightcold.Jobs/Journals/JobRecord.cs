using System.Collections.Immutable;
using Tightcold.Jobs.Cars;
using Tightcold.Jobs.Entries;
using Tightcold.Jobs.Kits;
using Tightcold.Quantities;

namespace Tightcold.Jobs.Journals;

/// <summary>All that a finding may rest on: the car, the kit in its versions, the job and its journal.</summary>
public sealed record JobRecord(Car Car, ImmutableArray<Kit> Kits, Job Job, Journal Journal)
{
    /// <summary>The entries in the order of their arrival, each with its digest (<see cref="JournalChain"/>); empty for a
    /// record that was never stored, or came from a file without.</summary>
    public ImmutableArray<ChainLink> Chain { get; init; } = [];

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

    /// <summary>open, waiting or closed, by the last such entry.</summary>
    public string State => Journal.Last(EntryKinds.JobState)?.Fields.Text("state") ?? "open";

    public string? WaitingFor =>
        State == "waiting" ? Journal.Last(EntryKinds.JobState)?.Fields.Text("waiting-for") : null;

    /// <summary>Altitude of the place: the weather entry's, else the kit's, else unknown.</summary>
    public Altitude? AltitudeAt(DateTimeOffset moment) =>
        WeatherAt(moment)?.Fields.Get<Altitude>("altitude") ?? KitAt(moment).Fields.Get<Altitude>("altitude");
}
