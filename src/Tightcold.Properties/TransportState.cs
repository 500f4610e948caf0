namespace Tightcold.Properties;

/// <summary>Transport properties of one single-phase state. Null where no published correlation is held, or where none
/// has a finite value.</summary>
/// <param name="ViscosityPaS">Dynamic viscosity, Pa s.</param>
/// <param name="ConductivityWPerMK">Thermal conductivity, W/(m K), critical enhancement included.</param>
public readonly record struct TransportState(double? ViscosityPaS, double? ConductivityWPerMK);
