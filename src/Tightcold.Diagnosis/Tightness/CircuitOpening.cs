namespace Tightcold.Diagnosis.Tightness;

/// <summary>A stretch in which the circuit stood open to air.</summary>
/// <param name="Time">When it was closed again, on the clock of all evidence.</param>
/// <param name="OpenSeconds">How long.</param>
/// <param name="JointsOpened">How many joints were undone, 1 and more.</param>
public readonly record struct CircuitOpening(double Time, double OpenSeconds, int JointsOpened);
