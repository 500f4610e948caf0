using Tightcold.App.Units;
using Tightcold.Quantities;
using Tightcold.Tongues;

namespace Tightcold.Cli.Show;

/// <summary>Words of the pure rooms as a line shows them: a label is looked up, a phrase rendered.</summary>
internal static class Words
{
    public static string Says(this IMeasureFormat units, [Said] string words) => units.Tongue.Say(words);

    public static string Says(this IMeasureFormat units, Phrase words) => words.Render(units);

    /// <summary>A sentence that has no measure in it.</summary>
    public static string Plain(Phrase sentence) => sentence.Render(new ReaderUnits(UnitSystem.Metric, Say.Tongue));
}
