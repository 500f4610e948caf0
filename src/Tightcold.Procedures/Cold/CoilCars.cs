using Tightcold.Numerics.Roots;

namespace Tightcold.Procedures.Cold;

/// <summary>Cars that are no more than a coil and a capacity: the truth of invented jobs, which a model of another
/// build then has to recognise.</summary>
/// <remarks>
/// The coil cools part of the air to its apparatus dew point T_e and lets a share b pass untouched: T_out = T_e +
/// b·(T_in − T_e) (bypass-factor model of a wet coil, ASHRAE Fundamentals, psychrometrics). T_e follows from the energy
/// balance (1 − b)·ṁ·(h_in − h_sat(T_e)) = Q(T_e), with the capacity of a vehicle loop Q = Q₀·(1 + 0.035·(T_e − 5
/// °C))·(1 − 0.008·(T_condenser air − 35 °C)), and freeze protection keeps T_e above its floor. Blower and duct add a
/// little heat. Modelled, with spread-out parameters; not a measurement. The same sample number is the same car in
/// every weather.
/// </remarks>
public sealed class CoilCars : IVentCars
{
    private const int Samples = 512;

    public static readonly CoilCars Usual = new();

    private CoilCars() { }

    public int Count => Samples;

    public double SettledSigmaK => 1.2;

    /// <summary>None to seven tenths.</summary>
    public double SickShare(int car) => 0.7 * Spread.Halton(car + 1, 17);

    public void Vents(in VentWeather weather, Span<double> healthyK, Span<double> sickK)
    {
        for (var i = 0; i < Samples; i++)
        {
            healthyK[i] = Vent(weather, i + 1, 1);
            sickK[i] = Vent(weather, i + 1, SickShare(i));
        }
    }

    /// <summary>By what one published rig lost at the most (<see cref="ChargeEffect"/>).</summary>
    public double WarmerByK(in VentWeather weather, double chargeRatio)
    {
        var share = 1 - ChargeEffect.MostLost(chargeRatio);
        double sum = 0;
        var used = 0;
        for (var i = 1; i <= Samples; i += 8, used++)
            sum += Vent(weather, i, share) - Vent(weather, i, 1);
        return sum / used;
    }

    /// <summary>Share of the air that passes the coil of this car untouched, and heat added behind it, K.</summary>
    internal static (double Bypass, double AddedK, double FloorK) Coil(int sample) =>
        (Between(0.06, 0.22, sample, 5), Between(0.5, 2.5, sample, 11), 273.15 + Between(0, 3, sample, 7));

    /// <summary>Vent temperature of one sampled car, K.</summary>
    private static double Vent(in VentWeather weather, int sample, double capacityShare)
    {
        var intakeK = weather.IntakeK + weather.IntakeSigmaK * 1.7 * (2 * Spread.Halton(sample, 13) - 1);
        var fullFlow = Between(0.095, 0.145, sample, 2);
        var flow =
            fullFlow
            * weather.Blower switch
            {
                "full" => 1.0,
                "medium" => Between(0.5, 0.75, sample, 19),
                "low" => Between(0.25, 0.45, sample, 19),
                _ => Between(0.4, 1.0, sample, 19),
            };
        var (least, most) = weather.Moving switch
        {
            true => (3.2e3, 5.6e3),
            false => (2.2e3, 4.4e3),
            null => (2.4e3, 5.6e3),
        };
        var condenserAirK = weather.AmbientK + (weather.ParkedInSun ? Between(0, 10, sample, 29) : 0);
        var capacityW =
            Between(least, most, sample, 3) * Math.Max(0.2, 1 - 0.008 * (condenserAirK - 308.15)) * capacityShare;
        var (bypass, addedK, floorK) = Coil(sample);
        addedK += DuctHeat.AddedK(weather, sample);

        var humidity = Math.Min(weather.IntakeHumidityRatio, DampAir.SaturatedRatio(intakeK, weather.BarometerPa));
        var massFlow = flow * weather.BarometerPa / (287.05 * intakeK * (1 + 1.608 * humidity));
        var coilK = ApparatusDewPoint(
            intakeK,
            humidity,
            weather.BarometerPa,
            (1 - bypass) * massFlow,
            capacityW,
            floorK
        );
        return coilK + bypass * (intakeK - coilK) + addedK;
    }

    /// <summary>Solves the coil's energy balance; the left side falls and the right side rises with T_e, so there is
    /// one root or none in the range, and then the end is the answer: freeze protection below, no cooling
    /// above.</summary>
    private static double ApparatusDewPoint(
        double intakeK,
        double humidity,
        double barometerPa,
        double coilFlowKgPerS,
        double capacityW,
        double floorK
    )
    {
        var spare = new Spare(DampAir.Enthalpy(intakeK, humidity), humidity, barometerPa, coilFlowKgPerS, capacityW);
        return BracketedRoot.Nearest(spare, Math.Min(floorK, intakeK), intakeK, 1e-6);
    }

    /// <summary>Capacity that the air does not ask for, W, over T_e.</summary>
    private readonly struct Spare(
        double intakeJPerKg,
        double humidity,
        double barometerPa,
        double coilFlowKgPerS,
        double capacityW
    ) : IScalarFunction
    {
        public double Evaluate(double x)
        {
            var cooledJPerKg = DampAir.Enthalpy(x, Math.Min(humidity, DampAir.SaturatedRatio(x, barometerPa)));
            return capacityW * Math.Max(0.3, 1 + 0.035 * (x - 278.15)) - coilFlowKgPerS * (intakeJPerKg - cooledJPerKg);
        }
    }

    private static double Between(double low, double high, int sample, int @base) =>
        Spread.Between(low, high, sample, @base);
}
