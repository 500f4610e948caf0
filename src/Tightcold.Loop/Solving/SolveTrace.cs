namespace Tightcold.Loop.Solving;

/// <summary>What a solve cost and how it went.</summary>
internal struct SolveTrace
{
    public SolveEnd End;
    public int Marches;
    public int NewtonSteps;

    /// <summary>0 the first Newton run, 1 a later one, 2 bracketed charge with Newton inside, 3 brackets at every level.</summary>
    public int Rung;
}
