using Tightcold.Diagnosis.Faults;

namespace Tightcold.App.Expectation;

/// <summary>A fault with its severity, 0 to 1.</summary>
public sealed record AskedFault(NamedFault Fault, double Severity);
