namespace Tightcold.Properties.MoistAir;

/// <summary>
/// Moist air as a real gas: the virial formulation of ASHRAE RP-1485 [herrmann2009] with the
/// enhancement factor. Pure virial coefficients from the equations of air and water, B_aw of Harvey and Huang 2007,
/// C_aaw and C_aww of Nelson and Sauer 2002, Henry's constant of IAPWS G7-04. Molar units inside; water mole
/// fraction psi.
/// </summary>
internal static class HumidAirFormulation
{
    public const double MinTemperatureK = 173.15;
    public const double MaxTemperatureK = 473.15;
    public const double IcePointK = 273.16;

    /// <summary>Ratio of molar masses, as the formulation rounds it.</summary>
    public const double MassRatio = 0.621945;

    private const double AirMolarMass = 0.028966;
    private const double GasConstant = 8.314472;
    private const double EnhancementGasConstant = 8.314371;
    private const double AirGasConstant = 8.314510;

    // Ideal-gas enthalpies at 473.15 K with the constants that set the zero of enthalpy: dry air at 0 degC and
    // liquid water at its triple point (RP-1485).
    private const double AnchorTemperatureK = 473.15;
    private const double AirAnchorJPerMol = 13782.240592933371 - 7914.149298;
    private const double WaterAnchorJPerMol = 51885.582451893446 - 0.01102303806;

    private static readonly Fluid Water = FluidCatalog.Get("Water");
    private static readonly Fluid Air = FluidCatalog.Get("Air");
    private static readonly VirialSeries AirVirials = new(Air, MinTemperatureK, MaxTemperatureK);
    private static readonly VirialSeries WaterVirials = new(Water, MinTemperatureK, MaxTemperatureK);
    private static readonly double AirIdealAnchor = IdealEnthalpy(Air, AirGasConstant, AnchorTemperatureK);
    private static readonly double WaterIdealAnchor = IdealEnthalpy(Water, GasConstant, AnchorTemperatureK);

    /// <summary>Vapour pressure of pure water or ice that relative humidity is counted by, Pa.</summary>
    public static double VapourPressurePa(double temperatureK) =>
        temperatureK >= IcePointK
            ? IndustrialSaturation.PressurePa(temperatureK)
            : IceEquation.SublimationPressurePa(temperatureK);

    public static double HumidityRatio(double psi) => MassRatio * psi / (1 - psi);

    public static double MoleFraction(double humidityRatio) => humidityRatio / (MassRatio + humidityRatio);

    /// <summary>Mole fraction of water in saturated air; 1 and more where water boils at the pressure.</summary>
    public static double SaturatedMoleFraction(double temperatureK, double pressurePa) =>
        EnhancementFactor(temperatureK, pressurePa) * VapourPressurePa(temperatureK) / pressurePa;

    /// <summary>Mass of humid air per mole over mass of dry air per mole of humid air: turns molar into per kilogram of
    /// dry air.</summary>
    public static double MolesPerKgDryAir(double psi)
    {
        var humid = (Water.MolarMassKgPerMol * psi) + (AirMolarMass * (1 - psi));
        return (1 + HumidityRatio(psi)) / humid;
    }

    /// <summary>Molar volume of the mixture, m3/mol, from p v / (R T) = 1 + B/v + C/v^2.</summary>
    public static double MolarVolume(double temperatureK, double pressurePa, double psi) =>
        MolarVolume(temperatureK, pressurePa, SecondVirial(temperatureK, psi), ThirdVirial(temperatureK, psi));

    /// <summary>Enthalpy of the mixture, J/mol.</summary>
    public static double MolarEnthalpy(double temperatureK, double pressurePa, double psi)
    {
        var b = SecondVirial(temperatureK, psi);
        var c = ThirdVirial(temperatureK, psi);
        var v = MolarVolume(temperatureK, pressurePa, b, c);
        var air = AirAnchorJPerMol + IdealEnthalpy(Air, AirGasConstant, temperatureK) - AirIdealAnchor;
        var water = WaterAnchorJPerMol + IdealEnthalpy(Water, GasConstant, temperatureK) - WaterIdealAnchor;
        var slopes = VirialSlopes(temperatureK, psi);
        return ((1 - psi) * air)
            + (psi * water)
            + (GasConstant * temperatureK * (((b - slopes.B) / v) + ((c - (0.5 * slopes.C)) / (v * v))));
    }

    /// <summary>Enthalpy of the water or ice that humidifies at the wet bulb, J/kg.</summary>
    public static double CondensedEnthalpyJPerKg(double temperatureK, double pressurePa) =>
        temperatureK > IcePointK
            ? Water.AtTemperaturePressure(temperatureK, pressurePa).EnthalpyJPerKg
            : IceEquation.EnthalpyJPerKg(temperatureK, pressurePa);

    /// <summary>
    /// The enhancement factor f: saturated air holds f times the water that the vapour pressure alone would give
    /// (RP-1485, eq. 3.25). Solved by repetition; f depends on itself only weakly.
    /// </summary>
    public static double EnhancementFactor(double temperatureK, double pressurePa)
    {
        double vapour,
            volume,
            compressibility,
            henry;
        if (temperatureK > IcePointK)
        {
            var saturation = Water.SaturationAtTemperature(temperatureK);
            vapour = saturation.PressurePa;
            if (vapour >= pressurePa)
                return 1;
            volume = Water.MolarMassKgPerMol / saturation.LiquidDensityKgPerM3;
            compressibility = LiquidCompressibility(temperatureK, pressurePa);
            henry = HenryConstant(temperatureK);
        }
        else
        {
            vapour = IceEquation.SublimationPressurePa(temperatureK);
            if (vapour >= pressurePa)
                return 1;
            volume = IceEquation.VolumeM3PerKg(temperatureK, pressurePa) * Water.MolarMassKgPerMol;
            compressibility = IceEquation.CompressibilityPerPa(temperatureK, pressurePa);
            henry = 0;
        }

        var p = pressurePa;
        var rt = EnhancementGasConstant * temperatureK;
        double baa = AirVirials.B(temperatureK) / rt,
            bww = WaterVirials.B(temperatureK) / rt,
            baw = MixedB(temperatureK) / rt;
        double square = rt * rt,
            caaa = AirVirials.C(temperatureK) / square,
            cwww = WaterVirials.C(temperatureK) / square;
        double caaw = MixedCaaw(temperatureK) / square,
            caww = MixedCaww(temperatureK) / square;
        var poynting =
            (
                ((1 + (compressibility * vapour)) * (p - vapour))
                - (0.5 * compressibility * ((p * p) - (vapour * vapour)))
            )
            / rt
            * volume;
        var f = 1.0;
        for (var i = 0; i < 60; i++)
        {
            var w = f * vapour / p;
            var a = 1 - w;
            var a2 = a * a;
            var p2 = p * p;
            var log =
                poynting
                + Math.Log(1 - (henry * a * p))
                + (a2 * p * baa)
                - (2 * a2 * p * baw)
                - ((p - vapour - (a2 * p)) * bww)
                + (a2 * a * p2 * caaa)
                + (1.5 * a2 * (1 - (2 * a)) * p2 * caaw)
                - (3 * a2 * w * p2 * caww)
                - (0.5 * (((3 - (2 * w)) * w * w * p2) - (vapour * vapour)) * cwww)
                - (a2 * ((3 * w) - 2) * w * p2 * baa * bww)
                - (2 * a2 * a * ((3 * w) - 1) * p2 * baa * baw)
                + (6 * a2 * w * w * p2 * bww * baw)
                - (1.5 * a2 * a2 * p2 * baa * baa)
                - (2 * a2 * w * ((3 * w) - 2) * p2 * baw * baw)
                - (0.5 * ((vapour * vapour) - ((4 - (3 * w)) * w * w * w * p2)) * bww * bww);
            var next = Math.Exp(log);
            var change = Math.Abs(next - f);
            f = next;
            if (change < 1e-14)
                break;
        }

        return Math.Max(f, 1);
    }

    private static double LiquidCompressibility(double temperatureK, double pressurePa)
    {
        var state = Water.AtTemperaturePressure(temperatureK, pressurePa);
        return 1 / (state.DensityKgPerM3 * state.PressureByDensityAtTemperature);
    }

    private static double MolarVolume(double temperatureK, double pressurePa, double b, double c)
    {
        var ideal = GasConstant * temperatureK / pressurePa;
        var v = ideal + b;
        for (var i = 0; i < 50; i++)
        {
            // Repetition of v = v0 (1 + B/v + C/v^2): B is a thousandth of v in air, so each round gains three digits.
            var next = ideal * (1 + (b / v) + (c / (v * v)));
            var change = Math.Abs(next - v);
            v = next;
            if (change < 1e-15 * v)
                break;
        }

        return v;
    }

    private static double SecondVirial(double temperatureK, double psi) =>
        Mix(AirVirials.B(temperatureK), MixedB(temperatureK), WaterVirials.B(temperatureK), psi);

    private static double ThirdVirial(double temperatureK, double psi) =>
        Mix(
            AirVirials.C(temperatureK),
            MixedCaaw(temperatureK),
            MixedCaww(temperatureK),
            WaterVirials.C(temperatureK),
            psi
        );

    private static (double B, double C) VirialSlopes(double temperatureK, double psi) =>
        (
            Mix(
                AirVirials.TemperatureSlopeB(temperatureK),
                MixedBSlope(temperatureK),
                WaterVirials.TemperatureSlopeB(temperatureK),
                psi
            ),
            Mix(
                AirVirials.TemperatureSlopeC(temperatureK),
                MixedCaawSlope(temperatureK),
                MixedCawwSlope(temperatureK),
                WaterVirials.TemperatureSlopeC(temperatureK),
                psi
            )
        );

    private static double Mix(double aa, double aw, double ww, double psi)
    {
        var a = 1 - psi;
        return (a * a * aa) + (2 * a * psi * aw) + (psi * psi * ww);
    }

    private static double Mix(double aaa, double aaw, double aww, double www, double psi)
    {
        var a = 1 - psi;
        return (a * a * a * aaa) + (3 * a * a * psi * aaw) + (3 * a * psi * psi * aww) + (psi * psi * psi * www);
    }

    // [harvey2007]: cm3/mol with T/100 K.
    private static double MixedB(double temperatureK)
    {
        var t = temperatureK / 100;
        return 1e-6
            * ((66.5687 * Math.Pow(t, -0.237)) - (238.834 * Math.Pow(t, -1.048)) - (176.755 * Math.Pow(t, -3.183)));
    }

    private static double MixedBSlope(double temperatureK)
    {
        var t = temperatureK / 100;
        return 1e-6
            * (
                (-0.237 * 66.5687 * Math.Pow(t, -0.237))
                + (1.048 * 238.834 * Math.Pow(t, -1.048))
                + (3.183 * 176.755 * Math.Pow(t, -3.183))
            );
    }

    // [nelson2002]: cm6/mol2.
    private static double MixedCaaw(double temperatureK)
    {
        var i = 1 / temperatureK;
        return 1e-12 * (482.737 + (i * (1.05678e5 + (i * (-6.56394e7 + (i * (2.94442e10 - (i * 3.19317e12))))))));
    }

    private static double MixedCaawSlope(double temperatureK)
    {
        var i = 1 / temperatureK;
        return -1e-12 * i * (1.05678e5 + (i * ((-2 * 6.56394e7) + (i * ((3 * 2.94442e10) - (i * 4 * 3.19317e12))))));
    }

    private static double MixedCaww(double temperatureK)
    {
        var i = 1 / temperatureK;
        return -1e-6 * Math.Exp(-10.72887 + (i * (3478.04 + (i * (-383383 + (i * 3.3406e7))))));
    }

    private static double MixedCawwSlope(double temperatureK)
    {
        var i = 1 / temperatureK;
        return MixedCaww(temperatureK) * -i * (3478.04 + (i * ((-2 * 383383.0) + (3 * i * 3.3406e7))));
    }

    // [iapwsG704]: Henry's constants of nitrogen, oxygen and argon, joined for air; 1/Pa with the factor of RP-1485.
    private static double HenryConstant(double temperatureK)
    {
        var reduced = temperatureK / 647.096;
        var tau = 1 - reduced;
        var root = Math.Pow(tau, 0.355) / reduced;
        var rest = Math.Pow(reduced, -0.41) * Math.Exp(tau);
        var pressure = IndustrialSaturation.PressurePa(temperatureK);
        var nitrogen = pressure * Math.Exp((-9.67578 / reduced) + (4.72162 * root) + (11.70585 * rest));
        var oxygen = pressure * Math.Exp((-9.44833 / reduced) + (4.43822 * root) + (11.42005 * rest));
        var argon = pressure * Math.Exp((-8.40954 / reduced) + (4.29587 * root) + (10.52779 * rest));
        var air = 1 / ((0.7812 / nitrogen) + (0.2095 / oxygen) + (0.0093 / argon));
        return 1 / (1.01325 * air);
    }

    private static double IdealEnthalpy(Fluid fluid, double gasConstant, double temperatureK)
    {
        var equation = fluid.Definition.Equation;
        var tau = equation.ReducingTemperatureK / temperatureK;
        equation.Ideal.Evaluate(tau, Math.Log(tau), out _, out var first, out _);
        return gasConstant * temperatureK * (1 + first);
    }
}
