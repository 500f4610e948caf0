using Tightcold.Loop.Cycling;
using Tightcold.Loop.Designs;
using Tightcold.Loop.Faults;
using Tightcold.Loop.Refrigerant;
using Tightcold.Loop.Results;
using Tightcold.Numerics.Smoothing;
using Tightcold.Quantities;

namespace Tightcold.Loop.Solving;

/// <summary>One question from solve to named answer: running state, switches, the standing car, and blends
/// between.</summary>
internal sealed class RunningWork
{
    // A condenser with this much of its face under liquid at the cut-out has no room left to condense.
    private const double LiquidFullShare = 0.6;

    // An answer that closes worse than this is none.
    private const double MostOpen = 1e-6;

    private readonly LoopConditions _conditions;
    private readonly LoopFaults _faults;
    private LoopCase _case;
    private SolveTrace _trace;

    public RunningWork(
        RefrigerantTable table,
        LoopDesign design,
        LoopConditions conditions,
        double chargeKg,
        LoopFaults faults
    )
    {
        _conditions = conditions;
        _faults = faults;
        _case = LoopCaseBuilder.Build(table, design, conditions, chargeKg, faults);
    }

    public LoopResult Answer(LoopStart? near)
    {
        var off = SwitchedOff.Weight(_case, _conditions, _faults);
        var standing = SwitchedOff.Readings(_case, _conditions, _faults);
        var air = SwitchedOff.AirWeight(_case, _conditions, _faults);
        if (air >= 1)
            return Make(LoopState.MostlyAir, LoopRegimes.MostlyAir, standing, default, null, default);
        if (off >= 1)
            return Make(LoopState.Off, LoopRegimes.Off, standing, default, null, default);

        var point = LoopSolver.Solve(_case, near, ref _trace);
        var regimes = LoopRegimes.None;
        if (Running(_case, ref point, ref _trace, ref regimes, out var unplaced) is not { } readings)
            return Make(LoopState.NotClosed, LoopRegimes.None, null, Balance.Of(_case, point), Why(point), point);
        if (_faults.MoistureIce > 0)
            readings = WithIce(point, readings, ref regimes);
        // A compressor that pumps nothing still turns: its clutch is on.
        readings = LoopReadings.Mix(readings, standing with { Duty = 1 }, SwitchedOff.NothingPumped(_faults));
        readings = LoopReadings.Mix(readings, standing, 1 - ((1 - off) * (1 - air)));
        regimes |= RegimeNames.Of(_case, point, readings, off);
        if (air > 0.5)
            regimes |= LoopRegimes.MostlyAir;
        return Make(RegimeNames.Foremost(regimes), regimes, readings, Balance.Of(_case, point, unplaced), null, point);
    }

    /// <summary>Readings of a solved case with its switches at work; null where the solve did not close.</summary>
    /// <param name="point">The steady point; behind the high-pressure switch without room for the charge, the point
    /// held at it.</param>
    private LoopReadings? Running(
        in LoopCase c,
        ref LoopPoint point,
        ref SolveTrace trace,
        ref LoopRegimes regimes,
        out double unplacedKg
    )
    {
        unplacedKg = 0;
        if (trace.End is SolveEnd.NotClosed or SolveEnd.ChargeTooSmall)
            return null;
        var noRoom = trace.End == SolveEnd.NoRoomForCharge;
        var readings = ReadingMaker.Of(c, _conditions, _faults, point);
        var high = HighSwitch.Weight(c, noRoom ? double.PositiveInfinity : point.DischargePa);
        if (high > 0)
        {
            // Behind the switch the circuit runs about its cut-out pressure, wherever it would have ended.
            var held = point;
            if (!LoopSolver.TryAtDischarge(c, HighSwitch.LogDischarge(c), ref held, ref trace))
                return null;
            var endK = noRoom
                ? c.Table.SaturationTemperatureK(Math.Exp(LoopBox.Of(c).MaxLogDischarge))
                : point.CondensingK;
            var running = ReadingMaker.Of(c, _conditions, _faults, held);
            readings = LoopReadings.Mix(
                readings,
                HighSwitch.Readings(c, _conditions, _faults, running, held, endK),
                high
            );
            regimes |= LoopRegimes.HighSwitchActing;
            if (noRoom)
            {
                unplacedKg = c.ChargeKg - held.ChargeKg;
                if (held.LiquidShare > LiquidFullShare)
                    regimes |= LoopRegimes.LiquidFull;
                point = held;
            }
        }

        return LowSwitch.Apply(c, _conditions, _faults, point, readings, ref regimes);
    }

    // The jet behind the throttle is the coldest place; above this evaporating temperature nothing freezes there, and
    // that much lower everything does (assumed).
    private const double IcesBelowK = 278.15,
        IceBandK = 6;

    /// <summary>Half the time the throttle is blocked by ice, the more the colder it would run when clear.</summary>
    private LoopReadings WithIce(in LoopPoint clear, in LoopReadings readings, ref LoopRegimes regimes)
    {
        var weight = 0.5 * Smooth.Step((IcesBelowK - clear.EvaporatingK) / IceBandK);
        if (weight <= 0)
            return readings;
        var blocked = _case;
        var open = Math.Max(0.01, 1 - _faults.MoistureIce);
        blocked.ValveAreaM2 *= open;
        blocked.TubeDiameterM *= Math.Sqrt(open);
        var trace = default(SolveTrace);
        var point = LoopSolver.Solve(blocked, clear.Start, ref trace);
        var ignored = LoopRegimes.None;
        var running = Running(blocked, ref point, ref trace, ref ignored, out _);
        _trace.Marches += trace.Marches;
        if (running is not { } iced)
            return readings;
        regimes |= LoopRegimes.ThrottleIcing;
        var share = 2 * weight;
        return LoopReadings.Mix(readings, iced, weight) with
        {
            LowSideMinPa =
                readings.LowSideMinPa
                + (share * (Math.Min(readings.LowSideMinPa, iced.LowSideMinPa) - readings.LowSideMinPa)),
            LowSideMaxPa =
                readings.LowSideMaxPa
                + (share * (Math.Max(readings.LowSideMaxPa, iced.LowSideMaxPa) - readings.LowSideMaxPa)),
        };
    }

    private Phrase Why(in LoopPoint p) =>
        _trace.End == SolveEnd.ChargeTooSmall
            ? Phrase.Words(
                "the circuit holds more than this charge even at the lowest pressure of the refrigerant table"
            )
            : Phrase.Of(
                $"no steady state found: residuals flow {Figure(p.FlowResidual)}, charge {Figure(p.ChargeResidual)}, "
                    + $"energy {Figure(p.EnergyResidual)} at {Figure(p.SuctionPa, "G5")} and "
                    + $"{Figure(p.DischargePa, "G5")} Pa"
            );

    /// <summary>A figure for who looks into the solver: the same in every language.</summary>
    private static Phrase Figure(double value, string digits = "G3") =>
        Phrase.Verbatim(value.ToString(digits, System.Globalization.CultureInfo.InvariantCulture));

    private LoopResult Make(
        LoopState state,
        LoopRegimes regimes,
        LoopReadings? readings,
        LoopBalance balance,
        Phrase? reason,
        in LoopPoint point
    )
    {
        if (readings is not null && !(balance.Worst <= MostOpen))
            (state, readings, reason) = (
                LoopState.NotClosed,
                null,
                Phrase.Of($"the balances of the state found close to {Figure(balance.Worst)} only")
            );
        if (readings is { IsFinite: false })
            (state, readings, reason) = (LoopState.NotClosed, null, Phrase.Words("a reading came out as no number"));
        var report = new SolverReport(
            _trace.Marches,
            _trace.Marches * LoopMarch.LookUps,
            _trace.NewtonSteps,
            _trace.Rung,
            reason
        );
        return new LoopResult(state, regimes, readings, balance, report, _case.StaticPa + StandingAir(), point);
    }

    private double StandingAir() => _faults.AirExcessPa * _conditions.AmbientK / 298.15;
}
