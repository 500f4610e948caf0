using System.Collections.Immutable;
using System.Globalization;
using System.Text;

namespace Tightcold.Studies.Faults;

/// <summary>Plots of a calibration study as plain SVG.</summary>
public static class StudyPlots
{
    private const int Side = 320;
    private const int Edge = 40;

    /// <summary>Said against right, with bars of two standard errors; the diagonal is perfect.</summary>
    public static string Reliability(CalibrationReport report)
    {
        ArgumentNullException.ThrowIfNull(report);
        var svg = Start("Reliability: odds of the likeliest fault as said, and how often it was there", Side, Side);
        void Add(FormattableString part) => svg.Append(part.ToString(CultureInfo.InvariantCulture)).Append('\n');
        Add(
            $"<path d=\"M{Edge} {Side - Edge} L{Side - 10} {10}\" stroke=\"gray\" stroke-dasharray=\"4 3\" fill=\"none\"/>"
        );
        foreach (var (said, right, count) in report.FaultReliability())
        {
            var error = 2 * Math.Sqrt(Math.Max(1e-4, right * (1 - right)) / count);
            Add(
                $"<path d=\"M{X(said):F1} {Y(Math.Min(1, right + error)):F1} V{Y(Math.Max(0, right - error)):F1}\" stroke=\"black\"/>"
            );
            Add(
                $"<circle cx=\"{X(said):F1}\" cy=\"{Y(right):F1}\" r=\"3.5\"/><text x=\"{X(said) + 6:F1}\" y=\"{Y(right) + 12:F1}\">{count}</text>"
            );
        }

        foreach (var tick in new[] { 0, 0.2, 0.4, 0.6, 0.8, 1.0 })
            Add(
                $"<text x=\"{X(tick) - 8:F1}\" y=\"{Side - Edge + 16}\">{tick:P0}</text><text x=\"4\" y=\"{Y(tick) + 4:F1}\">{tick:P0}</text>"
            );
        Add(
            $"<text x=\"{Side / 2}\" y=\"{Side - 6}\">said</text><path d=\"M{Edge} 10 V{Side - Edge} H{Side - 10}\" stroke=\"black\" fill=\"none\"/>"
        );
        return svg.Append("</svg>\n").ToString();
    }

    /// <summary>Ranks of the true charge and severity in tenths of their beliefs; even bars are perfect.</summary>
    public static string Ranks(CalibrationReport report)
    {
        ArgumentNullException.ThrowIfNull(report);
        var svg = Start("Ranks of the true charge (above) and severity (below) in their beliefs", Side, Side);
        Bars(svg, "charge", report.ChargeRanks(), 20);
        Bars(svg, "severity", report.SeverityRanks(), 170);
        return svg.Append("</svg>\n").ToString();
    }

    private static void Bars(StringBuilder svg, string name, ImmutableArray<int> ranks, int top)
    {
        void Add(FormattableString part) => svg.Append(part.ToString(CultureInfo.InvariantCulture)).Append('\n');
        const int Height = 110;
        var most = Math.Max(1, ranks.Max());
        var even = Height * (ranks.Sum() / 10.0) / most;
        for (var i = 0; i < ranks.Length; i++)
        {
            var height = (double)Height * ranks[i] / most;
            Add(
                $"<rect x=\"{Edge + (27 * i)}\" y=\"{top + Height - height:F1}\" width=\"24\" height=\"{height:F1}\" fill=\"silver\" stroke=\"black\"/><text x=\"{Edge + 3 + (27 * i)}\" y=\"{top + Height + 12}\">{ranks[i]}</text>"
            );
        }

        Add(
            $"<path d=\"M{Edge} {top + Height - even:F1} H{Edge + 270}\" stroke=\"black\" stroke-dasharray=\"4 3\"/><text x=\"{Edge}\" y=\"{top - 4}\">{name}, tenths; dashed: even</text>"
        );
    }

    private static StringBuilder Start(string title, int width, int height) =>
        new StringBuilder().Append(
            CultureInfo.InvariantCulture,
            $"<svg xmlns=\"http://www.w3.org/2000/svg\" viewBox=\"0 0 {width} {height}\" width=\"{width}\" height=\"{height}\" font-family=\"sans-serif\" font-size=\"10\">\n<title>{title}</title>\n<rect width=\"{width}\" height=\"{height}\" fill=\"white\"/>\n"
        );

    private static double X(double share) => Edge + ((Side - Edge - 10) * share);

    private static double Y(double share) => Side - Edge - ((Side - Edge - 10) * share);
}
