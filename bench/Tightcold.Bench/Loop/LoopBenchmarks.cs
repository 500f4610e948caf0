using BenchmarkDotNet.Attributes;
using Tightcold.Loop;
using Tightcold.Loop.Designs;
using Tightcold.Loop.Faults;
using Tightcold.Loop.Refrigerant;
using Tightcold.Loop.Results;
using Tightcold.Loop.Solving;
using Tightcold.Studies.Loops;

namespace Tightcold.Bench.Loop;

/// <summary>One question to the loop model, as a person, the inference and the soak ask it.</summary>
[MinColumn]
[MedianColumn]
public class LoopBenchmarks
{
    private readonly LoopModel _valve = new(
        LoopDesigns.Of(SizeClass.Medium, CompressorKind.FixedWithFinThermostat, ExpansionKind.ExpansionValve, "R134a")
    );
    private readonly LoopConditions _day = LoopConditions.DoorsOpen(305.15, 0.5);
    private readonly LoopFaults _dirty = new() { CondenserFouling = 0.3 };
    private readonly TrialQuestion[] _questions = new TrialQuestion[4096];
    private readonly RefrigerantTable _table = RefrigerantTables.For("R134a");
    private LoopCase _case;
    private LoopStart? _near;
    private int _next;

    [GlobalSetup]
    public void Prepare()
    {
        var trials = new TrialQuestions(3);
        for (var i = 0; i < _questions.Length; i++)
            _questions[i] = trials.Next();
        _near = _valve.Solve(_day).Start;
        _case = LoopCaseBuilder.Build(_table, _valve.Design, _day, 0.57, LoopFaults.None);
    }

    [Benchmark(Description = "loop solve, healthy car")]
    public LoopResult Healthy() => _valve.Solve(_day);

    [Benchmark(Description = "loop solve, dirty condenser, from the healthy answer")]
    public LoopResult Near() => _valve.Solve(_day, _valve.Design.LabelChargeKg, _dirty, _near);

    [Benchmark(Description = "loop solve, random question of the whole range")]
    public LoopResult Random()
    {
        var q = _questions[_next++ & 4095];
        return q.Model.Solve(q.Conditions, q.ChargeKg, q.Faults);
    }

    [Benchmark(Description = "loop, one walk round the circuit")]
    public double March()
    {
        LoopMarch.Evaluate(_case, 12.4, 14.2, 4.05e5, out var point);
        return point.ChargeResidual;
    }

    [Benchmark(Description = "loop, one look-up of all columns")]
    public double LookUp()
    {
        _table.Row(12.4 + (0.001 * (_next++ & 1023)), out var row);
        return row.TemperatureK;
    }
}
