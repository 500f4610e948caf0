namespace Tightcold.Procedures.Cold;

/// <summary>What a healthy car blows in this weather: a band from moist-air physics over what is not known of the
/// car, never a constant.</summary>
/// <param name="MedianK">Half of healthy cars blow colder.</param>
/// <param name="LowK">5 % blow colder.</param>
/// <param name="HighK">5 % blow warmer.</param>
/// <remarks>
/// The coil cools part of the air to its apparatus dew point T_e and lets a share b pass untouched:
/// T_out = T_e + b·(T_in − T_e) (bypass-factor model of a wet coil, ASHRAE Fundamentals, psychrometrics).
/// T_e follows from the energy balance (1 − b)·ṁ·(h_in − h_sat(T_e)) = Q(T_e), with the capacity of a vehicle loop
/// Q = Q₀·(1 + 0.035·(T_e − 5 °C))·(1 − 0.008·(T_ambient − 35 °C)), and freeze protection keeps T_e above its floor.
/// Blower and duct add a little heat. Modelled, with spread-out parameters; not a measurement.
/// </remarks>
public sealed record VentBand(double MedianK, double LowK, double HighK)
{
    private const int Samples = 512;

    /// <summary>Error of the model itself and of the probe's place in the vent, K; assumed.</summary>
    private const double ModelSigmaK = 1.2;

    private double[] healthyK = [];
    private double[] faultyK = [];

    public static VentBand Of(VentWeather weather)
    {
        var healthy = new double[Samples];
        var faulty = new double[Samples];
        for (var i = 0; i < Samples; i++)
        {
            healthy[i] = Vent(weather, i + 1, 1);
            // A sick system: anywhere from no cooling at all to seven tenths of a healthy one.
            faulty[i] = Vent(weather, i + 1, 0.7 * Halton(i + 1, 17));
        }
        var sorted = healthy.Order().ToArray();
        return new(sorted[Samples / 2], sorted[Samples / 20], sorted[Samples - 1 - Samples / 20]) { healthyK = healthy, faultyK = faulty };
    }

    /// <summary>Odds that a car blowing <paramref name="ventK"/> is as a healthy one, 0 to 1, against one with a
    /// weakened or absent cooling, even odds before the reading.</summary>
    public double OddsHealthy(double ventK, double thermometerSigmaK)
    {
        var sigma = Math.Sqrt(thermometerSigmaK * thermometerSigmaK + ModelSigmaK * ModelSigmaK);
        // Colder than any model car is no fault of cooling.
        var reading = Math.Max(ventK, healthyK.Min());
        double good = 0, bad = 0;
        foreach (var k in healthyK) good += Normal.Density((reading - k) / sigma);
        foreach (var k in faultyK) bad += Normal.Density((reading - k) / sigma);
        // Warmer than every model car, healthy or not: not as a healthy one.
        return good + bad > 1e-300 ? good / (good + bad) : 0;
    }

    /// <summary>Vent temperature of one sampled car, K.</summary>
    private static double Vent(VentWeather weather, int sample, double capacityShare)
    {
        double Between(double low, double high, int @base) => low + (high - low) * Halton(sample, @base);
        var intakeK = weather.IntakeK + weather.IntakeSigmaK * 1.7 * (2 * Halton(sample, 13) - 1);
        var fullFlow = Between(0.095, 0.145, 2);
        var flow = fullFlow * weather.Blower switch
        {
            "full" => 1.0,
            "medium" => Between(0.5, 0.75, 19),
            "low" => Between(0.25, 0.45, 19),
            _ => Between(0.4, 1.0, 19),
        };
        var (least, most) = weather.Moving switch { true => (3.2e3, 5.6e3), false => (2.2e3, 4.4e3), null => (2.4e3, 5.6e3) };
        var capacityW = Between(least, most, 3) * (1 - 0.008 * (weather.AmbientK - 308.15)) * capacityShare;
        var bypass = Between(0.06, 0.22, 5);
        var floorK = 273.15 + Between(0, 3, 7);
        var addedK = Between(0.5, 2.5, 11);
        if (weather.SecondsSinceStart is { } seconds) addedK += Between(2, 10, 23) * Math.Exp(-Math.Max(0, seconds) / 150);

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
        for (var i = 0; i < 40; i++)
        {
            var coilK = 0.5 * (low + high);
            var duty = coilFlowKgPerS * (Enthalpy(intakeK, humidity) - Enthalpy(coilK, Math.Min(humidity, SaturatedRatio(coilK, barometerPa))));
            if (duty > capacityW * Math.Max(0.3, 1 + 0.035 * (coilK - 278.15))) low = coilK; else high = coilK;
        }
        return 0.5 * (low + high);
    }

    /// <summary>J per kg dry air, zero at 0 °C: 1006·t + W·(2 501 000 + 1860·t); ASHRAE Fundamentals ch. 1, ideal-gas form.</summary>
    private static double Enthalpy(double temperatureK, double humidityRatio) =>
        1006 * (temperatureK - 273.15) + humidityRatio * (2_501_000 + 1860 * (temperatureK - 273.15));

    /// <summary>W = 0.621945·pw/(p − pw) at saturation; ASHRAE Fundamentals ch. 1.</summary>
    private static double SaturatedRatio(double temperatureK, double barometerPa)
    {
        // Magnus form over water, within 0.1 % of the steam tables from 0 to 50 °C: the coil is solved some forty
        // thousand times for one band. Source: WMO Guide to Instruments, constants 611.2, 17.62, 243.12.
        var celsius = temperatureK - 273.15;
        var vapourPa = 611.2 * Math.Exp(17.62 * celsius / (celsius + 243.12));
        return 0.621945 * vapourPa / (barometerPa - vapourPa);
    }

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
