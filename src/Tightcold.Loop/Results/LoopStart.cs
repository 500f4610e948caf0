namespace Tightcold.Loop.Results;

/// <summary>Where a solve begins: the unknowns of the steady state, of an answer to nearly the same question or
/// guessed. It costs or saves work, never the answer.</summary>
/// <param name="LogSuction">ln of the refrigerant's pressure at the compressor's inlet, Pa absolute.</param>
/// <param name="LogDischarge">ln of the refrigerant's own pressure at its outlet, Pa absolute.</param>
/// <param name="OutletEnthalpy">At the evaporator's outlet, J/kg, zero of the refrigerant's reference equation.</param>
public readonly record struct LoopStart(double LogSuction, double LogDischarge, double OutletEnthalpy);
