using System.Collections.Immutable;

namespace Tightcold.Procedures.Rules;

/// <summary>What the law of a place says of an act of this person.</summary>
/// <param name="Act">Which.</param>
/// <param name="Who">For whom the person works.</param>
/// <param name="Ruling">The strictest of the lines that settle the act; <see cref="Ruling.NotKnown"/> when none
/// does.</param>
/// <param name="Line">That line, to show where the act is; null when the book has none.</param>
/// <param name="Lines">All that bear on it, the settling one first.</param>
public sealed record RuleAnswer(Act Act, Who Who, Ruling Ruling, RuleLine? Line, ImmutableArray<RuleLine> Lines)
{
    /// <summary>Whether the act may stand as the next step without a word of the law: never when it is forbidden, and
    /// only for the qualified where the law asks for that.</summary>
    /// <param name="qualified">The person holds what the place asks for, as far as is written down.</param>
    public bool MayBeOffered(bool qualified) =>
        Ruling switch
        {
            Ruling.Forbidden => false,
            Ruling.Qualified => qualified,
            // What nobody read of letting out is no leave to do it.
            _ => Act != Act.Vent || Ruling == Ruling.Allowed,
        };
}
