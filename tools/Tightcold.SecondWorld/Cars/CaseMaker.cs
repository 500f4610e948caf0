using Tightcold.Numerics.Sampling;

namespace Tightcold.SecondWorld.Cars;

/// <summary>Draws cars, faults and readings from one seed.</summary>
public static class CaseMaker
{
    /// <summary>
    /// How often each is met, by the trade's telling (from memory); only those that fit the car take part.
    /// </summary>
    private static readonly (FaultKind Kind, double Weight)[] Weights =
    [
        (FaultKind.TooLittle, 24),
        (FaultKind.TooMuch, 6),
        (FaultKind.AirInside, 5),
        (FaultKind.WrongGas, 1.5),
        (FaultKind.FanDead, 6),
        (FaultKind.FanWeak, 3),
        (FaultKind.CondenserDirty, 6),
        (FaultKind.CondenserBlockedInside, 2.5),
        (FaultKind.DrierBlocked, 2.5),
        (FaultKind.LiquidLineRestricted, 2),
        (FaultKind.ValveStuckClosed, 4),
        (FaultKind.ValveStuckOpen, 3),
        (FaultKind.BulbLost, 1),
        (FaultKind.OrificeBlocked, 6),
        (FaultKind.OrificeMissing, 1.5),
        (FaultKind.CompressorWorn, 4),
        (FaultKind.CompressorDead, 3),
        (FaultKind.ClutchOff, 6),
        (FaultKind.StrokeStuckLow, 7),
        (FaultKind.StrokeStuckHigh, 3),
        (FaultKind.EvaporatorIced, 2.5),
        (FaultKind.EvaporatorAirBlocked, 2),
        (FaultKind.BlowerWeak, 2),
        (FaultKind.CabinFilterDirty, 3),
        (FaultKind.HeaterDoorLeaks, 5),
        (FaultKind.WaterFreezes, 2.5),
    ];

    /// <param name="seed">The same seed gives the same case.</param>
    /// <param name="soundShare">Share of cars with nothing wrong, 0 to 1.</param>
    /// <param name="twoFaults">Share of the faulty ones that have a second fault.</param>
    public static CarCase Draw(ulong seed, double soundShare, double twoFaults = 0)
    {
        // A circuit without one steady state (an evaporator that floods, a condenser that fills by jumps) is drawn
        // again.
        for (ulong again = 0; ; again++)
        {
            var chance = new SeededChance(seed * 7919 + again * 104729 + 17);
            var car = CarMaker.Draw(chance);
            var faults = new List<Fault>();
            if (!chance.Chance(soundShare))
            {
                faults.Add(new(Pick(chance, car, null), chance.Uniform()));
                if (chance.Chance(twoFaults))
                    faults.Add(new(Pick(chance, car, faults[0].Kind), chance.Uniform()));
            }
            if (Read(seed, car, faults, chance) is { } made)
                return made;
        }
    }

    /// <summary>One car with a wanted fault.</summary>
    public static CarCase? Of(ulong seed, CarBuild car, IReadOnlyList<Fault> faults) =>
        Read(seed, car, faults, new SeededChance(seed * 31337 + 5));

    /// <summary>The same car sound, on another day with other gauges of the same class; null where it has no steady
    /// state.</summary>
    public static CarCase? WhenSound(CarCase one)
    {
        ArgumentNullException.ThrowIfNull(one);
        return Read(one.Seed, one.Car, [], new SeededChance(one.Seed * 15485863 + 11));
    }

    private static CarCase? Read(ulong seed, CarBuild car, IReadOnlyList<Fault> faults, SeededChance chance)
    {
        var condition = new Condition
        {
            // A sound car is seldom filled to the gram.
            ChargeKg = car.LabelKg * Math.Clamp(1 + 0.04 * chance.Normal(), 0.88, 1.1),
        };
        foreach (var fault in faults)
            condition = fault.Upon(condition, car);
        var ambient = chance.Between(18, 37);
        var humidity = chance.Between(0.3, 0.75);
        var doorsShut = chance.Chance(0.35);
        var setup = new Setup
        {
            AmbientC = ambient,
            Humidity = humidity,
            EngineRpm = chance.Between(720, 900),
            OutsideShare = doorsShut ? chance.Between(0.15, 0.4) : chance.Between(0.8, 1),
            Recirculated = chance.Chance(0.75),
        };
        var setups = new List<Setup> { setup, setup with { EngineRpm = chance.Between(1400, 2000) } };
        if (chance.Chance(0.4))
            setups.Add(setup with { FanAid = true });

        var dial = new DialSet(chance);
        var points = new List<PointRead>();
        bool seen = false,
            gross = false;
        var blocked = new Fault(FaultKind.ValveStuckClosed, 0.95).Upon(condition, car);
        Running? first = null;
        foreach (var one in setups)
        {
            var run = Runner.Run(car, condition, one);
            var sound = Runner.Run(car, new Condition(), one);
            if (!run.Trusted || !sound.Trusted)
                return null;
            if (condition.WaterFreezes && chance.Chance(0.6))
            {
                var iced = Runner.Run(car, blocked, one);
                if (!iced.Trusted)
                    return null;
                // Within a few minutes the needle goes from one to the other.
                run = run with
                {
                    LowMinPa = Math.Min(iced.LowMinPa, run.LowMinPa),
                    HighMinPa = Math.Min(iced.HighMinPa, run.HighMinPa),
                    VentC = 0.5 * (run.VentC + iced.VentC),
                };
            }
            first ??= run;
            var lowMiss = Math.Max(Math.Abs(run.LowMinPa - sound.LowMinPa), Math.Abs(run.LowMaxPa - sound.LowMaxPa));
            var highMiss = Math.Max(
                Math.Abs(run.HighMinPa - sound.HighMinPa),
                Math.Abs(run.HighMaxPa - sound.HighMaxPa)
            );
            var ventMiss = Math.Abs(run.VentC - sound.VentC);
            seen |= lowMiss > 0.3e5 || highMiss > 1e5 || ventMiss > 3 || run.ClutchIn != sound.ClutchIn;
            gross |= lowMiss > 0.8e5 || highMiss > 4e5 || ventMiss > 8 || run.ClutchIn != sound.ClutchIn;
            points.Add(Look(car, condition, run, dial, chance));
        }
        var standing = Runner.StandingPa(car, condition, ambient) - setup.AirPressurePa;
        return new CarCase
        {
            Seed = seed,
            Car = car,
            Faults = faults,
            Condition = condition,
            StandingPa = dial.Low(standing),
            Points = points,
            Seen = faults.Count > 0 && seen,
            Gross = faults.Count > 0 && gross,
            EqualAfterS = Equal(car, condition, chance),
            FallAtStopPa = first!.ClutchIn
                ? (condition.AirMol > 0 ? 1.2e5 + first.State.AirPartPa * 0.25 : 0.4e5)
                    * Math.Exp(0.25 * chance.Normal())
                : 0,
        };
    }

    private static PointRead Look(CarBuild car, Condition condition, Running run, DialSet dial, SeededChance chance)
    {
        var state = run.State;
        var air = run.Setup.AmbientC;
        var bay = air + 12;
        var on = run.ClutchIn && !run.Dead;
        // A needle that stands is read once, one that swings at both ends.
        var (lowMin, highMin) = (dial.Low(run.LowMinPa), dial.High(run.HighMinPa));
        var lowMax = run.LowMaxPa > run.LowMinPa ? Math.Max(lowMin, dial.Low(run.LowMaxPa)) : lowMin;
        var highMax = run.HighMaxPa > run.HighMinPa ? Math.Max(highMin, dial.High(run.HighMaxPa)) : highMin;
        double Line(double celsius) => dial.Clamp(on ? celsius : air + 3, bay);
        var drier = condition.LineRestriction > 0;
        return new PointRead
        {
            Setup = run.Setup,
            LowMinPa = lowMin,
            LowMaxPa = lowMax,
            HighMinPa = highMin,
            HighMaxPa = highMax,
            CyclesPerMinute = run.CyclesPerMinute * Math.Exp(0.1 * chance.Normal()),
            ClutchIn = run.ClutchIn,
            VentC = dial.Probe(run.VentC),
            InletC = dial.Probe(state.InletC),
            AmbientC = dial.Probe(air),
            Humidity = Math.Clamp(run.Setup.Humidity + 0.04 * chance.Normal(), 0.1, 0.95),
            SuctionLineC = Line(state.SuctionC),
            LiquidLineC = Line(state.CondenserOutC),
            DischargeLineC = Line(state.DischargeC),
            ValveInC = Line(drier ? state.AfterRestrictionC : state.ValveInC),
            EvaporatorInC = Line(state.EvaporatorInC),
            EvaporatorOutC = Line(state.EvaporatorOutC),
            Glass = SeenGlass(car, state, on, chance),
            Frost = SeenFrost(state, drier, on, air, chance),
            WeakAir = condition.EvaporatorAirFactor < 0.6 + 0.12 * chance.Normal(),
        };
    }

    private static Glass SeenGlass(CarBuild car, Working state, bool on, SeededChance chance)
    {
        if (!car.SightGlass)
            return Glass.NotThere;
        var quality = state.ReceiverOutQuality + (state.AirPartPa > 0.5e5 ? 0.03 : 0);
        if (!on)
            return Glass.Clear;
        if (chance.Chance(0.06))
            return chance.Chance(0.5) ? Glass.Bubbles : Glass.Clear;
        return quality > 0.15 ? Glass.Foam
            : quality > 0.006 ? Glass.Bubbles
            : Glass.Clear;
    }

    private static Frost SeenFrost(Working state, bool restricted, bool on, double airC, SeededChance chance)
    {
        if (!on || chance.Chance(0.1))
            return Frost.Nowhere;
        if (restricted && state.AfterRestrictionC < Math.Min(0, airC - 20))
            return Frost.LiquidLineOrDrier;
        if (state.SuctionC < -1)
            return Frost.SuctionLine;
        return state.EvaporatorInC < -4 ? Frost.ValveOrEvaporatorInlet : Frost.Nowhere;
    }

    private static double Equal(CarBuild car, Condition condition, SeededChance chance)
    {
        var opening = car.Device == Device.OrificeTube ? 0.9 * condition.OrificeFactor : condition.ValveStuckAt ?? 0.2;
        // Parallel paths: throttle and worn compressor; area in units of an open valve.
        var path = Math.Max(0.01, opening) + condition.BlowByM2 / 1.4e-6 + (condition.DeadHeadPa is null ? 0 : 20);
        return Math.Min(900, 40 / path) * Math.Exp(0.25 * chance.Normal());
    }

    private static FaultKind Pick(SeededChance chance, CarBuild car, FaultKind? not)
    {
        var fitting = Weights.Where(one => Fault.Fits(one.Kind, car) && one.Kind != not).ToArray();
        var at = chance.Uniform() * fitting.Sum(one => one.Weight);
        foreach (var (kind, weight) in fitting)
        {
            at -= weight;
            if (at <= 0)
                return kind;
        }
        return fitting[^1].Kind;
    }
}
