using Tightcold.Picture.Tight;
using Tightcold.Quantities;
using static Tightcold.Picture.Pressures.Evidence;

namespace Tightcold.Findings.Steps;

/// <summary>The first proof in words; one sentence for it, the same on every page.</summary>
public static class TightWords
{
    /// <summary>“It will still cool in two summers: 93 % sure.”</summary>
    public static Phrase Sure(TightPicture tight)
    {
        ArgumentNullException.ThrowIfNull(tight);
        return Phrase.Of($"It will still cool in two summers: {Odds(tight.Odds)} sure.");
    }
}
