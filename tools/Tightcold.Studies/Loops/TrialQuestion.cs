using Tightcold.Loop;
using Tightcold.Loop.Faults;

namespace Tightcold.Studies.Loops;

/// <summary>One randomly drawn question to a model.</summary>
public sealed record TrialQuestion(LoopModel Model, LoopConditions Conditions, double ChargeKg, LoopFaults Faults);
