using System.Globalization;
using System.Security;
using System.Text;
using Tightcold.Diagnosis.Leaks;
using Tightcold.Findings;
using Tightcold.Jobs.Journals;
using Tightcold.Quantities;

namespace Tightcold.App.Diagrams;

/// <summary>The circuit as a ring of spots in the order the refrigerant passes them: state by shape and word, odds by
/// number and by how full the mark is.</summary>
public static class CircuitDiagram
{
    private const double Width = 760, RowHeight = 46, Side = 24;

    public static string Draw(JobRecord record, LeakView view, IMeasureFormat units)
    {
        var spots = view.OnTheMap.ToArray();
        var half = (spots.Length + 1) / 2;
        var height = 60 + half * RowHeight;
        var svg = new StringBuilder();
        void Line(FormattableString text) => svg.Append(text.ToString(CultureInfo.InvariantCulture)).Append('\n');
        Line($"<svg xmlns=\"http://www.w3.org/2000/svg\" viewBox=\"0 0 {Width:0} {height:0}\" role=\"img\" font-family=\"sans-serif\" font-size=\"12\" fill=\"currentColor\">");
        Line($"<title>Circuit of {Escape(record.Car.Label)}, with the odds that each spot leaks</title><desc>{Escape(InWords(view, units))}</desc>");
        // Down the left side with the hot gas, up the right with the cold: a ring.
        double left = Width * 0.28, right = Width * 0.72, top = 24, bottom = top + (half - 1) * RowHeight + 20;
        Line($"<rect x=\"{left:0}\" y=\"{top:0}\" width=\"{right - left:0}\" height=\"{bottom - top:0}\" rx=\"18\" fill=\"none\" stroke=\"currentColor\" stroke-width=\"3\" stroke-opacity=\"0.35\"/>");
        Line($"<text x=\"{(left + right) / 2:0}\" y=\"{top + 22:0}\" text-anchor=\"middle\">high side ↓ · low side ↑</text>");
        for (var j = 0; j < spots.Length; j++)
        {
            var down = j < half;
            var x = down ? left : right;
            var y = top + 10 + (down ? j : spots.Length - 1 - j) * RowHeight;
            Mark(Line, spots[j], x, y);
            var anchor = down ? "end" : "start";
            var at = down ? x - Side : x + Side;
            Line($"<text x=\"{at:0}\" y=\"{y:0}\" text-anchor=\"{anchor}\">{Escape(spots[j].Spot.Name)}</text>");
            Line($"<text x=\"{at:0}\" y=\"{y + 15:0}\" text-anchor=\"{anchor}\" font-size=\"11\">{Escape(State(spots[j]) + ", " + Odds(spots[j].Leaking, units))}</text>");
        }
        svg.Append("</svg>\n");
        return svg.ToString();
    }

    /// <summary>Square: found leaking. Double ring: mended. Ring: checked. Dashed ring: not checked.</summary>
    private static void Mark(Action<FormattableString> line, SpotBelief spot, double x, double y)
    {
        var full = Math.Clamp(spot.Leaking, 0, 1);
        if (spot.Spot.Found) line($"<rect x=\"{x - 9:0.0}\" y=\"{y - 9:0.0}\" width=\"18\" height=\"18\"/>");
        else
        {
            line($"<circle cx=\"{x:0.0}\" cy=\"{y:0.0}\" r=\"10\" fill=\"currentColor\" fill-opacity=\"{full:0.00}\" stroke=\"currentColor\" stroke-width=\"1.5\" stroke-dasharray=\"{(spot.Spot.Tests.IsEmpty && spot.Spot.MendedAt is null ? "3 2" : "none")}\"/>");
            if (spot.Spot.MendedAt is not null) line($"<circle cx=\"{x:0.0}\" cy=\"{y:0.0}\" r=\"14\" fill=\"none\" stroke=\"currentColor\" stroke-width=\"1.5\"/>");
        }
    }

    private static string State(SpotBelief spot) => spot.Spot.Found ? "leaking" : spot.Spot.MendedAt is not null ? "mended" : spot.Spot.Tests.IsEmpty ? "not checked" : "checked";

    private static string Odds(double odds, IMeasureFormat units) => units.Format(Measure.Ratio(Math.Clamp(odds, 0.01, 0.99)));

    public static string InWords(LeakView view, IMeasureFormat units) =>
        string.Join("; ", view.OnTheMap.Select(spot => $"{spot.Spot.Name}: {State(spot)}, leaks with {Odds(spot.Leaking, units)}"))
        + $"; another leak remains unfound with {Odds(view.Belief.AnotherRemains, units)}.";

    private static string Escape(string text) => SecurityElement.Escape(text);
}
