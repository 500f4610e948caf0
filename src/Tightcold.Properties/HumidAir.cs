using System.Globalization;
using Tightcold.Numerics;
using Tightcold.Properties.MoistAir;

namespace Tightcold.Properties;

/// <summary>
/// Moist air as a real gas, by the virial formulation of ASHRAE RP-1485 with enhancement factor, at any barometric
/// pressure. Valid from 173.15 K to 473.15 K and 10 kPa to 1 MPa; above the boiling point of water at the pressure
/// relative humidity is counted against pure steam. Over ice below 273.16 K.
/// </summary>
/// <remarks>
/// A full state costs some tens of microseconds, most of it the wet bulb; <see cref="SaturationHumidityRatio"/> and
/// <see cref="EnthalpyJPerKgDryAir"/> cost a few and a tenth of that. See docs/physics/humid-air.md for deviations.
/// </remarks>
public static class HumidAir
{
    /// <summary>Lowest dry-bulb temperature, K.</summary>
    public const double MinTemperatureK = HumidAirFormulation.MinTemperatureK;

    /// <summary>Highest dry-bulb temperature, K.</summary>
    public const double MaxTemperatureK = HumidAirFormulation.MaxTemperatureK;

    private const string Name = "Humid air";
    private const double MinPressurePa = 10e3;
    private const double MaxPressurePa = 1e6;

    // Slack for a saturated state computed elsewhere and given back.
    private const double SaturationSlack = 1e-9;

    /// <summary>From dry bulb and relative humidity.</summary>
    /// <param name="temperatureK">Dry bulb, 173.15 K to 473.15 K.</param>
    /// <param name="relativeHumidityRatio">0 to 1, over ice below 273.16 K.</param>
    /// <param name="pressurePa">Barometric pressure, 10 kPa to 1 MPa.</param>
    /// <exception cref="FluidRangeException">An input outside its range or not a number.</exception>
    public static HumidAirState FromRelativeHumidity(
        double temperatureK,
        double relativeHumidityRatio,
        double pressurePa
    )
    {
        Check(temperatureK, pressurePa);
        CheckRatio(relativeHumidityRatio);
        return Make(temperatureK, relativeHumidityRatio * SaturatedOrAll(temperatureK, pressurePa), pressurePa);
    }

    /// <summary>From dry bulb and humidity ratio (kg water per kg dry air), up to saturation.</summary>
    /// <inheritdoc cref="FromRelativeHumidity"/>
    public static HumidAirState FromHumidityRatio(double temperatureK, double humidityRatio, double pressurePa)
    {
        Check(temperatureK, pressurePa);
        return Make(temperatureK, MoleFractionChecked(humidityRatio), pressurePa);
    }

    /// <summary>From dry bulb and thermodynamic wet bulb, K; the wick is water at and above 273.16 K, ice
    /// below.</summary>
    /// <inheritdoc cref="FromRelativeHumidity"/>
    public static HumidAirState FromWetBulb(double temperatureK, double wetBulbK, double pressurePa)
    {
        Check(temperatureK, pressurePa);
        CheckNotAbove(wetBulbK, "wetBulbK", temperatureK);
        var (offset, water) = WetBulb.Saturated(Math.Min(wetBulbK, WetBulb.BoilingK(pressurePa)), pressurePa);
        return FromBalance(temperatureK, pressurePa, offset, water, "wetBulbK", wetBulbK) with { WetBulbK = wetBulbK };
    }

    /// <summary>From dry bulb and dew point, K (frost point below 273.16 K).</summary>
    /// <inheritdoc cref="FromRelativeHumidity"/>
    public static HumidAirState FromDewPoint(double temperatureK, double dewPointK, double pressurePa)
    {
        Check(temperatureK, pressurePa);
        CheckNotAbove(dewPointK, "dewPointK", temperatureK);
        return Make(temperatureK, HumidAirFormulation.SaturatedMoleFraction(dewPointK, pressurePa), pressurePa) with
        {
            DewPointK = dewPointK,
        };
    }

    /// <summary>From dry bulb and enthalpy, J per kg dry air.</summary>
    /// <inheritdoc cref="FromRelativeHumidity"/>
    public static HumidAirState FromEnthalpy(double temperatureK, double enthalpyJPerKgDryAir, double pressurePa)
    {
        Check(temperatureK, pressurePa);
        if (!double.IsFinite(enthalpyJPerKgDryAir))
            throw new FluidRangeException(Name, nameof(enthalpyJPerKgDryAir), enthalpyJPerKgDryAir, "a finite number");
        return FromBalance(
            temperatureK,
            pressurePa,
            enthalpyJPerKgDryAir,
            0,
            nameof(enthalpyJPerKgDryAir),
            enthalpyJPerKgDryAir
        );
    }

    /// <summary>
    /// From any two quantities that fix a state. Humidity ratio with dew point, and wet bulb with enthalpy, say nearly
    /// the same thing twice and are refused.
    /// </summary>
    /// <exception cref="FluidRangeException">An input outside its range, or no air with both.</exception>
    /// <exception cref="ArgumentException">The pair does not fix a state.</exception>
    public static HumidAirState FromPair(
        HumidAirQuantity first,
        double firstValue,
        HumidAirQuantity second,
        double secondValue,
        double pressurePa
    ) => HumidAirPair.Solve(first, firstValue, second, secondValue, pressurePa);

    /// <summary>Humidity ratio of saturated air, kg water per kg dry air.</summary>
    /// <exception cref="FluidRangeException">Out of range, or water boils at this temperature and pressure.</exception>
    public static double SaturationHumidityRatio(double temperatureK, double pressurePa)
    {
        Check(temperatureK, pressurePa);
        var psi = HumidAirFormulation.SaturatedMoleFraction(temperatureK, pressurePa);
        return psi < 1
            ? HumidAirFormulation.HumidityRatio(psi)
            : throw new FluidRangeException(
                Name,
                nameof(temperatureK),
                temperatureK,
                string.Create(CultureInfo.InvariantCulture, $"below the boiling point of water at {pressurePa:G6} Pa")
            );
    }

    /// <summary>Enthalpy per kilogram of dry air from dry bulb and humidity ratio, without the costly rest of a state.
    /// Does not check for saturation.</summary>
    /// <exception cref="FluidRangeException">Out of range or not a number.</exception>
    public static double EnthalpyJPerKgDryAir(double temperatureK, double humidityRatio, double pressurePa)
    {
        Check(temperatureK, pressurePa);
        return Enthalpy(temperatureK, MoleFractionChecked(humidityRatio), pressurePa);
    }

    internal static void CheckPressure(double pressurePa)
    {
        if (!(pressurePa >= MinPressurePa && pressurePa <= MaxPressurePa))
            throw new FluidRangeException(Name, nameof(pressurePa), pressurePa, "10 kPa to 1 MPa");
    }

    internal static void CheckRatio(double relativeHumidityRatio)
    {
        if (!(relativeHumidityRatio >= 0 && relativeHumidityRatio <= 1))
            throw new FluidRangeException(Name, nameof(relativeHumidityRatio), relativeHumidityRatio, "0 to 1");
    }

    internal static double MoleFractionChecked(double humidityRatio)
    {
        if (!(humidityRatio >= 0 && humidityRatio <= 10))
            throw new FluidRangeException(
                Name,
                nameof(humidityRatio),
                humidityRatio,
                "0 to saturation, at most 10 kg/kg dry air"
            );
        return HumidAirFormulation.MoleFraction(humidityRatio);
    }

    /// <summary>Water fraction of saturated air, or 1 where water boils.</summary>
    internal static double SaturatedOrAll(double temperatureK, double pressurePa) =>
        Math.Min(HumidAirFormulation.SaturatedMoleFraction(temperatureK, pressurePa), 0.94);

    internal static HumidAirState Make(double temperatureK, double psi, double pressurePa)
    {
        var saturated = HumidAirFormulation.SaturatedMoleFraction(temperatureK, pressurePa);
        if (!(psi <= saturated * (1 + SaturationSlack)) || psi > 0.9415)
        {
            var ratio = HumidAirFormulation.HumidityRatio(Math.Min(saturated, 0.94));
            throw new FluidRangeException(
                Name,
                "humidityRatio",
                HumidAirFormulation.HumidityRatio(Math.Min(psi, 0.999999)),
                string.Create(
                    CultureInfo.InvariantCulture,
                    $"0 to saturation, {ratio:G6} kg/kg dry air at {temperatureK:G7} K and {pressurePa:G7} Pa"
                )
            );
        }

        psi = Math.Min(psi, saturated);
        var enthalpy = Enthalpy(temperatureK, psi, pressurePa);
        var dewPoint = psi >= saturated ? temperatureK : DewPoint.At(psi, pressurePa);
        var wetBulb = WetBulbK(
            enthalpy,
            psi,
            pressurePa,
            dewPoint ?? HumidAirFormulation.MinTemperatureK,
            temperatureK
        );
        return new HumidAirState
        {
            TemperatureK = temperatureK,
            PressurePa = pressurePa,
            HumidityRatio = HumidAirFormulation.HumidityRatio(psi),
            RelativeHumidity = psi / saturated,
            EnthalpyJPerKgDryAir = enthalpy,
            WetBulbK = wetBulb,
            DewPointK = dewPoint is { } dew ? Math.Min(dew, temperatureK) : null,
            VolumeM3PerKgDryAir =
                HumidAirFormulation.MolarVolume(temperatureK, pressurePa, psi)
                * HumidAirFormulation.MolesPerKgDryAir(psi),
        };
    }

    internal static double Enthalpy(double temperatureK, double psi, double pressurePa) =>
        HumidAirFormulation.MolarEnthalpy(temperatureK, pressurePa, psi) * HumidAirFormulation.MolesPerKgDryAir(psi);

    internal static double WetBulbK(double enthalpy, double psi, double pressurePa, double lowK, double highK) =>
        WetBulb.Solve(enthalpy, HumidAirFormulation.HumidityRatio(psi), pressurePa, lowK, highK) switch
        {
            Solved<double>.Converged found => found.Value,
            Solved<double>.Stalled stalled => throw new FlashDidNotConvergeException(
                Name,
                "the wet bulb",
                stalled.Residual,
                stalled.Reason
            ),
            _ => throw new InvalidOperationException("A solver answers with a value or a reason."),
        };

    // h(T, W) = offset + W water, for W: nearly linear, so the secant through dry and moist air settles at once.
    private static HumidAirState FromBalance(
        double temperatureK,
        double pressurePa,
        double offset,
        double water,
        string input,
        double given
    )
    {
        double Excess(double ratio) =>
            Enthalpy(temperatureK, HumidAirFormulation.MoleFraction(ratio), pressurePa) - offset - (ratio * water);

        double a = 0,
            b = 0.01,
            fa = Excess(a),
            fb = Excess(b);
        for (var i = 0; i < 50 && Math.Abs(b - a) > 1e-15 && fb != fa; i++)
        {
            var next = Math.Max(b - (fb * (b - a) / (fb - fa)), -0.2);
            (a, fa) = (b, fb);
            b = next;
            fb = Excess(b);
        }

        // Dry air met within rounding counts as dry.
        if (b < 0 && b > -1e-9)
            b = 0;
        if (!(b >= 0))
            throw new FluidRangeException(
                Name,
                input,
                given,
                string.Create(
                    CultureInfo.InvariantCulture,
                    $"a value that air at {temperatureK:G7} K can have: even dry air lies above it"
                )
            );
        return Make(temperatureK, MoleFractionChecked(b), pressurePa);
    }

    private static void Check(double temperatureK, double pressurePa)
    {
        if (!(temperatureK >= MinTemperatureK && temperatureK <= MaxTemperatureK))
            throw new FluidRangeException(Name, nameof(temperatureK), temperatureK, "173.15 to 473.15 K");
        CheckPressure(pressurePa);
    }

    private static void CheckNotAbove(double value, string input, double temperatureK)
    {
        if (!(value >= MinTemperatureK && value <= temperatureK * (1 + 1e-12)))
            throw new FluidRangeException(
                Name,
                input,
                value,
                string.Create(CultureInfo.InvariantCulture, $"173.15 K to the dry bulb, {temperatureK:G7} K")
            );
    }
}
