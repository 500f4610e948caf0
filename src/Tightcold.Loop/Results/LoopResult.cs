using System.Collections.Immutable;
using Tightcold.Loop.Solving;

namespace Tightcold.Loop.Results;

/// <summary>The model's answer: a named state, readings unless there are none, and how well it closes.</summary>
public sealed class LoopResult
{
    private readonly LoopPoint _point;

    internal LoopResult(
        LoopState state,
        LoopRegimes regimes,
        LoopReadings? readings,
        LoopBalance balance,
        SolverReport solver,
        double staticPa,
        in LoopPoint point
    )
    {
        State = state;
        Regimes = regimes;
        Readings = readings;
        Balance = balance;
        Solver = solver;
        StaticPa = staticPa;
        _point = point;
    }

    public LoopState State { get; }

    public LoopRegimes Regimes { get; }

    /// <summary>Null exactly where the state is <see cref="LoopState.NotClosed"/>.</summary>
    public LoopReadings? Readings { get; }

    /// <summary>Closure of the running state; all zero where the compressor is off.</summary>
    public LoopBalance Balance { get; }

    public SolverReport Solver { get; }

    /// <summary>What both gauges would show with the car parked and everything at ambient temperature, Pa
    /// absolute.</summary>
    public double StaticPa { get; }

    /// <summary>The corners of the running cycle in the order of flow; empty where nothing runs or nothing was
    /// found.</summary>
    public ImmutableArray<CyclePoint> Cycle =>
        State is LoopState.Off or LoopState.MostlyAir or LoopState.NotClosed
            ? []
            :
            [
                new("evaporator outlet", _point.EvaporatorPa, _point.H1, _point.EvaporatorOutK),
                new("compressor inlet", _point.SuctionPa, _point.HSuction, _point.SuctionK),
                new("compressor outlet", _point.DischargePa, _point.HDischarge, _point.DischargeK),
                new("condenser outlet", _point.CondenserPa, _point.H3, _point.CondenserOutK),
                new("throttle inlet", _point.ValveInletPa, _point.H4, _point.ValveInletK),
                new("evaporator inlet", _point.EvaporatorPa, _point.H4, _point.EvaporatingK),
            ];

    /// <summary>To start a nearly equal question from; null where nothing runs or nothing was found.</summary>
    public LoopStart? Start =>
        State is LoopState.Off or LoopState.MostlyAir or LoopState.NotClosed ? null : _point.Start;
}
