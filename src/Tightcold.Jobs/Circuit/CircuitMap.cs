using System.Collections.Immutable;
using Tightcold.Jobs.Cars;
using Tightcold.Jobs.Fields;

namespace Tightcold.Jobs.Circuit;

/// <summary>The spots of a circuit that can leak, in the order the refrigerant passes them. An architecture gives
/// the list; a car adds and strikes.</summary>
public static class CircuitMap
{
    public static ImmutableArray<string> Spots(Car car)
    {
        var struck = Names(car.Fields.Text(FieldNames.StruckSpots));
        return [.. Known(car).Where(spot => !struck.Contains(spot, StringComparer.OrdinalIgnoreCase))];
    }

    /// <summary>The same with those that were taken out later: what was written down of them stays readable and
    /// true.</summary>
    public static ImmutableArray<string> Known(Car car)
    {
        var orifice = car.Device == Car.OrificeTube;
        var spots = new List<string>
        {
            "compressor shaft seal",
            "compressor body",
            "discharge hose",
            "discharge line joint at condenser",
            "condenser",
            "liquid line joint at condenser",
        };
        if (car.Compressor == Car.Electric)
            spots.Remove("compressor shaft seal");
        if (!orifice)
            spots.Add("receiver-drier");
        spots.AddRange(["liquid line", "high-side service valve", "pressure switch"]);
        spots.Add(orifice ? "orifice tube joint" : "expansion valve block");
        spots.AddRange(["evaporator", "suction hose", "suction line joint at compressor", "low-side service valve"]);
        if (orifice)
            spots.Insert(spots.IndexOf("suction hose"), "accumulator");
        spots.Add("relief device");
        spots.AddRange(Names(car.Fields.Text(FieldNames.ExtraSpots)));
        return [.. spots.Distinct(StringComparer.OrdinalIgnoreCase)];
    }

    private static string[] Names(string? list) =>
        list?.Split(',', StringSplitOptions.TrimEntries | StringSplitOptions.RemoveEmptyEntries) ?? [];
}
