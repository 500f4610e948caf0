using System.Collections.Immutable;
using Tightcold.Diagnosis.Faults;
using Tightcold.Diagnosis.Inference;
using Tightcold.Diagnosis.Measurement;
using Tightcold.Diagnosis.Priors;
using Tightcold.Loop;
using Tightcold.Loop.Designs;

namespace Tightcold.Studies.Faults;

/// <summary>
/// Draws invented cars to test the diagnosis on: circuits, weather, instruments and faults at random, by their odds
/// before any reading. They are made with traits that the diagnosis does not know of (efficiency laws, line drops,
/// sizes that do not follow the label) and with instruments and model errors of other shapes.
/// </summary>
public static class CarLottery
{
    // The weather, the speed and the front end are this much less well known than the diagnosis assumes.
    private const double Wider = 1.15;

    // Cars in a hundred whose trouble is on no list: three faults, or two that are not weighed together.
    private const double OffList = 0.03;

    private static readonly (CompressorKind, ExpansionKind)[] Kinds =
    [
        (CompressorKind.Variable, ExpansionKind.ExpansionValve),
        (CompressorKind.FixedWithFinThermostat, ExpansionKind.ExpansionValve),
        (CompressorKind.FixedCycling, ExpansionKind.OrificeTube),
    ];

    /// <summary>Car number <paramref name="number"/>; the same number gives the same car.</summary>
    public static SimulatedCar Draw(int number)
    {
        // What is wrong is drawn once: cars that do not run, or do not show it, are drawn again with the same trouble.
        var choice = new Chance(((ulong)number << 16) + 77);
        var (compressor, expansion) = Kinds[(int)(choice.Uniform() * Kinds.Length)];
        var label = Math.Round((0.40 + (0.45 * choice.Uniform())) * 100) / 100;
        var knowledge = new CarKnowledge(choice.Uniform() < 0.7 ? "R134a" : "R1234yf")
        {
            LabelChargeKg = label,
            Compressor = compressor,
            Expansion = expansion,
        };
        var (truth, faults) = Fault(knowledge, choice);
        for (var attempt = 1; ; attempt++)
            if (Try(knowledge, truth, faults, new Chance(((ulong)number << 16) + (ulong)attempt + 77)) is { } car)
                return car;
    }

    private static SimulatedCar? Try(CarKnowledge knowledge, string truth, Fault[] faults, Chance chance)
    {
        var z = new double[Coordinate.Count];
        for (var k = 0; k < z.Length; k++)
            z[k] =
                chance.Normal()
                * (
                    k
                        is Coordinate.Severity
                            or Coordinate.SecondSeverity
                            or Coordinate.Charge
                            or Coordinate.Form
                            or Coordinate.Kind
                        ? 1
                        : Wider
                );
        var simulator = new CarSimulator(knowledge, hidden: true);
        var car = simulator.At(faults, z);
        car = Hidden(car, chance);
        var owner = new Owner(simulator, car, z, chance);
        var weather = Weather(chance);
        var points = new List<OperatingPoint>();
        var count = 1 + (int)(3 * chance.Uniform());
        for (var p = 0; p < count; p++)
        {
            var point = weather with
            {
                EngineRpm = p == 0 ? (chance.Uniform() < 0.5 ? 850 : 1500) : 1500 + (700 * chance.Uniform()),
                Aid = p == 2 ? Aid.Fan : Aid.None,
            };
            if (owner.Read(point, Channels(chance), chance) is not { } read)
                return null;
            // A shortage that receiver or accumulator covers is no fault to any gauge: another car is drawn.
            var shows = Shortage.Shows(owner.Last, glassLooked: false);
            if (p == 0 && faults.Contains(Diagnosis.Faults.Fault.Undercharge) && !shows)
                return null;
            if (p == 0 && faults.Length == 0 && car.ChargeKg < 0.8 * car.Design.LabelChargeKg && shows)
                return null;
            points.Add(Looked(read, owner.Last, chance));
        }

        var evidence = new DiagnosisEvidence(knowledge) { Points = [.. points] };
        if (chance.Uniform() < 0.4)
            evidence = evidence with { Standing = [owner.Stand(weather.AmbientK, chance)] };
        return new()
        {
            Truth = truth,
            Faults = [.. faults],
            ChargeKg = car.ChargeKg,
            Severities = [.. faults.Select((fault, i) => fault.Severities.At(z[FaultPrior.Place(i)]))],
            Evidence = evidence,
            Read = owner.Read,
            Stand = owner.Stand,
        };
    }

    private static (string Key, Fault[] Faults) Fault(CarKnowledge car, Chance chance)
    {
        var hypotheses = HypothesisSet.For(car);
        if (chance.Uniform() < OffList)
        {
            Fault[][] odd =
            [
                [Diagnosis.Faults.Fault.CompressorWorn, Diagnosis.Faults.Fault.CondenserAir],
                [
                    Diagnosis.Faults.Fault.EvaporatorAir,
                    Diagnosis.Faults.Fault.AirInside,
                    Diagnosis.Faults.Fault.OilExcess,
                ],
                [Diagnosis.Faults.Fault.BlendDoorLeaks, Diagnosis.Faults.Fault.CompressorWorn],
            ];
            return (Hypothesis.NoneOfThese, odd[(int)(chance.Uniform() * odd.Length)]);
        }

        var u = chance.Uniform() * (1 - hypotheses[^1].Prior);
        foreach (var hypothesis in hypotheses)
        {
            u -= hypothesis.Prior;
            if (u <= 0)
                return (hypothesis.Key, [.. hypothesis.Faults]);
        }

        return (Hypothesis.NothingWrong, []);
    }

    /// <summary>Traits of which the diagnosis knows nothing.</summary>
    private static CarSimulator.Car Hidden(CarSimulator.Car car, Chance chance)
    {
        double Factor(double spread) => Math.Exp(spread * chance.Normal());
        var d = car.Design;
        var design = d with
        {
            ClearanceShare = d.ClearanceShare * Factor(0.2),
            CondenserFaceM2 = d.CondenserFaceM2 * Factor(0.12),
            BayRiseK = d.BayRiseK * Factor(0.3),
            OilKg = d.OilKg * Factor(0.2),
            EvaporatorVolumeM3 = d.EvaporatorVolumeM3 * Factor(0.12),
            CondenserVolumeM3 = d.CondenserVolumeM3 * Factor(0.12),
            OpeningSuperheatK = d.OpeningSuperheatK * Factor(0.2),
            DuctGainShare = d.DuctGainShare * Factor(0.4),
            LiquidLineUa = d.LiquidLineUa * Factor(0.3),
            DischargeDrop = d.DischargeDrop * Factor(0.3),
            SuctionSetDroop = d.SuctionSetDroop * Factor(0.3),
            ShellLossShare = d.ShellLossShare * Factor(0.3),
            PulleyRatio = d.PulleyRatio * Factor(0.06),
        };
        return car with { Model = new LoopModel(design, car.Model.Refrigerant), Design = design };
    }

    private static OperatingPoint Weather(Chance chance)
    {
        var celsius = 20 + (20 * chance.Uniform());
        return new OperatingPoint
        {
            AmbientK = 273.15 + celsius,
            AmbientSigmaK = 0.8,
            RelativeHumidity = Math.Clamp(0.75 - ((celsius - 20) * 0.02) + (0.12 * chance.Normal()), 0.15, 0.95),
            HumiditySigma = 0.05,
            BarometricPa = StandardAtmosphere(700 * chance.Uniform()),
        };
    }

    private static double StandardAtmosphere(double metres) => Properties.StandardAtmosphere.PressurePa(metres);

    private static ImmutableArray<Channel> Channels(Chance chance)
    {
        var channels = new List<Channel> { Channel.LowSide, Channel.HighSide };
        if (chance.Uniform() < 0.8)
            channels.Add(Channel.Vent);
        if (chance.Uniform() < 0.5)
            channels.Add(Channel.SuctionLine);
        if (chance.Uniform() < 0.5)
            channels.Add(Channel.LiquidLine);
        if (chance.Uniform() < 0.2)
            channels.Add(Channel.DischargeLine);
        return [.. channels];
    }

    /// <summary>What its owner's eyes told, wrong in a few cases of a hundred.</summary>
    private static OperatingPoint Looked(OperatingPoint point, double[] row, Chance chance)
    {
        T Pick<T>(T[] outcomes, Func<T, double> odds)
        {
            var u = chance.Uniform() * outcomes.Sum(odds);
            foreach (var outcome in outcomes)
                if ((u -= odds(outcome)) <= 0)
                    return outcome;
            return outcomes[^1];
        }

        if (chance.Uniform() < 0.6)
            point = point with
            {
                Clutch = Pick([ClutchSeen.On, ClutchSeen.Off, ClutchSeen.Cycling], seen =>
                    SeenLikelihood.Clutch(seen, row)
                ),
            };
        if (chance.Uniform() < 0.25)
            point = point with
            {
                Glass = Pick([GlassSeen.Clear, GlassSeen.Bubbles], seen => SeenLikelihood.Glass(seen, row)),
            };
        if (chance.Uniform() < 0.4)
            point = point with
            {
                Frost = Pick(
                    [FrostSeen.Nowhere, FrostSeen.AtThrottle, FrostSeen.OnSuctionLine, FrostSeen.OnDrier],
                    seen => SeenLikelihood.Frost(seen, row)
                ),
            };
        if (point.Clutch == ClutchSeen.Cycling && row[Predicted.Cycles] > 0.3 && chance.Uniform() < 0.5)
            point = point with
            {
                CyclesPerMinute = Math.Max(
                    0.5,
                    Math.Round(row[Predicted.Cycles] * Math.Exp(0.3 * chance.Normal()) * 2) / 2
                ),
            };
        return point;
    }

    /// <summary>Holds what stays the same from reading to reading: the errors of instruments and of the
    /// model.</summary>
    private sealed class Owner
    {
        private readonly CarSimulator simulator;
        private readonly CarSimulator.Car car;
        private readonly double[] z;
        private readonly double[] fixedInstrument = new double[ErrorModel.Channels];
        private readonly double[] fixedModel = new double[ErrorModel.Channels];
        private readonly bool digital;

        public Owner(CarSimulator simulator, CarSimulator.Car car, double[] z, Chance chance)
        {
            (this.simulator, this.car, this.z) = (simulator, car, z);
            digital = chance.Uniform() < 0.4;
            for (var c = 0; c < ErrorModel.Channels; c++)
            {
                fixedInstrument[c] = chance.Normal();
                // Even between two limits instead of bell-shaped, same standard deviation.
                fixedModel[c] = 1.732 * ((2 * chance.Uniform()) - 1);
            }
        }

        public double[] Last { get; private set; } = [];

        public OperatingPoint? Read(OperatingPoint point, ImmutableArray<Channel> channels, Chance chance)
        {
            var row = new double[Predicted.Width];
            if (simulator.Run(car, point, z, null, row) is null)
                return null;
            if (
                car.Iced is not null
                && chance.Uniform() < Ice.Chance(row[Predicted.EvaporatingK])
                && simulator.Run(car, point, z, null, row, iced: true) is null
            )
                return null;
            Last = row;
            return point with
            {
                Readings = [.. channels.Select(channel => One(channel, row[(int)channel], point, chance))],
            };
        }

        public StandingPressure Stand(double ambientK, Chance chance)
        {
            var conditions = new LoopConditions { AmbientK = ambientK };
            var pascals = car.Model.Solve(conditions, car.ChargeKg, car.Faults with { ClutchSlip = 1 }).StaticPa;
            var warmth = 1 + (0.029 * 1.0 * chance.Normal());
            var (sigma, step) = Instrument(Channel.LowSide);
            return new(Step((pascals * warmth) + (sigma * chance.Normal()), step), sigma, ambientK, 1.0);
        }

        private Reading One(Channel channel, double truth, OperatingPoint point, Chance chance)
        {
            var (sigma, step) = Instrument(channel);
            var model = ModelError(channel, truth);
            // Seven tenths of each variance stay the same, as the diagnosis assumes; their shapes are others.
            var value =
                truth
                + (sigma * ((0.837 * fixedInstrument[(int)channel]) + (0.548 * chance.Normal())))
                + (model * ((0.837 * fixedModel[(int)channel]) + (0.548 * chance.Normal())));
            if (chance.Uniform() < 0.005)
                value = channel is Channel.LowSide or Channel.HighSide
                    ? value * (0.5 + chance.Uniform())
                    : value + (12 * chance.Normal());
            if (channel is Channel.LowSide or Channel.HighSide)
                value = Math.Max(value, 0.05e5);
            return new(
                channel,
                Step(value, step, channel is Channel.LowSide or Channel.HighSide ? point.BarometricPa : 0),
                sigma,
                step
            );
        }

        /// <summary>What no model of a car gets right, one standard deviation.</summary>
        private static double ModelError(Channel channel, double truth) =>
            channel switch
            {
                Channel.LowSide or Channel.LowSwingTop => 0.10e5,
                Channel.HighSide => 0.04 * truth,
                Channel.Vent => 1.2,
                Channel.SuctionLine => 2.4,
                Channel.LiquidLine => 2,
                _ => 6.5,
            };

        private (double Sigma, double Step) Instrument(Channel channel) =>
            channel switch
            {
                Channel.LowSide or Channel.LowSwingTop => digital ? (0.05e5, 0.01e5) : (0.14e5, 0.1e5),
                Channel.HighSide => digital ? (0.12e5, 0.01e5) : (0.28e5, 0.5e5),
                _ => (0.8, 0.1),
            };

        private static double Step(double value, double step, double from = 0) =>
            from + (Math.Round((value - from) / step) * step);
    }
}
