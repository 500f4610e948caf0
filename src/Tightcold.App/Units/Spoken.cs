using Tightcold.Quantities;
using Tightcold.Tongues;

namespace Tightcold.App.Units;

/// <summary>A phrase that holds no quantity, in the language of who asks: it needs no reader's units.</summary>
internal static class Spoken
{
    public static string Of(Phrase phrase)
    {
        ArgumentNullException.ThrowIfNull(phrase);
        return phrase.Render(new ReaderUnits(UnitSystem.Metric, Say.Tongue));
    }
}
