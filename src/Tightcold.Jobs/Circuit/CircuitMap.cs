using System.Collections.Immutable;
using Tightcold.Jobs.Cars;
using Tightcold.Jobs.Fields;
using Tightcold.Quantities;

namespace Tightcold.Jobs.Circuit;

/// <summary>The spots of a circuit that can leak, in the order the refrigerant passes them. An architecture gives
/// the list; a car adds and strikes.</summary>
public static class CircuitMap
{
    /// <summary>Those that cars have from the factory, and which cars.</summary>
    [Said]
    private static readonly ImmutableArray<(Func<Car, bool> Has, string Spot)> Standard =
    [
        (car => car.Compressor != Car.Electric, "compressor shaft seal"),
        (Every, "compressor body"),
        (Every, "discharge hose"),
        (Every, "discharge line joint at condenser"),
        (Every, "condenser"),
        (Every, "liquid line joint at condenser"),
        (HasReceiver, "receiver-drier"),
        (Every, "liquid line"),
        (Every, "high-side service valve"),
        (Every, "pressure switch"),
        (HasTube, "orifice tube joint"),
        (HasReceiver, "expansion valve block"),
        (Every, "evaporator"),
        (HasTube, "accumulator"),
        (Every, "suction hose"),
        (Every, "suction line joint at compressor"),
        (Every, "low-side service valve"),
        (Every, "relief device"),
    ];

    [Said]
    public static ImmutableArray<string> Spots(Car car)
    {
        var struck = Names(car.Fields.Text(FieldNames.StruckSpots));
        return [.. Known(car).Where(spot => !struck.Contains(spot, StringComparer.OrdinalIgnoreCase))];
    }

    /// <summary>The same with those that were taken out later: what was written down of them stays readable and
    /// true.</summary>
    [Said]
    public static ImmutableArray<string> Known(Car car) =>
        [
            .. Standard
                .Where(one => one.Has(car))
                .Select(one => one.Spot)
                .Concat(Names(car.Fields.Text(FieldNames.ExtraSpots)))
                .Distinct(StringComparer.OrdinalIgnoreCase),
        ];

    private static bool Every(Car car) => true;

    private static bool HasTube(Car car) => car.Device == Car.OrificeTube;

    private static bool HasReceiver(Car car) => !HasTube(car);

    private static string[] Names(string? list) =>
        list?.Split(',', StringSplitOptions.TrimEntries | StringSplitOptions.RemoveEmptyEntries) ?? [];
}
