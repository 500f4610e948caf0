using System.Collections.Immutable;

namespace Tightcold.Jobs.Kits;

/// <summary>Which versions of the kit hold for a job. A job that came from elsewhere brings its own; the workshop's
/// count there only when newer than what the workshop had when it came.</summary>
public static class KitsOfJob
{
    /// <param name="since">Null where the workshop's own kit holds.</param>
    public static ImmutableArray<Kit> Of(DateTimeOffset? since, ImmutableArray<Kit> own, IEnumerable<Kit> brought) =>
        since is not { } moment
            ? own
            : Sorted(brought.Concat(own.Where(kit => kit.From > moment)).DistinctBy(kit => kit.Id));

    public static ImmutableArray<Kit> Sorted(IEnumerable<Kit> kits) =>
        [.. kits.OrderBy(kit => kit.From).ThenBy(kit => kit.Id)];

    /// <summary>From when on the workshop's own kit counts for a job that brings another.</summary>
    public static DateTimeOffset Since(ImmutableArray<Kit> own) =>
        own.Length == 0 ? DateTimeOffset.MinValue : own.Max(kit => kit.From);
}
