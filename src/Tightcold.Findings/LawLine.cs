using Tightcold.Procedures.Rules;
using Tightcold.Quantities;

namespace Tightcold.Findings;

/// <summary>What the law of the place says of an act, where the act is.</summary>
/// <param name="Act">Which.</param>
/// <param name="Says">One line.</param>
/// <param name="ReadOn">Instrument, article, since when, how sure.</param>
/// <param name="Keeps">It keeps this person from the act as far as is written down.</param>
public sealed record LawLine(Act Act, Phrase Says, Phrase ReadOn, bool Keeps);
