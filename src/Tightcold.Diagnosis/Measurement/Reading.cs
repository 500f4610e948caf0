namespace Tightcold.Diagnosis.Measurement;

/// <summary>One number read off an instrument.</summary>
/// <param name="Channel">What it was held to.</param>
/// <param name="Value">SI, pressures absolute.</param>
/// <param name="SigmaInstrument">Standard deviation of the instrument, most of it the same each time.</param>
/// <param name="Step">Smallest step of its scale, SI; 0 where it does not matter.</param>
public readonly record struct Reading(Channel Channel, double Value, double SigmaInstrument, double Step = 0);
