using System.Collections.Immutable;
using Tightcold.Diagnosis.Measurement;
using Tightcold.Diagnosis.Priors;
using Tightcold.Loop.Faults;
using Tightcold.Procedures.Substances;
using Tightcold.Quantities;

namespace Tightcold.Diagnosis.Faults;

/// <summary>
/// What can be wrong, each worth a repair of its own and in a file of its own. Slight wear that no one would mend is not
/// a fault here but part of the spread of healthy cars. Weights, odds and words are trade practice
/// (docs/physics/diagnosis.md); none is a workshop's count.
/// </summary>
public sealed partial class Fault : Row<Fault>
{
    private Fault(int order, string key, [Said] string name)
        : base(order, key, name) { }

    /// <summary>How common it is beside the other faults.</summary>
    public required double Weight { get; init; }

    /// <summary>Factors on the weight by why the reading was taken.</summary>
    public ImmutableArray<(ReadingReason Why, double Factor)> Because { get; init; } = [];

    /// <summary>Other faults that it occurs together with.</summary>
    public ImmutableArray<Companion> With { get; init; } = [];

    /// <summary>Whether it can be in this car at all.</summary>
    public Func<CarKnowledge, bool> Fits { get; init; } = _ => true;

    /// <summary>From “worth mending” to the worst, in the fault's own measure: a share lost from 0 to 1, Pa of air, kg of
    /// oil, Pa of switch point.</summary>
    public SeverityRange Severities { get; init; } = MostlySmall(0, 1);

    /// <summary>What it does to the modelled circuit: severity, and a form that is standard normal.</summary>
    internal Func<LoopFaults, double, double, LoopFaults> Apply { get; init; } = (loop, _, _) => loop;

    /// <summary>In place of that where a person asks for it as always there; null for the same.</summary>
    internal Func<LoopFaults, double, LoopFaults>? Always { get; init; }

    /// <summary>What it does from time to time; null for what is always there.</summary>
    internal Func<LoopFaults, double, LoopFaults>? Attack { get; init; }

    /// <summary>Charge over the label's where the fault is one of charge, from an even number and whether it is alone; else
    /// null.</summary>
    internal Func<double, bool, double>? Charge { get; init; }

    /// <summary>Factor on its odds where the clutch was seen pulled in.</summary>
    internal double PulledIn { get; init; } = 1;

    /// <summary>What it does to the odds of what is looked at, felt or tried; false where it says nothing of that
    /// look.</summary>
    internal SignRule Signs { get; init; } = (_, _, _) => false;

    /// <summary>Its own measure in words.</summary>
    public Func<double, double, Phrase> HowBad { get; init; } =
        (low, high) => Phrase.Of($"{Shares(low, high)} of the way to the worst");

    /// <summary>What to do when this is it.</summary>
    public required Mending Mend { get; init; }

    /// <summary>What can hurt in acting on it; empty for nothing.</summary>
    [Said]
    public string Caution { get; init; } = "";

    public Danger Danger { get; init; } = Danger.Spoils;

    /// <summary>As a person can ask for it under “what should I see?”.</summary>
    public ImmutableArray<NamedFault> Asked { get; init; } = [];

    private static SeverityRange Even(double least, double most) => new(least, most, SeverityLaw.Even);

    private static SeverityRange AreaLeft(double least, double most) => new(least, most, SeverityLaw.AreaLeft);

    private static SeverityRange MostlySmall(double least, double most) => new(least, most, SeverityLaw.MostlySmall);

    private static (Measure Low, Measure High) Shares(double low, double high) =>
        (Measure.Ratio(low), Measure.Ratio(high));

    private static (Measure Low, Measure High) Pressures(double low, double high) =>
        (new(QuantityKind.PressureDifference, low), new(QuantityKind.PressureDifference, high));

    private static Phrase Nothing(double low, double high) => Phrase.Empty;

    private static bool Set(Span<double> odds, params ReadOnlySpan<double> all)
    {
        all.CopyTo(odds);
        return true;
    }

    /// <summary>Of two outcomes.</summary>
    private static bool Set(Span<double> odds, double first) => Set(odds, first, 1 - first);

    /// <summary>The first two of three outcomes; the last takes the rest.</summary>
    private static bool First(Span<double> odds, double one, double two) => Set(odds, one, two, 1 - one - two);

    /// <summary>The last two of three outcomes; the first takes the rest.</summary>
    private static bool Last(Span<double> odds, double two, double three) => Set(odds, 1 - two - three, two, three);
}
