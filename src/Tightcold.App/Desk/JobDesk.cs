using System.Globalization;
using Tightcold.Jobs.Cars;
using Tightcold.Jobs.Fields;
using Tightcold.Jobs.Journals;
using Tightcold.Quantities;
using Tightcold.Tongues;

namespace Tightcold.App.Desk;

/// <summary>What a person does with cars, kit and jobs, the same for every face of the program. Text comes in as
/// typed; what is refused comes back with its reasons, and nothing is then changed.</summary>
/// <param name="culture">How typed numbers are read; as the language of who asks writes them unless said
/// otherwise.</param>
public sealed partial class JobDesk(IJobStore store, TimeProvider clock, IIdSource ids, CultureInfo? culture = null)
{
    /// <summary>How a person writes numbers here.</summary>
    private CultureInfo Hand => culture ?? Say.Tongue.Culture;

    /// <summary>How a file writes them, whoever reads it.</summary>
    private static CultureInfo Filed => CultureInfo.InvariantCulture;

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
        var (bag, problems) = FieldReader.Read(Car.Schema, fields, Hand);
        if (problems.Count > 0)
            return Outcome<Car>.Refused(problems);
        var now = Now;
        var car = new Car(id ?? ids.NextId(now), bag).WrittenDown(now, null);
        if (await SameNameAsync(car, cancellation).ConfigureAwait(false) is { } taken)
            return Outcome<Car>.Refused(taken);
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
        var (bag, problems) = FieldReader.Read(Car.Schema, old.Fields, fields, Hand);
        if (problems.Count > 0)
            return Outcome<Car>.Refused(problems);
        // Saved as it was: the version that is here stays, and gives way to nobody.
        if (bag.Without(FieldNames.WrittenAt).Equals(old.Fields.Without(FieldNames.WrittenAt)))
            return Outcome<Car>.Of(old);
        var car = (old with { Fields = bag }).WrittenDown(Now, old);
        if (car.Label != old.Label && await SameNameAsync(car, cancellation).ConfigureAwait(false) is { } taken)
            return Outcome<Car>.Refused(taken);
        await store.SaveCarAsync(car, cancellation).ConfigureAwait(false);
        return Outcome<Car>.Of(car);
    }

    /// <summary>Two cars of one name could not be told apart where a car is called by its name.</summary>
    private async Task<InputProblem?> SameNameAsync(Car car, CancellationToken cancellation)
    {
        var alike = await store.CarsAsync(car.Label, 0, int.MaxValue, cancellation).ConfigureAwait(false);
        return alike.Any(other =>
            other.Id != car.Id
            && string.Equals(other.Label.Trim(), car.Label.Trim(), StringComparison.OrdinalIgnoreCase)
        )
            ? InputProblem.Of(
                "label",
                car.Label,
                $"a car of that name is there already; give this one another, such as “{Phrase.Verbatim(car.Label)} 2”"
            )
            : null;
    }

    private DateTimeOffset Now => clock.GetLocalNow();

    private static string Stamp(DateTimeOffset moment) =>
        moment.ToString("yyyy-MM-dd HH:mm", CultureInfo.InvariantCulture);
}
