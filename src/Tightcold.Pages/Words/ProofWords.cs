using Tightcold.Picture.Cold;
using Tightcold.Picture.Tight;
using Tightcold.Tongues;

namespace Tightcold.Pages.Words;

/// <summary>The two proofs in one word each, for the head of the card: read off the picture, as every page
/// does.</summary>
public static class ProofWords
{
    public static string Of(TightOutcome tight) =>
        Say.It(
            tight switch
            {
                TightOutcome.Proven => "yes",
                TightOutcome.Leaks => "no",
                TightOutcome.Likely => "likely, not proven",
                _ => "not proven",
            }
        );

    public static string Of(ColdOutcome? cold) =>
        Say.It(
            cold switch
            {
                ColdOutcome.Proven => "yes",
                ColdOutcome.NotCold or ColdOutcome.WarmAgain => "no",
                _ => "not proven",
            }
        );

    /// <summary>It was shown to be so, or not to be so.</summary>
    public static bool IsDecided(TightOutcome tight) => tight is TightOutcome.Proven or TightOutcome.Leaks;

    public static bool IsDecided(ColdOutcome? cold) =>
        cold is ColdOutcome.Proven or ColdOutcome.NotCold or ColdOutcome.WarmAgain;
}
