using System.Collections.Concurrent;
using Tightcold.Diagnosis.Inference;
using Tightcold.Diagnosis.Priors;
using Tightcold.Loop;
using Tightcold.Loop.Faults;
using Tightcold.Loop.Refrigerant;
using Tightcold.Numerics.Distributions;
using Tightcold.Procedures.Cold;
using Tightcold.Properties;

namespace Tightcold.Diagnosis.Acceptance;

/// <summary>
/// Cars as the label allows them, run through the loop model in the weather of a vent reading: healthy with about the
/// right charge, and with a fault that costs a seventh of the cooling or more. Assumed figures: docs/physics/cold.md.
/// </summary>
public sealed class LoopCars : IVentCars
{
    private const int Cars = 160;
    private const ulong Seed = 20310704;

    // Right after weighing in: what label tolerance, hoses and oil leave open.
    private const double LeastCharge = 0.90,
        MostCharge = 1.08;

    /// <summary>A car that keeps more of its cooling than this is not called sick: the vent could not show
    /// it.</summary>
    private const double MostSickShare = 0.85;

    private const int Tries = 40;

    // How cars are run when nobody says more: turns a minute and air onto the condenser's face, m/s, both with their
    // lognormal spread, and hot air coming round again, K, with its standard deviation.
    private static readonly (
        double Rpm,
        double RpmSpread,
        double Face,
        double FaceSpread,
        double ReentryK,
        double ReentrySigmaK
    ) Idling = (800, 0.10, 1.6, 0.25, 7, 3),
        Moving = (2000, 0.25, 2.8, 0.35, 3, 1.5),
        Unknown = (1300, 0.35, 2.0, 0.35, 7, 3);

    private readonly Car[] cars;

    /// <summary>Weathers that were asked for before: every reading of a job is judged anew with each that comes.</summary>
    private readonly ConcurrentDictionary<VentWeather, (double[] HealthyK, double[] SickK)> known = new();

    /// <summary>A car is seldom read more often; then all is asked for again.</summary>
    private const int MostKnown = 64;

    private LoopCars(Car[] cars) => this.cars = cars;

    public int Count => cars.Length;

    /// <summary>The loop model's scatter about published vents, without what its own spread of cars brings, and the
    /// probe's place in the vent; assumed.</summary>
    public double SettledSigmaK => 1.2;

    public double SickShare(int car) => cars[car].Share;

    /// <summary>The cars of a label.</summary>
    /// <exception cref="ArgumentException">A refrigerant that the loop model does not serve.</exception>
    public static LoopCars Of(CarKnowledge knowledge)
    {
        ArgumentNullException.ThrowIfNull(knowledge);
        var table = RefrigerantTables.For(knowledge.Refrigerant);
        var prior = new CarPrior(knowledge);
        var chance = new Chance(Seed);
        var points = PointSequence.Normal(Cars, Coordinate.Count, chance);
        var faults = HypothesisSet.For(knowledge).Where(one => one.Faults.Length == 1).ToArray();
        var cars = new Car[Cars];
        for (var i = 0; i < Cars; i++)
            cars[i] = Draw(
                prior,
                table,
                points.AsSpan(i * Coordinate.Count, Coordinate.Count).ToArray(),
                faults,
                chance
            );
        return new(cars);
    }

    public void Vents(in VentWeather weather, Span<double> healthyK, Span<double> sickK)
    {
        if (known.Count >= MostKnown)
            known.Clear();
        var (healthy, sick) = known.GetOrAdd(weather, Vents);
        healthy.CopyTo(healthyK);
        sick.CopyTo(sickK);
    }

    private (double[] HealthyK, double[] SickK) Vents(VentWeather weather)
    {
        var vents = (HealthyK: new double[cars.Length], SickK: new double[cars.Length]);
        for (var i = 0; i < cars.Length; i++)
        {
            var (car, conditions) = (cars[i], Conditions(weather, cars[i].Z));
            var added = DuctHeat.AddedK(weather, i + 1);
            vents.HealthyK[i] = Vent(car.Model, conditions, car.ChargeKg, LoopFaults.None) + added;
            vents.SickK[i] = Vent(car.SickModel, conditions, car.SickChargeKg, car.Faults) + added;
        }
        return vents;
    }

    public double WarmerByK(in VentWeather weather, double chargeRatio)
    {
        if (!(chargeRatio >= 0 && double.IsFinite(chargeRatio)))
            throw new ArgumentOutOfRangeException(nameof(chargeRatio), chargeRatio, "0 or more");
        double sum = 0;
        var used = 0;
        for (var i = 0; i < cars.Length; i += 4, used++)
        {
            var (car, conditions) = (cars[i], Conditions(weather, cars[i].Z));
            var right = car.Model.Design.LabelChargeKg;
            var charge = Math.Clamp(chargeRatio, LoopLimits.MinChargeShare, LoopLimits.MaxChargeShare) * right;
            sum +=
                Vent(car.Model, conditions, charge, LoopFaults.None)
                - Vent(car.Model, conditions, right, LoopFaults.None);
        }
        return sum / used;
    }

    /// <summary>One car, and the first fault drawn for it that costs enough of its cooling on an ordinary summer's
    /// day.</summary>
    private static Car Draw(CarPrior prior, RefrigerantTable table, double[] z, Hypothesis[] faults, Chance chance)
    {
        var healthy = prior.Design(z, []);
        var model = new LoopModel(healthy, table);
        var charge =
            (LeastCharge + ((MostCharge - LeastCharge) * Normal.Cumulative(z[Coordinate.Charge])))
            * healthy.LabelChargeKg;
        var day = LoopConditions.DoorsOpen(303.15, 0.5, 1300);
        var drop = day.CabinK - Vent(model, day, charge, LoopFaults.None);
        (double Share, LoopModel Model, double ChargeKg, LoopFaults Faults) worst = (
            double.MaxValue,
            model,
            charge,
            LoopFaults.None
        );
        for (var i = 0; i < Tries && worst.Share > MostSickShare; i++)
        {
            var fault = Pick(faults, chance.Uniform()).Faults;
            z[Coordinate.Severity] = chance.Normal();
            z[Coordinate.Form] = chance.Normal();
            var (share, loopFaults) = FaultPrior.Of(fault, z);
            var design = prior.Design(z, fault);
            var sick = new LoopModel(design, table);
            var left = Math.Clamp(
                (day.CabinK - Vent(sick, day, share * design.LabelChargeKg, loopFaults)) / drop,
                0,
                1
            );
            if (left < worst.Share)
                worst = (left, sick, share * design.LabelChargeKg, loopFaults);
        }
        return new(z, model, charge, worst.Model, worst.ChargeKg, worst.Faults, worst.Share);
    }

    private static Hypothesis Pick(Hypothesis[] faults, double u)
    {
        var left = u * faults.Sum(one => one.Prior);
        foreach (var fault in faults)
            if ((left -= fault.Prior) <= 0)
                return fault;
        return faults[^1];
    }

    /// <summary>The day and the way of running, with what is not known of them drawn by the car's own
    /// coordinates.</summary>
    private static LoopConditions Conditions(in VentWeather weather, double[] z)
    {
        var run = weather.Moving switch
        {
            true => Moving,
            false => Idling,
            null => Unknown,
        };
        var intake = Math.Clamp(
            weather.IntakeK + (weather.IntakeSigmaK * z[Coordinate.Cabin]),
            LoopLimits.MinCabinK,
            LoopLimits.MaxCabinK
        );
        var saturated = HumidAir.SaturationHumidityRatio(intake, weather.BarometerPa);
        // Relative humidity from the ratio: φ = W·(0.622 + Ws)/(Ws·(0.622 + W)); ASHRAE Fundamentals ch. 1.
        var humidity =
            weather.IntakeHumidityRatio
            * (0.621945 + saturated)
            / (saturated * (0.621945 + weather.IntakeHumidityRatio));
        var (blower, blowerSpread) = weather.Blower switch
        {
            "full" => (1.0, 0.0),
            "medium" => (0.62, 0.2),
            "low" => (0.35, 0.2),
            _ => (0.7, 0.2),
        };
        var sun = weather.ParkedInSun ? 10 * Normal.Cumulative(z[Coordinate.Store]) : 0;
        return new()
        {
            AmbientK = Math.Clamp(weather.AmbientK, LoopLimits.MinAmbientK, LoopLimits.MaxAmbientK),
            RelativeHumidity = 0.5,
            BarometricPa = Math.Clamp(weather.BarometerPa, LoopLimits.MinBarometricPa, LoopLimits.MaxBarometricPa),
            EngineRpm = Math.Clamp(
                run.Rpm * Math.Exp(run.RpmSpread * z[Coordinate.EngineSpeed]),
                LoopLimits.MinEngineRpm,
                LoopLimits.MaxEngineRpm
            ),
            CondenserFaceMPerS = Math.Clamp(
                run.Face * Math.Exp(run.FaceSpread * z[Coordinate.FaceSpeed]),
                LoopLimits.MinCondenserFaceMPerS,
                LoopLimits.MaxCondenserFaceMPerS
            ),
            ReentryK = Math.Clamp(
                run.ReentryK + (run.ReentrySigmaK * z[Coordinate.Reentry]) + sun,
                0,
                LoopLimits.MaxReentryK
            ),
            BlowerShare = Math.Clamp(
                blower * Math.Exp(blowerSpread * z[Coordinate.Humidity]),
                LoopLimits.MinBlowerShare,
                1
            ),
            // What the blower takes in is handed over as cabin air, which the model takes whole when nothing fresh is
            // mixed in.
            FreshShare = 0,
            CabinK = intake,
            CabinRelativeHumidity = Math.Clamp(humidity, 0.02, 1),
        };
    }

    /// <summary>Vent of a car; a circuit without a running state cools nothing.</summary>
    private static double Vent(LoopModel model, LoopConditions conditions, double chargeKg, LoopFaults faults) =>
        model.Solve(conditions, chargeKg, faults).Readings?.VentK ?? conditions.CabinK;

    private sealed record Car(
        double[] Z,
        LoopModel Model,
        double ChargeKg,
        LoopModel SickModel,
        double SickChargeKg,
        LoopFaults Faults,
        double Share
    );
}
