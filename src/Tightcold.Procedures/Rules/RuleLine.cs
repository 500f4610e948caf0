using System.Collections.Frozen;
using System.Collections.Immutable;
using Tightcold.Quantities;

namespace Tightcold.Procedures.Rules;

/// <summary>One line of the book: a dated fact about the law of a place, in our own words. Never legal
/// advice.</summary>
/// <param name="Question">What it answers.</param>
/// <param name="Binds">Whom: <see cref="Who.NotSaid"/> for everybody.</param>
/// <param name="Ruling">What it says of the act.</param>
/// <param name="Says">One line of at most <see cref="LongestLine"/> letters.</param>
/// <param name="Instrument">The law or standard.</param>
/// <param name="Article">Where in it; empty only where no text was read.</param>
/// <param name="InForce">Since when, ISO 8601, as exact as known; empty only where no text was read.</param>
/// <param name="Read">When we read or looked for it, ISO 8601.</param>
/// <param name="Sure">How well it is known.</param>
/// <param name="Seen">What was read, such as “agency's fact sheet”; empty for memory.</param>
/// <param name="Ask">What to ask of whom where no text could be read, or the text may have changed; else empty.</param>
/// <param name="Limit">The case it is about; a line with a limit does not settle the whole act. Else empty.</param>
/// <param name="Refrigerants">Those it is about; empty for all.</param>
/// <param name="Years">How long a record is kept or how often a cylinder is tested; null where that is not
/// said.</param>
/// <param name="Warming">The warming potential by refrigerant, where it is about that.</param>
/// <param name="Report">The one assessment report those stand on, such as AR4; else empty.</param>
/// <param name="Asks">What a record must hold, where it is about that.</param>
public sealed record RuleLine(
    Question Question,
    Who Binds,
    Ruling Ruling,
    [Said] string Says,
    [Said] string Instrument,
    [Said] string Article,
    string InForce,
    string Read,
    Sureness Sure,
    [Said] string Seen,
    [Said] string Ask,
    [Said] string Limit,
    ImmutableArray<string> Refrigerants,
    int? Years,
    FrozenDictionary<string, double> Warming,
    string Report,
    ImmutableArray<RecordItem> Asks
)
{
    /// <summary>So that a line stays a line on a phone.</summary>
    public const int LongestLine = 120;

    /// <summary>Whether it binds this person; who is not said may be either.</summary>
    public bool Meets(Who who) => Binds == Who.NotSaid || who == Who.NotSaid || Binds == who;

    /// <summary>Whether it is about this refrigerant; all lines are while the refrigerant is not known.</summary>
    public bool IsAbout(string? refrigerant) =>
        Refrigerants.IsEmpty || refrigerant is null || Refrigerants.Contains(refrigerant);
}
