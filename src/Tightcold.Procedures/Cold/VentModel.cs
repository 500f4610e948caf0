namespace Tightcold.Procedures.Cold;

/// <summary>Sampled cars and the air they blow: the seam at which a loop model can take the place of this coil.</summary>
/// <remarks>
/// The coil cools part of the air to its apparatus dew point T_e and lets a share b pass untouched:
/// T_out = T_e + b·(T_in − T_e) (bypass-factor model of a wet coil, ASHRAE Fundamentals, psychrometrics).
/// T_e follows from the energy balance (1 − b)·ṁ·(h_in − h_sat(T_e)) = Q(T_e), with the capacity of a vehicle loop
/// Q = Q₀·(1 + 0.035·(T_e − 5 °C))·(1 − 0.008·(T_condenser air − 35 °C)), and freeze protection keeps T_e above its floor.
/// Blower and duct add a little heat. Modelled, with spread-out parameters; not a measurement. The same sample number is
/// the same car in every weather.
/// </remarks>
internal static class VentModel
{
    public const int Samples = 512;

    /// <summary>A settled reading: error of the model and of the probe's place in the vent, K; assumed.</summary>
    private const double SettledSigmaK = 1.2;

    /// <summary>Standard deviation of model and probe, K: wider in the first minutes, when ducts and dashboard give off heat.</summary>
    public static double SigmaK(VentWeather weather) =>
        SettledSigmaK + (weather.SecondsSinceStart is { } seconds ? (weather.ParkedInSun ? 4 : 2) * Math.Exp(-Math.Max(0, seconds) / 200) : 0);

    /// <summary>Share of its own healthy cooling that sick car number <paramref name="sample"/> has: none to seven tenths.</summary>
    public static double SickShare(int sample) => 0.7 * Halton(sample, 17);

    /// <summary>Share of the air that passes the coil of this car untouched, and heat added behind it, K.</summary>
    public static (double Bypass, double AddedK, double FloorK) Coil(int sample) =>
        (Between(0.06, 0.22, sample, 5), Between(0.5, 2.5, sample, 11), 273.15 + Between(0, 3, sample, 7));

    /// <summary>Vent temperature of one sampled car, K.</summary>
    public static double Vent(VentWeather weather, int sample, double capacityShare)
    {
        var intakeK = weather.IntakeK + weather.IntakeSigmaK * 1.7 * (2 * Halton(sample, 13) - 1);
        var fullFlow = Between(0.095, 0.145, sample, 2);
        var flow = fullFlow * weather.Blower switch
        {
            "full" => 1.0,
            "medium" => Between(0.5, 0.75, sample, 19),
            "low" => Between(0.25, 0.45, sample, 19),
            _ => Between(0.4, 1.0, sample, 19),
        };
        var (least, most) = weather.Moving switch { true => (3.2e3, 5.6e3), false => (2.2e3, 4.4e3), null => (2.4e3, 5.6e3) };
        var condenserAirK = weather.AmbientK + (weather.ParkedInSun ? Between(0, 10, sample, 29) : 0);
        var capacityW = Between(least, most, sample, 3) * Math.Max(0.2, 1 - 0.008 * (condenserAirK - 308.15)) * capacityShare;
        var (bypass, addedK, floorK) = Coil(sample);
        if (weather.SecondsSinceStart is { } seconds) addedK += Between(2, 10, sample, 23) * Math.Exp(-Math.Max(0, seconds) / 150);

        var humidity = Math.Min(weather.IntakeHumidityRatio, SaturatedRatio(intakeK, weather.BarometerPa));
        var massFlow = flow * weather.BarometerPa / (287.05 * intakeK * (1 + 1.608 * humidity));
        var coilK = ApparatusDewPoint(intakeK, humidity, weather.BarometerPa, (1 - bypass) * massFlow, capacityW, floorK);
        return coilK + bypass * (intakeK - coilK) + addedK;
    }

    /// <summary>Solves the coil's energy balance by bisection; the left side falls and the right side rises with
    /// T_e, so there is one root or none in the range, and then the end is the answer: freeze protection below,
    /// no cooling above.</summary>
    private static double ApparatusDewPoint(double intakeK, double humidity, double barometerPa, double coilFlowKgPerS, double capacityW, double floorK)
    {
        double low = Math.Min(floorK, intakeK), high = intakeK;
        var intake = Enthalpy(intakeK, humidity);
        for (var i = 0; i < 24; i++)
        {
            var coilK = 0.5 * (low + high);
            var duty = coilFlowKgPerS * (intake - Enthalpy(coilK, Math.Min(humidity, SaturatedRatio(coilK, barometerPa))));
            if (duty > capacityW * Math.Max(0.3, 1 + 0.035 * (coilK - 278.15))) low = coilK; else high = coilK;
        }
        return 0.5 * (low + high);
    }

    /// <summary>J per kg dry air, zero at 0 °C: 1006·t + W·(2 501 000 + 1860·t); ASHRAE Fundamentals ch. 1, ideal-gas form.</summary>
    public static double Enthalpy(double temperatureK, double humidityRatio) =>
        1006 * (temperatureK - 273.15) + humidityRatio * (2_501_000 + 1860 * (temperatureK - 273.15));

    /// <summary>W = 0.621945·pw/(p − pw) at saturation; ASHRAE Fundamentals ch. 1.</summary>
    public static double SaturatedRatio(double temperatureK, double barometerPa)
    {
        // Magnus form over water, within 0.1 % of the steam tables from 0 to 50 °C: the coil is solved some forty
        // thousand times for one band. Source: WMO Guide to Instruments, constants 611.2, 17.62, 243.12.
        var celsius = temperatureK - 273.15;
        var vapourPa = 611.2 * Math.Exp(17.62 * celsius / (celsius + 243.12));
        return 0.621945 * vapourPa / Math.Max(1, barometerPa - vapourPa);
    }

    private static double Between(double low, double high, int sample, int @base) => low + (high - low) * Halton(sample, @base);

    /// <summary>Low-discrepancy sequence in [0,1): the digits of <paramref name="index"/> mirrored about the point.
    /// Deterministic, so that the same journal gives the same band.</summary>
    private static double Halton(int index, int @base)
    {
        double result = 0, share = 1;
        for (; index > 0; index /= @base)
        {
            share /= @base;
            result += share * (index % @base);
        }
        return result;
    }
}
