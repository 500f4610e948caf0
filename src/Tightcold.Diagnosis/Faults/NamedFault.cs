using System.Collections.Immutable;
using Tightcold.Loop.Faults;
using Tightcold.Quantities;

namespace Tightcold.Diagnosis.Faults;

/// <summary>A fault a person can ask about, in the trade's words.</summary>
/// <param name="Key">Name on the command line and in files.</param>
/// <param name="Name">What a person reads.</param>
/// <param name="UsualSeverity">Severity if none is given, 0 to 1.</param>
/// <param name="Worst">The fault's own measure at a severity of 1.</param>
/// <param name="Form">The form that is meant, where the fault has several.</param>
/// <param name="ChargeShare">On the charge, by the severity.</param>
public sealed record NamedFault(
    string Key,
    [Said] string Name,
    double UsualSeverity,
    double Worst = 1,
    double Form = 0,
    Func<double, double>? ChargeShare = null
)
{
    private Fault Fault { get; init; } = null!;

    public static ImmutableArray<NamedFault> All =>
        [.. Fault.All.SelectMany(fault => fault.Asked.Select(asked => asked with { Fault = fault }))];

    /// <summary>Adds it, at a severity of 0 to 1, to a car's faults.</summary>
    public LoopFaults Apply(LoopFaults loop, double severity) =>
        Fault.Always?.Invoke(loop, severity) ?? Fault.Apply(loop, Worst * severity, Form);

    public static NamedFault? Find(string key) =>
        All.FirstOrDefault(fault => string.Equals(fault.Key, key, StringComparison.OrdinalIgnoreCase));
}
