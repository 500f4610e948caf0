using Tightcold.Picture.Cold;
using Tightcold.Picture.Tight;

namespace Tightcold.Pages.Words;

/// <summary>The two proofs in one word each, for the head of the card: read off the picture, as every page
/// does.</summary>
public static class ProofWords
{
    public static string Of(TightOutcome tight) =>
        tight switch
        {
            TightOutcome.Proven => "yes",
            TightOutcome.Leaks => "no",
            TightOutcome.Likely => "likely, not proven",
            _ => "not proven",
        };

    public static string Of(ColdOutcome? cold) =>
        cold switch
        {
            ColdOutcome.Proven => "yes",
            ColdOutcome.NotCold or ColdOutcome.WarmAgain => "no",
            _ => "not proven",
        };
}
