using System.Collections.Immutable;
using System.Globalization;
using System.Security;
using System.Text;
using Tightcold.Findings.Steps;
using Tightcold.Jobs.Journals;
using Tightcold.Picture.Leaks;

namespace Tightcold.App.Diagrams;

/// <summary>The circuit as a ring of spots in the order the refrigerant passes them, with the parts drawn inside.
/// Standing by shape and sign, odds by number; a place that shows it may colour the classes. Lies upright, so that it
/// fits a phone and leaves a fingertip to each spot.</summary>
public static class CircuitDiagram
{
    /// <param name="record">The job.</param>
    /// <param name="view">Its leaks.</param>
    /// <param name="link">Where a tap on a spot leads; null for a drawing on paper.</param>
    public static string Draw(JobRecord record, LeakView view, Func<string, string>? link = null)
    {
        ArgumentNullException.ThrowIfNull(record);
        var spots = SpotView.Of(view);
        var ring = new CircuitRing(Math.Max(1, spots.Length));
        var svg = new StringBuilder();
        void Line(FormattableString text) => svg.Append(text.ToString(CultureInfo.InvariantCulture)).Append('\n');
        Line(
            $"<svg xmlns=\"http://www.w3.org/2000/svg\" class=\"circuit\" viewBox=\"0 0 {CircuitRing.Width:0} {ring.Height:0}\" role=\"{(link is null ? "img" : "group")}\" font-family=\"sans-serif\" font-size=\"13\" fill=\"currentColor\">"
        );
        Line(
            $"<title>Circuit of {Escape(record.Car.Label)}, with the odds that each spot leaks</title><desc>{Escape(InWords(view))}</desc>"
        );
        Pipes(Line, ring, spots);
        CircuitParts.Draw(Line, ring, spots.Select((spot, i) => (spot.Name, ring.Point(ring.At(i)).Y)));
        for (var i = 0; i < spots.Length; i++)
            Spot(Line, ring, spots[i], i, link);
        svg.Append("</svg>\n");
        return svg.ToString();
    }

    /// <summary>The same for who cannot see it.</summary>
    public static string InWords(LeakView view)
    {
        ArgumentNullException.ThrowIfNull(view);
        return string.Join(
                "; ",
                SpotView
                    .Of(view)
                    .Select(
                        (spot, i) =>
                            string.Create(
                                CultureInfo.InvariantCulture,
                                $"{i + 1} {spot.Name}: {SpotWords.Of(spot)}, leaks with {Odds(spot.Belief.Leaking)}"
                            )
                    )
            ) + $"; another leak, large or small, remains unfound with {Odds(view.Belief.AnotherRemains)}.";
    }

    /// <summary>Odds for a person: never nought and never certain.</summary>
    public static string Odds(double odds) =>
        string.Create(CultureInfo.InvariantCulture, $"{100 * Math.Clamp(odds, 0.01, 0.99):0} %");

    /// <summary>High side from the compressor to the expansion device, low side from there on; a break in the pipe and
    /// a word at each, colour comes third.</summary>
    private static void Pipes(Action<FormattableString> line, CircuitRing ring, ImmutableArray<SpotView> spots)
    {
        int Index(Func<string, bool> named, int otherwise) =>
            spots.IndexOf(spots.FirstOrDefault(spot => named(spot.Name))!) is >= 0 and var at ? at : otherwise;
        var compressor = ring.At(Index(name => name.StartsWith("compressor body", StringComparison.Ordinal), 0));
        var device = ring.At(
            Index(
                name =>
                    name.StartsWith("expansion", StringComparison.Ordinal)
                    || name.StartsWith("orifice", StringComparison.Ordinal),
                spots.Length * 2 / 3
            )
        );
        line(
            $"<path class=\"pipe high-pipe\" d=\"{ring.Path(compressor, device)}\" fill=\"none\" stroke=\"currentColor\" stroke-width=\"5\"/>"
        );
        line(
            $"<path class=\"pipe low-pipe\" d=\"{ring.Path(device, ring.Length)}\" fill=\"none\" stroke=\"currentColor\" stroke-width=\"5\" stroke-dasharray=\"9 4\"/>"
        );
        line(
            $"<path class=\"pipe low-pipe\" d=\"{ring.Path(0, compressor)}\" fill=\"none\" stroke=\"currentColor\" stroke-width=\"5\" stroke-dasharray=\"9 4\"/>"
        );
    }

    private static void Spot(
        Action<FormattableString> line,
        CircuitRing ring,
        SpotView spot,
        int index,
        Func<string, string>? link
    )
    {
        var (x, y, outX, outY) = ring.Point(ring.At(index));
        var odds = Odds(spot.Belief.Leaking);
        // For the finger only: the list beside the map is what the keyboard and a screen reader use.
        if (link is not null)
            line($"<a class=\"spot\" href=\"{Escape(link(spot.Name))}\" tabindex=\"-1\" aria-hidden=\"true\">");
        line($"<circle cx=\"{x:0.#}\" cy=\"{y:0.#}\" r=\"30\" fill-opacity=\"0\"/>");
        CircuitMark.Draw(line, spot.Standing, x, y);
        // The number stands outside the ring, the odds inside, where there is something to say.
        line(
            $"<text x=\"{x + (27 * outX):0.#}\" y=\"{y + (27 * outY) + 5:0.#}\" text-anchor=\"middle\" font-size=\"15\" font-weight=\"bold\">{index + 1}</text>"
        );
        if (spot.Belief.Leaking >= 0.05)
            line(
                $"<text x=\"{x - (22 * outX):0.#}\" y=\"{y - (30 * outY) + 5:0.#}\" text-anchor=\"{(outX == 0 ? "middle" : outX < 0 ? "start" : "end")}\" font-weight=\"bold\">{Escape(odds)}</text>"
            );
        if (link is not null)
            line($"</a>");
    }

    private static string Escape(string text) => SecurityElement.Escape(text);
}
