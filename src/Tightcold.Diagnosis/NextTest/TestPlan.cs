using System.Collections.Immutable;
using Tightcold.Diagnosis.Inference;
using Tightcold.Diagnosis.Measurement;
using Tightcold.Diagnosis.NextTest.Tests;

namespace Tightcold.Diagnosis.NextTest;

/// <summary>One test: how the car is run, what is read, what it takes.</summary>
/// <param name="Kind">Which test.</param>
/// <param name="Minutes">Own time, waiting included; common practice.</param>
/// <param name="Money">Outlay in the price of a can of refrigerant; assumed.</param>
/// <param name="Channels">What is read.</param>
internal sealed record TestPlan(TestKind Kind, double Minutes, double Money, ImmutableArray<Channel> Channels)
{
    /// <summary>What may be found, where the test is looked, felt or tried; empty where numbers are read.</summary>
    public ImmutableArray<Sign> Signs { get; init; } = [];

    /// <summary>The point to run at; null where the test runs no point of its own.</summary>
    public OperatingPoint? Point { get; init; }

    /// <summary>Odds of what may be seen there, from a modelled row; null where channels are read.</summary>
    public Func<double[], double[]>? Seen { get; init; }

    /// <summary>What a car shows at rest; null for a test that runs.</summary>
    public Func<SampledCars, int, CarSimulator.Car, Outcome>? Outcome { get; init; }

    /// <summary>A test that would be stopped before its outcome is none; Pa absolute.</summary>
    public double? StopsAbovePa { get; init; }

    /// <summary>Every test that adds to what was read, but for those done in the run of another.</summary>
    public static IEnumerable<TestPlan> For(Situation now) =>
        TestKind
            .All.Where(test => test.InTheRunOf is null && (test.WhenEmpty || !now.NearlyEmpty))
            .SelectMany(test => test.Plans(test, now));
}
