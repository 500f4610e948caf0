using System.Globalization;
using Tightcold.Jobs.Cars;
using Tightcold.Jobs.Fields;
using Tightcold.Jobs.Journals;
using Tightcold.Jobs.Kits;

namespace Tightcold.App.Desk;

/// <summary>What a person does with cars, kit and jobs, the same for every face of the program. Text comes in as
/// typed; what is refused comes back with its reasons, and nothing is then changed.</summary>
/// <param name="culture">How typed numbers are read; invariant unless a screen says otherwise.</param>
public sealed partial class JobDesk(IJobStore store, TimeProvider clock, IIdSource ids, CultureInfo? culture = null)
{
    private readonly CultureInfo culture = culture ?? CultureInfo.InvariantCulture;

    public Task<IReadOnlyList<Car>> CarsAsync(CancellationToken cancellation = default) =>
        store.CarsAsync(cancellation);

    /// <summary>A part of the cars, by name; only those whose name holds all words.</summary>
    public Task<IReadOnlyList<Car>> CarsAsync(
        string words,
        int skip,
        int most,
        CancellationToken cancellation = default
    ) => store.CarsAsync(words, skip, most, cancellation);

    public Task<Car?> CarAsync(Guid id, CancellationToken cancellation = default) => store.CarAsync(id, cancellation);

    public Task<Outcome<Car>> AddCarAsync(
        IReadOnlyDictionary<string, string> fields,
        CancellationToken cancellation = default
    ) => AddCarAsync(fields, null, cancellation);

    /// <param name="id">The writer's own id, so that sending again adds no second car; null makes a new one.</param>
    public async Task<Outcome<Car>> AddCarAsync(
        IReadOnlyDictionary<string, string> fields,
        Guid? id,
        CancellationToken cancellation = default
    )
    {
        if (id is { } own && await store.CarAsync(own, cancellation).ConfigureAwait(false) is { } there)
            return Outcome<Car>.Of(there);
        var (bag, problems) = FieldReader.Read(Car.Schema, fields, culture);
        if (problems.Count > 0)
            return Outcome<Car>.Refused(problems);
        var car = new Car(id ?? ids.NextId(Now), bag);
        await store.SaveCarAsync(car, cancellation).ConfigureAwait(false);
        return Outcome<Car>.Of(car);
    }

    /// <summary>Replaces the given fields; a blank text empties one.</summary>
    public async Task<Outcome<Car>> UpdateCarAsync(
        Guid id,
        IReadOnlyDictionary<string, string> fields,
        CancellationToken cancellation = default
    )
    {
        if (await store.CarAsync(id, cancellation).ConfigureAwait(false) is not { } old)
            return Outcome<Car>.Refused(InputProblem.Of("car", id.ToString(), $"no car has that id"));
        var (bag, problems) = FieldReader.Read(Car.Schema, old.Fields, fields, culture);
        if (problems.Count > 0)
            return Outcome<Car>.Refused(problems);
        var car = old with { Fields = bag };
        await store.SaveCarAsync(car, cancellation).ConfigureAwait(false);
        return Outcome<Car>.Of(car);
    }

    /// <summary>The kit as it is now: the latest version, or a plain one when none was described.</summary>
    public async Task<Kit> KitAsync(CancellationToken cancellation = default)
    {
        var kits = await store.KitsAsync(cancellation).ConfigureAwait(false);
        return kits.OrderBy(kit => kit.From).LastOrDefault() ?? Kit.Plain(Guid.Empty, Now);
    }

    /// <summary>A new version of the kit with the given fields replaced.</summary>
    /// <param name="from">From when on it holds; now unless said otherwise.</param>
    public async Task<Outcome<Kit>> UpdateKitAsync(
        IReadOnlyDictionary<string, string> fields,
        DateTimeOffset? from = null,
        CancellationToken cancellation = default
    )
    {
        var old = await KitAsync(cancellation).ConfigureAwait(false);
        var (read, problems) = FieldReader.Read(Kit.Schema, old.Fields, fields, culture);
        var (bag, nowhere) = KitPlace.Settle(read, old.Fields);
        return problems.Count > 0 || nowhere is not null
            ? Outcome<Kit>.Refused([.. problems, .. new[] { nowhere }.OfType<InputProblem>()])
            : await SaveAsync(old with { Fields = bag }, old, from, cancellation).ConfigureAwait(false);
    }

    /// <summary>A new version of the kit with this can or cylinder added, or replaced where the name is there
    /// already.</summary>
    public async Task<Outcome<Kit>> AddContainerAsync(
        IReadOnlyDictionary<string, string> fields,
        DateTimeOffset? from = null,
        CancellationToken cancellation = default
    )
    {
        var old = await KitAsync(cancellation).ConfigureAwait(false);
        var (bag, problems) = FieldReader.Read(Container.Schema, fields, culture);
        var container = new Container(bag);
        if (problems.Count == 0)
            problems = container.Check();
        if (problems.Count > 0)
            return Outcome<Kit>.Refused(problems);
        var others = old.Containers.Where(known =>
            !string.Equals(known.Name, container.Name, StringComparison.OrdinalIgnoreCase)
        );
        return await SaveAsync(old with { Containers = [.. others, container] }, old, from, cancellation)
            .ConfigureAwait(false);
    }

    private async Task<Outcome<Kit>> SaveAsync(
        Kit changed,
        Kit old,
        DateTimeOffset? from,
        CancellationToken cancellation
    )
    {
        var start = from ?? Now;
        if (old.Id != Guid.Empty && start < old.From)
            return Outcome<Kit>.Refused(
                InputProblem.Of(
                    "from",
                    Stamp(start),
                    $"the kit was last changed at {Stamp(old.From)}; a new version starts after that"
                )
            );
        // Two changes within one tick of the clock still have an order.
        if (old.Id != Guid.Empty && start == old.From)
            start = start.AddTicks(1);
        var kit = changed with { Id = ids.NextId(Now), From = start };
        await store.AddKitAsync(kit, cancellation).ConfigureAwait(false);
        return Outcome<Kit>.Of(kit);
    }

    private DateTimeOffset Now => clock.GetLocalNow();

    private static string Stamp(DateTimeOffset moment) =>
        moment.ToString("yyyy-MM-dd HH:mm", CultureInfo.InvariantCulture);
}
