using System.Collections.Frozen;
using UnitsNet;
using UnitsNet.Units;

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
        yield return Warm("temperature_k", TemperatureUnit.Kelvin);
        yield return Warm("temperature_c", TemperatureUnit.DegreeCelsius);
        yield return Warm("temperature_f", TemperatureUnit.DegreeFahrenheit);
        yield return Force("pressure_pa", PressureUnit.Pascal);
        yield return Force("pressure_kpa", PressureUnit.Kilopascal);
        yield return Force("pressure_mpa", PressureUnit.Megapascal);
        yield return Force("pressure_bar", PressureUnit.Bar);
        yield return Force("pressure_psi", PressureUnit.PoundForcePerSquareInch);
        yield return Plain("density_kg_per_m3", PropertyQuantity.Density, 1);
        yield return Plain(
            "density_lb_per_ft3",
            PropertyQuantity.Density,
            UnitsNet.Density.From(1, DensityUnit.PoundPerCubicFoot).KilogramsPerCubicMeter
        );
        yield return Plain("enthalpy_j_per_kg", PropertyQuantity.Enthalpy, 1);
        yield return Plain(
            "enthalpy_kj_per_kg",
            PropertyQuantity.Enthalpy,
            SpecificEnergy.From(1, SpecificEnergyUnit.KilojoulePerKilogram).JoulesPerKilogram
        );
        yield return Plain("entropy_j_per_kg_k", PropertyQuantity.Entropy, 1);
        yield return Plain(
            "entropy_kj_per_kg_k",
            PropertyQuantity.Entropy,
            SpecificEntropy.From(1, SpecificEntropyUnit.KilojoulePerKilogramKelvin).JoulesPerKilogramKelvin
        );
        yield return Plain("vapor_quality", PropertyQuantity.Quality, 1);
        yield return Plain("vapour_quality", PropertyQuantity.Quality, 1);
    }

    private static PropertyColumn Plain(string name, PropertyQuantity quantity, double scale) =>
        new(name, quantity, scale, 0);

    private static PropertyColumn Force(string name, PressureUnit unit) =>
        new(name, PropertyQuantity.Pressure, Pressure.From(1, unit).Pascals, 0);

    private static PropertyColumn Warm(string name, TemperatureUnit unit)
    {
        var zero = UnitsNet.Temperature.From(0, unit).Kelvins;
        return new(name, PropertyQuantity.Temperature, TemperatureDelta.From(1, Degree(unit)).Kelvins, zero);
    }

    private static TemperatureDeltaUnit Degree(TemperatureUnit unit) =>
        unit == TemperatureUnit.DegreeFahrenheit ? TemperatureDeltaUnit.DegreeFahrenheit : TemperatureDeltaUnit.Kelvin;
}
