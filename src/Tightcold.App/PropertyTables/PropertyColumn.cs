using System.Collections.Frozen;
using Tightcold.App.Units;

namespace Tightcold.App.PropertyTables;

/// <summary>A column of state points: the quantity and the way from the unit in its name to SI (si = value * Scale +
/// Offset).</summary>
/// <param name="Name">As written in the header, e.g. <c>pressure_bar</c>. Pressures are absolute.</param>
/// <param name="Quantity">What it holds.</param>
/// <param name="Scale">SI units in one unit of the column.</param>
/// <param name="Offset">SI value of the column's zero.</param>
public sealed record PropertyColumn(string Name, PropertyQuantity Quantity, double Scale, double Offset)
{
    private static readonly FrozenDictionary<string, PropertyColumn> Known = All()
        .ToFrozenDictionary(column => column.Name, StringComparer.OrdinalIgnoreCase);

    /// <summary>Every column name understood.</summary>
    public static IEnumerable<string> Names => Known.Keys.Order(StringComparer.Ordinal);

    /// <summary>The column of that name, or null.</summary>
    public static PropertyColumn? Find(string name) => Known.GetValueOrDefault(name.Trim());

    /// <summary>The value in SI.</summary>
    public double ToSi(double value) => (value * Scale) + Offset;

    private static IEnumerable<PropertyColumn> All()
    {
        yield return Warm("temperature_k", 1, 0);
        yield return Warm("temperature_c", 1, Factor.ZeroCelsius);
        yield return Warm("temperature_f", Factor.Fahrenheit, Factor.ZeroFahrenheit);
        yield return Force("pressure_pa", 1);
        yield return Force("pressure_kpa", 1e3);
        yield return Force("pressure_mpa", 1e6);
        yield return Force("pressure_bar", Factor.Bar);
        yield return Force("pressure_psi", Factor.PoundPerSquareInch);
        yield return Plain("density_kg_per_m3", PropertyQuantity.Density, 1);
        yield return Plain("density_lb_per_ft3", PropertyQuantity.Density, Factor.PoundPerCubicFoot);
        yield return Plain("enthalpy_j_per_kg", PropertyQuantity.Enthalpy, 1);
        yield return Plain("enthalpy_kj_per_kg", PropertyQuantity.Enthalpy, 1e3);
        yield return Plain("entropy_j_per_kg_k", PropertyQuantity.Entropy, 1);
        yield return Plain("entropy_kj_per_kg_k", PropertyQuantity.Entropy, 1e3);
        yield return Plain("vapor_quality", PropertyQuantity.Quality, 1);
        yield return Plain("vapour_quality", PropertyQuantity.Quality, 1);
    }

    private static PropertyColumn Plain(string name, PropertyQuantity quantity, double scale) =>
        new(name, quantity, scale, 0);

    private static PropertyColumn Force(string name, double pascals) =>
        new(name, PropertyQuantity.Pressure, pascals, 0);

    private static PropertyColumn Warm(string name, double degreeK, double zeroK) =>
        new(name, PropertyQuantity.Temperature, degreeK, zeroK);
}
