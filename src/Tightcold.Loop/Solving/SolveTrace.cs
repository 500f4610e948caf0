namespace Tightcold.Loop.Solving;

/// <summary>What a solve cost and how it went.</summary>
internal struct SolveTrace
{
    public SolveEnd End;
    public int Marches;
    public int NewtonSteps;

    /// <summary>0 the first Newton run, 1 a later one, 2 a walk in charge, 3 charge in a bracket, 4 brackets at every
    /// level.</summary>
    public int Rung;

    /// <summary>Where the last Newton run stood when it gave up.</summary>
    public LoopPoint Last;
}
