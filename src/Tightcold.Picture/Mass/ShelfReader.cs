using System.Collections.Immutable;
using Tightcold.Jobs.Entries;
using Tightcold.Jobs.Fields;
using Tightcold.Jobs.Journals;
using Tightcold.Jobs.Kits;
using static Tightcold.Picture.Pressures.Evidence;

namespace Tightcold.Picture.Mass;

/// <summary>What earlier jobs left in the containers of a kit.</summary>
public static class ShelfReader
{
    /// <summary>What a can keeps that gave until nothing came, kg, and its standard deviation; common
    /// practice.</summary>
    private const double HeelKg = 0.008,
        HeelSigmaKg = 0.005;

    /// <param name="record">The job that asks.</param>
    /// <param name="uses">Of jobs before it, the latest first.</param>
    public static ImmutableArray<ShelfContent> Of(JobRecord record, IReadOnlyList<ContainerUse> uses)
    {
        ArgumentNullException.ThrowIfNull(record);
        ArgumentNullException.ThrowIfNull(uses);
        if (uses.Count == 0)
            return ShelfContent.None;
        var kit = record.KitAt(record.Job.OpenedAt);
        return [.. kit.Containers.Select(container => Left(record, container, uses)).OfType<ShelfContent>()];
    }

    private static ShelfContent? Left(JobRecord record, Container container, IReadOnlyList<ContainerUse> uses)
    {
        var since = DescribedSince(record, container);
        var entries = uses.Reverse()
            .SelectMany(use => use.Journal.Standing.Select(entry => (use.Job, Entry: entry)))
            .Where(one =>
                one.Entry.ObservedAt >= since
                && one.Entry.ObservedAt <= record.Job.OpenedAt
                && string.Equals(
                    one.Entry.Fields.Text(FieldNames.Container),
                    container.Name,
                    StringComparison.OrdinalIgnoreCase
                )
            )
            .OrderBy(one => one.Entry.ObservedAt)
            .ToArray();
        if (entries.Length == 0 || !entries.Any(one => Moves(one.Entry)))
            return null;
        var (net, sigma) = NetOf(record, container, [.. entries.Select(one => one.Entry)]);
        return new(container.Name, net, sigma, LastGross(entries[^1].Entry), entries[^1].Job);
    }

    /// <summary>From when on the kit describes this container as it does now: a new description is another can, or a
    /// new weighing.</summary>
    private static DateTimeOffset DescribedSince(JobRecord record, Container container)
    {
        var since = record.Job.OpenedAt;
        foreach (
            var kit in record.Kits.Where(kit => kit.From <= record.Job.OpenedAt).OrderByDescending(kit => kit.From)
        )
        {
            if (kit.Find(container.Name)?.Fields.Equals(container.Fields) != true)
                break;
            since = kit.From;
        }
        return since;
    }

    private static bool Moves(Entry entry) =>
        entry.Kind is EntryKinds.ScaleReading or EntryKinds.Recovery
        || entry.Fields.Text(FieldNames.Action) is Chosen.Opened or Chosen.Emptied;

    private static double? LastGross(Entry entry) =>
        entry.Fields.Si(FieldNames.Gross) ?? entry.Fields.Si(FieldNames.GrossAfter);

    /// <summary>By the last mass on the scale and the tare, or the fall on the scale since it was new; null where it
    /// gave after that by an amount that nobody knows.</summary>
    private static (double? Kg, double SigmaKg) NetOf(JobRecord record, Container container, Entry[] entries)
    {
        double? first = container.GrossNow?.Kilograms,
            last = first;
        var sigma = 0.004;
        var (given, emptied) = (false, false);
        foreach (var entry in entries)
        {
            if (LastGross(entry) is { } gross)
            {
                // Weighed first after it had given is no measure of the full can.
                if (!given)
                    first ??= entry.Fields.Si(FieldNames.GrossBefore) ?? gross;
                (last, given, emptied) = (gross, false, false);
                sigma = MassSigma(
                    entry,
                    entry.Kind == EntryKinds.Recovery ? FieldNames.GrossAfter : "gross",
                    record.KitAt(entry.ObservedAt)
                );
            }
            else if (entry.Fields.Text(FieldNames.Action) == Chosen.Opened)
                given = true;
            else if (entry.Fields.Text(FieldNames.Action) == Chosen.Emptied)
                (given, emptied) = (true, true);
        }
        if (emptied)
            return (HeelKg, HeelSigmaKg);
        if (given || last is not { } now)
            return (null, 0);
        if (container.Tare is { } tare)
            return (Math.Max(0, now - tare.Kilograms), sigma);
        // Without a tare: what it was sold with, less what the scale saw go.
        return container is { IsRecovery: false, NetAsSold: { } sold } && first is { } full
            ? (Math.Max(0, sold.Kilograms - (full - now)), 0.01)
            : (null, 0);
    }
}
