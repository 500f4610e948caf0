using Tightcold.App.Units;
using UnitsNet;
using UnitsNet.Units;

namespace Tightcold.App.Tests.Units;

/// <summary>Each factor against a library of units that others wrote, which rounds some to eight digits and the torr to
/// six.</summary>
public sealed class FactorTests
{
    public static TheoryData<string, double, double> Factors =>
        new()
        {
            { "pound", Factor.Pound, Mass.FromPounds(1).Kilograms },
            { "ounce", Factor.Ounce, Mass.FromOunces(1).Kilograms },
            { "inch", Factor.Inch, Length.FromInches(1).Meters },
            { "foot", Factor.Foot, Length.FromFeet(1).Meters },
            { "minute", Factor.Minute, UnitsNet.Duration.FromMinutes(1).Seconds },
            { "hour", Factor.Hour, UnitsNet.Duration.FromHours(1).Seconds },
            { "day", Factor.Day, UnitsNet.Duration.FromDays(1).Seconds },
            { "year", Factor.Year, UnitsNet.Duration.FromDays(365.25).Seconds },
            { "bar", Factor.Bar, Pressure.FromBars(1).Pascals },
            { "millibar", Factor.Millibar, Pressure.FromMillibars(1).Pascals },
            { "psi", Factor.PoundPerSquareInch, Pressure.FromPoundsForcePerSquareInch(1).Pascals },
            { "mmHg", Factor.MillimetreOfMercury, Pressure.FromMillimetersOfMercury(1).Pascals },
            { "inHg", Factor.InchOfMercury, Pressure.FromInchesOfMercury(1).Pascals },
            { "torr", Factor.Torr, Pressure.FromTorrs(1).Pascals },
            { "at", Factor.TechnicalAtmosphere, Pressure.FromKilogramsForcePerSquareCentimeter(1).Pascals },
            { "litre", Factor.Litre, Volume.FromLiters(1).CubicMeters },
            { "millilitre", Factor.Millilitre, Volume.FromMilliliters(1).CubicMeters },
            { "cubic inch", Factor.CubicInch, Volume.FromCubicInches(1).CubicMeters },
            { "cubic foot", Factor.CubicFoot, Volume.FromCubicFeet(1).CubicMeters },
            { "fluid ounce", Factor.FluidOunce, Volume.FromUsOunces(1).CubicMeters },
            { "lb/ft³", Factor.PoundPerCubicFoot, Density.FromPoundsPerCubicFoot(1).KilogramsPerCubicMeter },
            { "Btu/lb", Factor.BtuPerPound, SpecificEnergy.FromBtuPerPound(1).JoulesPerKilogram },
            {
                "Btu/(lb °F)",
                Factor.BtuPerPoundFahrenheit,
                SpecificEntropy.From(1, SpecificEntropyUnit.BtuPerPoundFahrenheit).JoulesPerKilogramKelvin
            },
            { "F°", Factor.Fahrenheit, TemperatureDelta.FromDegreesFahrenheit(1).Kelvins },
            { "0 °F", Factor.ZeroFahrenheit, UnitsNet.Temperature.FromDegreesFahrenheit(0).Kelvins },
            { "0 °C", Factor.ZeroCelsius, UnitsNet.Temperature.FromDegreesCelsius(0).Kelvins },
        };

    [Theory]
    [MemberData(nameof(Factors))]
    public void A_unit_is_as_large_as_a_library_of_units_has_it(string unit, double ours, double theirs) =>
        Assert.True(Math.Abs(ours / theirs - 1) < (unit == "torr" ? 3e-6 : 1e-7), $"{unit}: {ours:R} and {theirs:R}");
}
