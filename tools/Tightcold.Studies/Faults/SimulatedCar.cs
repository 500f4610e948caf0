using System.Collections.Immutable;
using Tightcold.Diagnosis.Faults;
using Tightcold.Diagnosis.Inference;
using Tightcold.Diagnosis.Measurement;
using Tightcold.Diagnosis.Priors;

namespace Tightcold.Studies.Faults;

/// <summary>An invented car whose fault is known, and what its owner's instruments showed. Model output, not
/// measured.</summary>
public sealed class SimulatedCar
{
    /// <summary>Key of the true explanation; <see cref="Hypothesis.NoneOfThese"/> where it is on no list.</summary>
    public required string Truth { get; init; }

    public required ImmutableArray<Fault> Faults { get; init; }

    public required double ChargeKg { get; init; }

    /// <summary>In the fault's own measure, in the order of <see cref="Faults"/>.</summary>
    public required ImmutableArray<double> Severities { get; init; }

    public required DiagnosisEvidence Evidence { get; init; }

    /// <summary>What this car would show at a point, with the same instruments and the same hidden errors.</summary>
    public Func<OperatingPoint, ImmutableArray<Channel>, Chance, OperatingPoint?> Read { get; init; } =
        (_, _, _) => null;

    /// <summary>What both gauges would show at rest, with the same instruments.</summary>
    public Func<double, Chance, StandingPressure>? Stand { get; init; }
}
