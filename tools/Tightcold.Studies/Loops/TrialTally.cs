using System.Collections.Immutable;
using Tightcold.Loop.Results;

namespace Tightcold.Studies.Loops;

/// <summary>Asks a model many questions and counts what came of it.</summary>
public sealed class TrialTally
{
    private readonly SortedDictionary<LoopState, long> _states = [];
    private readonly long[] _rungs = new long[5];
    private readonly long[] _marches = new long[MostMarches + 1];

    private const int MostMarches = 4000;

    /// <summary>Closure that every answer must meet.</summary>
    public const double Closure = 1e-6;

    public long Questions { get; private set; }

    /// <summary>Answers that do not close, hold a number that is none, or have no readings though a state that
    /// should.</summary>
    public long Broken { get; private set; }

    /// <summary>The largest closure error of any answer.</summary>
    public double WorstClosure { get; private set; }

    public ImmutableArray<(LoopState State, long Count)> States => [.. _states.Select(pair => (pair.Key, pair.Value))];

    /// <summary>Answers by the rung of the solver that found them.</summary>
    public ImmutableArray<long> Rungs => [.. _rungs];

    /// <summary>The number of walks round the circuit that a share of the solves stayed within.</summary>
    public int MarchesWithin(double share)
    {
        var wanted = share * _marches.Sum();
        long sum = 0;
        for (var i = 0; i <= MostMarches; i++)
        {
            sum += _marches[i];
            if (sum >= wanted)
                return i;
        }

        return MostMarches;
    }

    /// <summary>Asks and counts.</summary>
    public LoopResult Ask(TrialQuestion question)
    {
        ArgumentNullException.ThrowIfNull(question);
        var result = question.Model.Solve(question.Conditions, question.ChargeKg, question.Faults);
        Questions++;
        _states[result.State] = _states.GetValueOrDefault(result.State) + 1;
        _rungs[result.Solver.Rung]++;
        _marches[Math.Min(result.Solver.Marches, MostMarches)]++;
        if (result.State == LoopState.NotClosed)
        {
            if (result.Readings is not null || result.Solver.Reason is null)
                Broken++;
            return result;
        }

        var closure = result.Balance.Worst;
        if (result.Readings is not { IsFinite: true } || !(closure <= Closure))
            Broken++;
        if (closure > WorstClosure)
            WorstClosure = closure;
        return result;
    }
}
