using Tightcold.Quantities;

namespace Tightcold.Loop.Results;

/// <summary>What an answer cost and how it was reached.</summary>
/// <param name="Marches">Walks round the circuit.</param>
/// <param name="PropertyCalls">Look-ups of all columns of the refrigerant table.</param>
/// <param name="NewtonSteps">Newton steps on all three unknowns.</param>
/// <param name="Rung">0 the first Newton run, 1 a later one, 2 a walk from another charge, 3 charge in a bracket, 4
/// brackets at every level.</param>
/// <param name="Reason">Why there is no answer; null where there is one.</param>
public readonly record struct SolverReport(int Marches, int PropertyCalls, int NewtonSteps, int Rung, Phrase? Reason);
