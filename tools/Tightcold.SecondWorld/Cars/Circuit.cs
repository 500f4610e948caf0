using Tightcold.Numerics;
using Tightcold.Numerics.Roots;
using Tightcold.Numerics.Smoothing;
using Tightcold.Properties;

namespace Tightcold.SecondWorld.Cars;

/// <summary>
/// The steady circuit: the evaporating pressure at which compressor and throttle pass the same flow, inside the
/// condensing pressure at which the parts hold the charge. Two nested brackets and a fixed point; no linearisation
/// anywhere.
/// </summary>
public sealed class Circuit
{
    private const double CelsiusZero = 273.15;
    private const double NominalKgPerS = 0.04;
    private const double GasConstant = 8.314462618;
    private const double SuctionGainWPerK = 1.5;
    private const double BayAboveAmbientK = 20;

    private readonly CarBuild car;
    private readonly Condition condition;
    private readonly Setup setup;
    private readonly FastFluid fluid;
    private readonly double airKgPerS;
    private double inletC;
    private double inletRatio;

    public Circuit(CarBuild car, Condition condition, Setup setup)
    {
        this.car = car;
        this.condition = condition;
        this.setup = setup;
        fluid = FluidCatalog.GetFast(car.Refrigerant);
        floorPa = 1.01 * fluid.SaturationPressurePa(fluid.MinTemperatureK + 0.01);
        airKgPerS = car.BlowerKgPerS * setup.Blower * condition.EvaporatorAirFactor;
        inletC = setup.AmbientC;
        inletRatio = OutsideRatio;
    }

    private double OutsideRatio =>
        Psychrometrics.HumidityRatio(setup.Humidity * Psychrometrics.SaturationPa(setup.AmbientC), setup.AirPressurePa);

    /// <summary>The steady state with the clutch in. The cabin settles with it where air is recirculated.</summary>
    public Working Work()
    {
        Working state = Once();
        var share = setup.Recirculated ? setup.OutsideShare : 1;
        for (var round = 0; round < 4 && share < 0.999 && state.Solved; round++)
        {
            var cabinC = state.VentC + car.CabinLoadW * (1 - share) / (airKgPerS * Psychrometrics.AirJPerKgK);
            var wantC = share * setup.AmbientC + (1 - share) * Math.Min(cabinC, setup.AmbientC + 8);
            var wantRatio = share * OutsideRatio + (1 - share) * (lastOffRatio + 0.0008);
            inletC += 0.8 * (wantC - inletC);
            inletRatio += 0.8 * (wantRatio - inletRatio);
            state = Once();
        }
        return state;
    }

    private double lastOffRatio;
    private double lastEvaporatingPa = 3.2e5;
    private Working? last;

    private Working Once()
    {
        var charge = condition.ChargeKg ?? car.LabelKg;
        var critical = fluid.Fluid.CriticalPressurePa;
        var top = Math.Min(0.9 * critical, car.HighCutOutPa * 1.02);
        double low = Math.Max(0.4e5, 1.02 * floorPa),
            high = top;
        // A step about where it stood last, or about an ordinary day; the whole range only when that fails.
        var guess = last?.CondensingPa ?? fluid.SaturationPressurePa(setup.AmbientC + CelsiusZero + 18);
        var miss = new ChargeMiss(this, charge);
        if (!Bracket(miss, guess, last is null ? 1.25 : 1.04, low, high, out var from, out var to))
            return At(miss.Evaluate(high) < 0 ? high : low) with { AtHighLimit = miss.Evaluate(high) < 0 };
        var root = BracketedRoot.Find(miss, from, to, 40);
        if (root is not Solved<double>.Converged found)
            return last! with { Solved = false };
        var state = At(found.Value);
        // Next to no flow: the condenser stands at the air's temperature, and whatever charge there is lies in it.
        const double StandingKgPerS = 0.004;
        if (state.FlowKgPerS < StandingKgPerS)
            return At(found.Value * 1.001);
        if (Math.Abs(state.MassKg - charge) < Math.Max(0.008, 0.03 * charge))
            return state;
        // The charge jumps here from one way of filling the parts to another: only where both read alike is it an
        // answer.
        var below = At(found.Value - 200);
        var above = At(found.Value + 200);
        var alike =
            Math.Abs(below.EvaporatingPa - above.EvaporatingPa) < 0.25e5 && Math.Abs(below.VentC - above.VentC) < 3;
        return (above.MassKg > charge ? above : below) with { Solved = alike };
    }

    /// <summary>Two points about a guess between which a rising function changes sign.</summary>
    private static bool Bracket<TF>(
        TF rising,
        double guess,
        double factor,
        double low,
        double high,
        out double from,
        out double to
    )
        where TF : struct, IScalarFunction
    {
        from = to = Math.Clamp(guess, low, high);
        if (rising.Evaluate(guess) < 0)
        {
            while (to < high)
            {
                from = to;
                to = Math.Min(high, to * factor);
                if (rising.Evaluate(to) >= 0)
                    return true;
                factor *= factor;
            }
            return false;
        }
        while (from > low)
        {
            to = from;
            from = Math.Max(low, from / factor);
            if (rising.Evaluate(from) < 0)
                return true;
            factor *= factor;
        }
        return false;
    }

    private readonly struct ChargeMiss(Circuit circuit, double chargeKg) : IScalarFunction
    {
        public double Evaluate(double x) => circuit.At(x).MassKg - chargeKg;
    }

    private readonly struct FlowMiss(Circuit circuit, double condensingPa) : IScalarFunction
    {
        public double Evaluate(double x) => circuit.Balance(condensingPa, x, out _);
    }

    /// <summary>The state at a condensing pressure, whatever charge that takes.</summary>
    public Working At(double condensingPa)
    {
        var low = 0.03e5;
        var high = 0.997 * condensingPa;
        var miss = new FlowMiss(this, condensingPa);
        double found;
        if (Bracket(miss, Math.Min(lastEvaporatingPa, 0.9 * high), 1.06, low, high, out var from, out var to))
            found = BracketedRoot.Find(miss, from, to, 8) is Solved<double>.Converged ok ? ok.Value : from;
        else
            found = miss.Evaluate(low) > 0 ? low : high;
        lastEvaporatingPa = found;
        Balance(condensingPa, found, out var state);
        last = state;
        return state;
    }

    private double Balance(double condensingPa, double evaporatingPa, out Working state)
    {
        var line = fluid.SaturationAtPressure(Math.Max(evaporatingPa, floorPa));
        // What comes to the compressor: warm gas to begin with; the loop settles in a few rounds.
        var suctionJPerKg = line.VapourEnthalpyJPerKg;
        double before = 0,
            missBefore = 0;
        state = null!;
        for (var round = 0; round < 20; round++)
        {
            state = Pass(condensingPa, evaporatingPa, suctionJPerKg, out var back);
            var miss = back - suctionJPerKg;
            if (Math.Abs(miss) < 4)
                break;
            double next;
            if (round > 0 && Math.Abs(missBefore - miss) > 1e-9)
            {
                next = suctionJPerKg + miss * (suctionJPerKg - before) / (missBefore - miss);
                if (Math.Abs(next - suctionJPerKg) > 4 * Math.Abs(miss))
                    next = suctionJPerKg + 0.6 * miss;
            }
            else
            {
                next = suctionJPerKg + 0.8 * miss;
            }
            before = suctionJPerKg;
            missBefore = miss;
            var lowest = line.LiquidEnthalpyJPerKg + 0.6 * (line.VapourEnthalpyJPerKg - line.LiquidEnthalpyJPerKg);
            suctionJPerKg = Math.Clamp(next, lowest, line.VapourEnthalpyJPerKg + 70e3);
        }
        return Math.Log(Math.Max(1e-9, state.FlowKgPerS) / Math.Max(1e-9, throttleFlow));
    }

    private double throttleFlow;

    /// <summary>
    /// The tables' lowest pressure: a deeper vacuum boils at this end's temperature, only the pump feels it.
    /// </summary>
    private readonly double floorPa;

    private Working Pass(double condensingPa, double evaporatingPa, double suctionJPerKg, out double backJPerKg)
    {
        var boilingPa = Math.Max(evaporatingPa, floorPa);
        var stroke = Stroke(evaporatingPa, condensingPa);
        var lineDrop = 0.0;
        var flowGuess = NominalKgPerS;
        Compressor.Result pumped = default;
        double suctionPa = evaporatingPa,
            dischargePa = condensingPa;
        var airPart = AirPart(condensingPa);
        // Drops follow the flow that they lower: three passes.
        for (var pass = 0; pass < 3; pass++)
        {
            var scale = Math.Pow(flowGuess / NominalKgPerS, 1.8);
            lineDrop = Math.Min(0.4 * evaporatingPa, car.SuctionDropAtNominalPa * scale * 3e5 / evaporatingPa);
            suctionPa = evaporatingPa - lineDrop;
            dischargePa =
                condensingPa
                + airPart
                + car.CondenserDropAtNominalPa * scale * 14e5 / condensingPa / Math.Pow(condition.OpenTubes, 1.8);
            dischargePa = Math.Min(dischargePa, 0.98 * fluid.MaxPressurePa);
            pumped = Compressor.Pump(
                fluid,
                car,
                condition.BlowByM2,
                stroke,
                setup.EngineRpm,
                suctionPa,
                suctionJPerKg,
                dischargePa,
                setup.AmbientC
            );
            flowGuess = pass == 0 ? pumped.FlowKgPerS : 0.5 * (flowGuess + pumped.FlowKgPerS);
        }
        var flow = pumped.FlowKgPerS;
        var air = CondenserAir.Through(car, condition, setup, dischargePa);
        var gasFilm = 1 - 0.6 * Math.Min(1, 3 * airPart / (condensingPa + airPart));
        var condenser = Condenser.March(
            fluid,
            car,
            condition.OpenTubes,
            gasFilm,
            condensingPa,
            flow,
            pumped.DischargeJPerKg,
            air.KgPerS,
            setup.AmbientC,
            air.HotReturn
        );
        var top = fluid.SaturationAtPressure(condensingPa);
        var topLatent = top.VapourEnthalpyJPerKg - top.LiquidEnthalpyJPerKg;

        // The liquid line: air in it makes it flash a little; then what restricts it.
        var liquidJPerKg = condenser.OutJPerKg;
        var ownDrop = 0.1e5 * flow * flow / (NominalKgPerS * NominalKgPerS);
        var liquidPa = condensingPa - Math.Min(0.05 * condensingPa, ownDrop);
        var restricted = condition.LineRestriction * flow * flow / LiquidDensity(liquidPa, liquidJPerKg);
        var afterPa = Math.Max(boilingPa * 1.0005, liquidPa - restricted);
        var valveJPerKg = liquidJPerKg;
        var exchanged = 0.0;
        if (car.InnerExchangerShare > 0)
        {
            var warm = fluid.AtPressureEnthalpy(afterPa, liquidJPerKg).TemperatureK;
            var cold = fluid.AtPressureEnthalpy(Math.Max(suctionPa, floorPa), suctionJPerKg).TemperatureK;
            exchanged = car.InnerExchangerShare * 950 * Math.Max(0, warm - cold);
            valveJPerKg -= exchanged;
        }

        var evaporator = Evaporator.March(
            fluid,
            car,
            condition.EvaporatorSurfaceFactor,
            boilingPa,
            flow,
            valveJPerKg,
            airKgPerS,
            inletC,
            inletRatio,
            setup.AirPressurePa
        );
        lastOffRatio = evaporator.AirOffRatio;
        var bottom = fluid.SaturationAtPressure(boilingPa);
        var bottomLatent = bottom.VapourEnthalpyJPerKg - bottom.LiquidEnthalpyJPerKg;
        var outQuality = (evaporator.OutJPerKg - bottom.LiquidEnthalpyJPerKg) / bottomLatent;
        var outK = fluid.AtPressureEnthalpy(boilingPa, evaporator.OutJPerKg).TemperatureK;
        var bayC = setup.AmbientC + BayAboveAmbientK;
        var gain = Math.Max(0, SuctionGainWPerK * (bayC - (outK - CelsiusZero)));
        gain = Math.Min(gain, flow * 20e3);
        backJPerKg = evaporator.OutJPerKg + gain / flow + exchanged;

        throttleFlow =
            car.Device == Device.ExpansionValve
                ? Throttle.ValveFlow(
                    fluid,
                    car.ValveAreaM2
                        * (
                            condition.ValveStuckAt
                            ?? Throttle.ValveOpening(fluid, car, outK, evaporatingPa - 0.1 * lineDrop)
                        ),
                    afterPa,
                    valveJPerKg,
                    evaporatingPa
                )
                : Throttle.TubeFlow(
                    fluid,
                    car.OrificeAreaM2 * condition.OrificeFactor,
                    afterPa,
                    valveJPerKg,
                    evaporatingPa
                );

        // What every part holds.
        double level,
            stored;
        var quality = (condenser.ReceiverInJPerKg - top.LiquidEnthalpyJPerKg) / topLatent;
        if (car.Device == Device.ExpansionValve)
        {
            level = Smooth.Step((0.012 - quality) / 0.05);
            stored = car.StoreVolumeM3 * (level * top.LiquidDensityKgPerM3 + (1 - level) * top.VapourDensityKgPerM3);
        }
        else
        {
            level = Smooth.Step((1.01 - outQuality) / 0.07);
            stored =
                car.StoreVolumeM3 * (level * bottom.LiquidDensityKgPerM3 + (1 - level) * bottom.VapourDensityKgPerM3);
        }
        var lineDensity =
            condenser.OutJPerKg <= top.LiquidEnthalpyJPerKg
                ? top.LiquidDensityKgPerM3
                : Condenser.Hold(fluid, top, condensingPa, condenser.OutJPerKg).Density;
        var suctionDensity = fluid.AtPressureEnthalpy(Math.Max(suctionPa, floorPa), suctionJPerKg).DensityKgPerM3;
        var dischargeState = fluid.AtPressureEnthalpy(
            Math.Min(dischargePa, 0.98 * fluid.MaxPressurePa),
            pumped.DischargeJPerKg
        );
        var mass =
            condenser.MassKg
            + stored
            + evaporator.MassKg
            + lineDensity * car.LiquidLineM3
            + suctionDensity * (car.SuctionLineM3 + car.CrankcaseM3)
            + dischargeState.DensityKgPerM3 * car.DischargeLineM3
            + car.OilKg * Oil.Dissolved(fluid, suctionPa, setup.AmbientC + 30);

        var vent = evaporator.AirOffC + car.DuctGainK;
        vent += condition.HeaterShare * (85 - vent);
        var fastLine = fluid.AtPressureEnthalpy(afterPa, liquidJPerKg);
        return new Working
        {
            Solved = true,
            SuctionPa = suctionPa,
            EvaporatingPa = evaporatingPa,
            CondensingPa = condensingPa,
            DischargePa = dischargePa,
            LiquidPa = liquidPa + airPart,
            FlowKgPerS = flow,
            SuctionC = fluid.AtPressureEnthalpy(Math.Max(suctionPa, floorPa), suctionJPerKg).TemperatureK - CelsiusZero,
            EvaporatorOutC = outK - CelsiusZero,
            EvaporatorInC = fluid.AtPressureEnthalpy(boilingPa, valveJPerKg).TemperatureK - CelsiusZero,
            DischargeC = dischargeState.TemperatureK - CelsiusZero,
            CondenserOutC = fluid.AtPressureEnthalpy(condensingPa, condenser.OutJPerKg).TemperatureK - CelsiusZero,
            AfterRestrictionC = fastLine.TemperatureK - CelsiusZero,
            ValveInC = fluid.AtPressureEnthalpy(afterPa, valveJPerKg).TemperatureK - CelsiusZero,
            ValveInQuality = Quality(afterPa, valveJPerKg),
            ReceiverOutQuality = quality,
            EvaporatorOutQuality = outQuality,
            AirOffC = evaporator.AirOffC,
            VentC = vent,
            InletC = inletC,
            ColdestSurfaceC = evaporator.ColdestC,
            CoolingW = evaporator.CoolingW,
            HeatOutW = condenser.HeatW,
            WorkW = pumped.WorkW,
            LineGainW = gain,
            ShellLossW = pumped.ShellLossW,
            MassKg = mass,
            StoreLevel = level,
            Stroke = stroke,
            FanM3PerS = air.M3PerS,
            AirPartPa = airPart,
            AtHighLimit = false,
        };
    }

    private double Stroke(double evaporatingPa, double condensingPa)
    {
        if (condition.StrokeStuckAt is { } stuck)
            return stuck;
        if (car.Control != Control.VariableStroke)
            return 1;
        // The pneumatic valve gives way as the head rises.
        var set = car.SetPressurePa - 0.012 * (condensingPa - 10e5);
        return Math.Clamp((evaporatingPa - set) / car.StrokeBandPa, 0.04, 1);
    }

    /// <summary>
    /// Air gathers where gas rests on liquid: store and condenser of a valve circuit, condenser of the other.
    /// </summary>
    private double AirPart(double condensingPa)
    {
        if (condition.AirMol <= 0)
            return 0;
        var volume =
            0.55 * car.CondenserVolumeM3
            + car.DischargeLineM3
            + (car.Device == Device.ExpansionValve ? 0.5 * car.StoreVolumeM3 : 0.25 * car.StoreVolumeM3);
        return condition.AirMol * GasConstant * fluid.SaturationTemperatureK(condensingPa) / volume;
    }

    private double LiquidDensity(double pressurePa, double enthalpyJPerKg)
    {
        var line = fluid.SaturationAtPressure(Math.Min(pressurePa, 0.95 * fluid.Fluid.CriticalPressurePa));
        var quality =
            (enthalpyJPerKg - line.LiquidEnthalpyJPerKg) / (line.VapourEnthalpyJPerKg - line.LiquidEnthalpyJPerKg);
        if (quality <= 0)
            return line.LiquidDensityKgPerM3;
        if (quality >= 1)
            return line.VapourDensityKgPerM3;
        return 1 / ((1 - quality) / line.LiquidDensityKgPerM3 + quality / line.VapourDensityKgPerM3);
    }

    private double Quality(double pressurePa, double enthalpyJPerKg)
    {
        var line = fluid.SaturationAtPressure(pressurePa);
        return (enthalpyJPerKg - line.LiquidEnthalpyJPerKg) / (line.VapourEnthalpyJPerKg - line.LiquidEnthalpyJPerKg);
    }
}
