using System.Collections.Immutable;
using Tightcold.Diagnosis.Inference;
using Tightcold.Diagnosis.Measurement;
using Tightcold.Quantities;

namespace Tightcold.Diagnosis.NextTest.Tests;

/// <summary>What can be done next to learn more, with what a person working alone has; each in a file of its own. Its
/// number also makes its chance repeatable. Minutes and words are common practice.</summary>
public sealed partial class TestKind : Row<TestKind>
{
    private TestKind(int order, string key, [Said] string name, double minutes)
        : base(order, key, name)
    {
        Minutes = minutes;
        Plans = ByItself;
    }

    /// <summary>Own time, waiting included.</summary>
    public double Minutes { get; }

    /// <summary>Outlay in the price of a can of refrigerant; assumed.</summary>
    internal double Money { get; init; }

    /// <summary>One more thing read of the car as it ran last; else null.</summary>
    internal Channel? Reads { get; init; }

    /// <summary>The first outcome of what is looked at, felt or tried; null where numbers are read.</summary>
    public Sign? Looks { get; init; }

    /// <summary>How it would be done as things stand: nothing where it adds nothing.</summary>
    internal Func<TestKind, Situation, IEnumerable<TestPlan>> Plans { get; init; }

    /// <summary>Key of the test in whose run it is done, when that is; its drawn chance goes on.</summary>
    internal string? InTheRunOf { get; init; }

    /// <summary>Still worth doing with next to nothing inside, where no compressor is run.</summary>
    internal bool WhenEmpty { get; init; }

    /// <summary>The compressor runs in it.</summary>
    public bool Runs { get; init; } = true;

    /// <summary>It takes the refrigerant out.</summary>
    public bool TakesOut { get; init; }

    /// <summary>What is read where it is no channel of a running car; else null.</summary>
    public QuantityKind? Shows { get; init; }

    /// <summary>Kind of entry of the journal that takes it down; null for what was looked at, or a running
    /// reading.</summary>
    public string? Entry { get; init; }

    /// <summary>Field to begin at; null where none stands out.</summary>
    public string? Begins { get; init; }

    /// <summary>What the entry holds already.</summary>
    public ImmutableArray<(string Field, string Text)> Known { get; init; } = [];

    /// <summary>At a way of running.</summary>
    private TestPlan At(OperatingPoint point, params ImmutableArray<Channel> channels) =>
        new(this, Minutes, Money, channels) { Point = point };

    private TestPlan AtRest(Func<SampledCars, int, CarSimulator.Car, Outcome> outcome) =>
        new(this, Minutes, Money, []) { Outcome = outcome };

    private static IEnumerable<TestPlan> ByItself(TestKind test, Situation now)
    {
        if (test.Reads is { } channel && now.Lacks(channel))
            return [test.At(now.Same, channel)];
        if (test.Looks is { } look && SignGroups.Of(look) is var group && !now.Evidence.Signs.Any(group.Contains))
            return [new(test, test.Minutes, test.Money, []) { Signs = group }];
        return [];
    }
}
