using System.Collections.Immutable;
using Tightcold.App.Units;
using Tightcold.Diagnosis.Faults;
using Tightcold.Loop.Results;
using Tightcold.Quantities;
using Tightcold.Tongues;

namespace Tightcold.App.Expectation;

/// <summary>One column of "what should I see?": a sound car, or one with chosen faults.</summary>
/// <param name="Key">"healthy", or the faults' keys.</param>
/// <param name="Faults">The chosen faults; none for a sound car.</param>
/// <param name="State">What the model says the circuit does.</param>
/// <param name="Readings">Each reading of the ordinary car and the range over what is not known of this one; never
/// called measured.</param>
/// <param name="Answer">The model's own answer for the ordinary car, for diagrams.</param>
public sealed record ExpectedColumn(
    string Key,
    ImmutableArray<NamedFault> Faults,
    LoopState State,
    ImmutableArray<Estimate> Readings,
    LoopResult Answer
)
{
    /// <summary>What a person reads above it, in the language of who asks.</summary>
    public string Title =>
        Faults.IsEmpty
            ? Say.It("healthy")
            : Faults.Select(fault => Say.It(fault.Name)).Aggregate((all, one) => Say.It($"{all} and {one}"));

    /// <summary>What the circuit does, for a person, in the language of who asks.</summary>
    public string StateWords => Spoken.Of(Expectation.StateWords.Of(Answer));
}
