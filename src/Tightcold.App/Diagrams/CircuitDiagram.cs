using System.Collections.Immutable;
using System.Globalization;
using System.Security;
using System.Text;
using Tightcold.App.Units;
using Tightcold.Findings.Steps;
using Tightcold.Jobs.Journals;
using Tightcold.Picture.Leaks;
using Tightcold.Tongues;

namespace Tightcold.App.Diagrams;

/// <summary>The circuit as a ring of spots in the order the refrigerant passes them, each with its name beside it.
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
            $"<title>{Escape(Say.It($"Circuit of {record.Car.Label}, with the odds that each spot leaks"))}</title><desc>{Escape(InWords(view))}</desc>"
        );
        Pipes(Line, ring, spots);
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
                            Say.It($"{i + 1} {Name(spot)}: {Stands(spot)}, leaks with {Odds(spot.Belief.Leaking)}")
                    )
            )
            + "; "
            + Say.It($"another leak, large or small, remains unfound with {Odds(view.Belief.AnotherRemains)}.");
    }

    private static string Name(SpotView spot) => Spoken.Of(SpotWords.Name(spot.Name));

    private static string Stands(SpotView spot) => Spoken.Of(SpotWords.Of(spot));

    /// <summary>Odds for a person: never nought and never certain.</summary>
    public static string Odds(double odds) =>
        string.Create(Say.Tongue.Culture, $"{100 * Math.Clamp(odds, 0.01, 0.99):0} %");

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
        Across(line, CircuitRing.Top, ring.Down, compressor, device);
        Across(line, ring.Bottom, ring.Length - 1, compressor, device);
    }

    /// <summary>The pipe that crosses at the head and at the foot carries the name of its side.</summary>
    private static void Across(Action<FormattableString> line, double y, double along, double compressor, double device)
    {
        var high = along > compressor && along < device;
        line(
            $"<text class=\"{(high ? "high-name" : "low-name")}\" x=\"{CircuitRing.Width / 2:0.#}\" y=\"{y + 20:0.#}\" text-anchor=\"middle\" font-weight=\"bold\">{Escape(high ? Say.It("high side, drawn through") : Say.It("low side, dashed"))}</text>"
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
        var (x, y, right) = ring.Point(ring.At(index));
        // For the finger only: the list beside the map is what the keyboard and a screen reader use.
        if (link is not null)
            line($"<a class=\"spot\" href=\"{Escape(link(spot.Name))}\" tabindex=\"-1\" aria-hidden=\"true\">");
        line(
            $"<rect x=\"{(right ? CircuitRing.Width / 2 : 0):0.#}\" y=\"{y - (CircuitRing.Apart / 2):0.#}\" width=\"{CircuitRing.Width / 2:0.#}\" height=\"{CircuitRing.Apart:0.#}\" fill-opacity=\"0\"/>"
        );
        CircuitMark.Draw(line, spot.Standing, x, y);
        var lines = Wrapped(Name(spot)).ToList();
        var names = lines.Count;
        if (spot.Belief.Leaking >= 0.05)
            lines.Add(Odds(spot.Belief.Leaking));
        for (var i = 0; i < lines.Count; i++)
            line(
                $"<text x=\"{x + (right ? -24 : 24):0.#}\" y=\"{y + 5 + (Leading * (i - ((lines.Count - 1) / 2.0))):0.#}\" text-anchor=\"{(right ? "end" : "start")}\"{(i == names ? " font-weight=\"bold\"" : "")}>{Escape(lines[i])}</text>"
            );
        if (link is not null)
            line($"</a>");
    }

    private static string Escape(string text) => SecurityElement.Escape(text);

    /// <summary>From one line of a name to the next, and what half of the width holds of a wide font.</summary>
    private const double Leading = 16;
    private const int MostLetters = 16,
        MostLines = 3;

    /// <summary>A name in lines that fit beside its mark; what is longer ends with a sign that it goes on, the list
    /// says it whole.</summary>
    private static IEnumerable<string> Wrapped(string name)
    {
        var lines = new List<string> { "" };
        foreach (var word in name.Split(' ', StringSplitOptions.RemoveEmptyEntries).Select(Cut))
            if (lines[^1].Length == 0)
                lines[^1] = word;
            else if (lines[^1].Length + 1 + word.Length <= MostLetters)
                lines[^1] += " " + word;
            else
                lines.Add(word);
        if (lines.Count <= MostLines)
            return lines;
        lines[MostLines - 1] = Cut(lines[MostLines - 1] + "…" + new string(' ', MostLetters));
        return lines.Take(MostLines);

        static string Cut(string word) =>
            word.Length <= MostLetters ? word : word[..(MostLetters - 1)].TrimEnd(' ', '…') + "…";
    }

    /// <summary>What to look for, in one sentence: how many of which sign.</summary>
    public static string LookFor(LeakView view)
    {
        var spots = SpotView.Of(view);
        int Count(params SpotStanding[] standing) => spots.Count(spot => standing.Contains(spot.Standing));
        var (leaks, suspects, again, open) = (
            Count(SpotStanding.Leaking),
            Count(SpotStanding.Suspected),
            Count(SpotStanding.MendedUntested),
            Count(SpotStanding.Unchecked, SpotStanding.Blind)
        );
        (int Count, string Said)[] parts =
        [
            (leaks, "▲ " + Say.Many(leaks, $"{leaks} leak", $"{leaks} leaks")),
            (suspects, "◇ " + Say.Many(suspects, $"{suspects} suspect", $"{suspects} suspects")),
            (again, "◎ " + Say.Many(again, $"{again} to check again", $"{again} to check again")),
            (open, "◌ " + Say.Many(open, $"{open} not yet seen", $"{open} not yet seen")),
        ];
        var said = parts.Where(part => part.Count > 0).Select(part => part.Said).ToArray();
        return said.Length == 0
            ? Say.It("Every spot is clear.")
            : Say.It($"{string.Join(", ", said)}. Tap one to check it.");
    }
}
