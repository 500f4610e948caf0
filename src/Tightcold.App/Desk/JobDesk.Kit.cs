using Tightcold.Jobs.Fields;
using Tightcold.Jobs.Kits;
using Tightcold.Quantities;

namespace Tightcold.App.Desk;

public sealed partial class JobDesk
{
    /// <summary>The kit as it is now, or as it was at a moment: the version that held then, or a plain one when none
    /// was described.</summary>
    public async Task<Kit> KitAsync(DateTimeOffset? at, CancellationToken cancellation = default) =>
        Held(await store.KitsAsync(cancellation).ConfigureAwait(false), at ?? DateTimeOffset.MaxValue);

    public Task<Kit> KitAsync(CancellationToken cancellation = default) => KitAsync(null, cancellation);

    /// <summary>A new version of the kit with the given fields replaced.</summary>
    /// <param name="from">From when on it holds; now unless said otherwise. An earlier day changes the version that
    /// held then, up to the next one.</param>
    public async Task<Outcome<Kit>> UpdateKitAsync(
        IReadOnlyDictionary<string, string> fields,
        DateTimeOffset? from = null,
        CancellationToken cancellation = default
    )
    {
        var kits = await store.KitsAsync(cancellation).ConfigureAwait(false);
        var old = Held(kits, from ?? DateTimeOffset.MaxValue);
        var (read, problems) = FieldReader.Read(Kit.Schema, old.Fields, fields, Hand);
        var (bag, nowhere) = KitPlace.Settle(read, old.Fields);
        return problems.Count > 0 || nowhere is not null
            ? Outcome<Kit>.Refused([.. problems, .. new[] { nowhere }.OfType<InputProblem>()])
            : await SaveAsync(old with { Fields = bag }, kits, from, cancellation).ConfigureAwait(false);
    }

    /// <summary>A new version of the kit with this can or cylinder added, or replaced where the name is there
    /// already.</summary>
    public async Task<Outcome<Kit>> AddContainerAsync(
        IReadOnlyDictionary<string, string> fields,
        DateTimeOffset? from = null,
        CancellationToken cancellation = default
    )
    {
        var kits = await store.KitsAsync(cancellation).ConfigureAwait(false);
        var old = Held(kits, from ?? DateTimeOffset.MaxValue);
        var (bag, problems) = FieldReader.Read(Container.Schema, fields, Hand);
        var container = new Container(bag);
        if (problems.Count == 0)
            problems = container.Check();
        if (problems.Count > 0)
            return Outcome<Kit>.Refused(problems);
        var others = old.Containers.Where(known =>
            !string.Equals(known.Name, container.Name, StringComparison.OrdinalIgnoreCase)
        );
        return await SaveAsync(old with { Containers = [.. others, container] }, kits, from, cancellation)
            .ConfigureAwait(false);
    }

    /// <summary>Takes the change that was written last back, from the moment on from which it held. Nothing is erased:
    /// the version before it is written once more, a tick behind. Once more takes that back.</summary>
    public async Task<Outcome<Kit>> UndoKitAsync(CancellationToken cancellation = default)
    {
        var kits = await store.KitsAsync(cancellation).ConfigureAwait(false);
        // Ids begin with the time of writing.
        if (kits.MaxBy(kit => kit.Id) is not { } last)
            return Outcome<Kit>.Refused(InputProblem.Of("kit", "undo", $"no change of the kit was written yet"));
        var others = kits.Where(kit => kit.Id != last.Id).ToList();
        if (others.Count == 0)
            return Outcome<Kit>.Refused(
                InputProblem.Of(
                    "kit",
                    "undo",
                    $"nothing was described before {Phrase.Verbatim(Stamp(last.From))}; change it with "
                        + $"tightcold kit set"
                )
            );
        var before = Held(others, last.From);
        // The earliest description holds for all time before it as well.
        if (last.From < others.Min(kit => kit.From))
            await SaveAsync(before, kits, last.From.AddTicks(-1), cancellation).ConfigureAwait(false);
        return await SaveAsync(before, kits, last.From, cancellation).ConfigureAwait(false);
    }

    /// <summary>As <see cref="Jobs.Journals.JobRecord.KitAt"/> takes it: before the first description the first one
    /// holds.</summary>
    private Kit Held(IReadOnlyCollection<Kit> kits, DateTimeOffset at) =>
        kits.Where(kit => kit.From <= at).MaxBy(kit => kit.From)
        ?? kits.MinBy(kit => kit.From)
        ?? Kit.Plain(Guid.Empty, Now);

    private async Task<Outcome<Kit>> SaveAsync(
        Kit changed,
        IReadOnlyCollection<Kit> kits,
        DateTimeOffset? from,
        CancellationToken cancellation
    )
    {
        var now = Now;
        // Without a moment the newest version is changed, also when a clock that ran ahead wrote it.
        var start = from ?? (kits.Count > 0 && kits.Max(kit => kit.From) is var newest && newest > now ? newest : now);
        if (from > now)
            return Outcome<Kit>.Refused(
                InputProblem.Of(
                    "from",
                    Stamp(start),
                    $"that moment has not come; it is {Phrase.Verbatim(Stamp(now))}, and a kit holds from now or from "
                        + $"earlier on"
                )
            );
        // Two changes within one tick of the clock still have an order.
        while (kits.Any(kit => kit.From == start))
            start = start.AddTicks(1);
        var kit = changed with { Id = ids.NextId(now), From = start };
        await store.AddKitAsync(kit, cancellation).ConfigureAwait(false);
        return Outcome<Kit>.Of(kit);
    }
}
