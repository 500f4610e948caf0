using System.Collections.Immutable;
using Tightcold.Loop.Results;
using Tightcold.Quantities;

namespace Tightcold.App.Expectation;

/// <summary>One column of "what should I see?": a sound car, or one with chosen faults.</summary>
/// <param name="Key">"healthy", or the faults' keys.</param>
/// <param name="Title">What a person reads above it.</param>
/// <param name="State">What the model says the circuit does.</param>
/// <param name="StateWords">The same for a person.</param>
/// <param name="Readings">Each reading of the ordinary car and the range over what is not known of this one; never
/// called measured.</param>
/// <param name="Answer">The model's own answer for the ordinary car, for diagrams.</param>
public sealed record ExpectedColumn(
    string Key,
    string Title,
    LoopState State,
    string StateWords,
    ImmutableArray<Estimate> Readings,
    LoopResult Answer
);
