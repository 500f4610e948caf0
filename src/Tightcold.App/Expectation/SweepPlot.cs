using System.Globalization;
using System.Security;
using System.Text;
using Tightcold.Loop.Results;
using Tightcold.Tongues;

namespace Tightcold.App.Expectation;

/// <summary>A sweep as a small SVG: gauge pressures above, vent temperature and cooling below.</summary>
public static class SweepPlot
{
    private const double Width = 760;
    private const double PanelHeight = 210;
    private const double Left = 70;
    private const double Right = 90;

    /// <summary>The drawing, in bar gauge, °C and kW.</summary>
    public static string Svg(LoopSweep sweep)
    {
        ArgumentNullException.ThrowIfNull(sweep);
        var points = sweep
            .Points.Where(point => point.Result.Readings is not null)
            .Select(point => (point.X, R: point.Result.Readings!.Value))
            .ToList();
        var svg = new StringBuilder();
        var height = (3 * PanelHeight) + 60;
        Line(
            svg,
            $"<svg xmlns=\"http://www.w3.org/2000/svg\" viewBox=\"0 0 {Width} {height}\" role=\"img\" font-family=\"sans-serif\" font-size=\"12\">"
        );
        Line(svg, $"<title>{Escape(Say.It($"Model over {sweep.What}"))}</title>");
        Line(svg, $"<rect width=\"{Width}\" height=\"{height}\" fill=\"#fff\"/>");
        double Bar(double pa) => (pa - sweep.BarometricPa) / 1e5;
        Panel(svg, 20, Say.It("high side, bar gauge"), points, r => Bar(r.HighSidePa), "#a22");
        Panel(svg, 20 + PanelHeight, Say.It("low side, bar gauge"), points, r => Bar(r.LowSidePa), "#26a");
        Panel(svg, 20 + (2 * PanelHeight), Say.It("centre vent, °C"), points, r => r.VentK - 273.15, "#272");
        Line(
            svg,
            $"<text x=\"{Width / 2}\" y=\"{height - 8}\" text-anchor=\"middle\">{Escape(Say.It($"{sweep.What} (modelled, not measured)"))}</text>"
        );
        svg.Append("</svg>\n");
        return svg.ToString();
    }

    private static void Panel(
        StringBuilder svg,
        double top,
        string title,
        List<(double X, LoopReadings R)> points,
        Func<LoopReadings, double> value,
        string colour
    )
    {
        var plotHeight = PanelHeight - 40;
        Line(
            svg,
            $"<rect x=\"{Left}\" y=\"{top}\" width=\"{Width - Left - Right}\" height=\"{plotHeight}\" fill=\"none\" stroke=\"#000\"/>"
        );
        Line(svg, $"<text x=\"{Left + 8}\" y=\"{top + 16}\" fill=\"{colour}\">{Escape(title)}</text>");
        if (points.Count == 0)
            return;
        double x0 = points.Min(p => p.X),
            x1 = points.Max(p => p.X);
        double y0 = points.Min(p => value(p.R)),
            y1 = points.Max(p => value(p.R));
        var pad = Math.Max(0.05 * (y1 - y0), 0.05);
        (y0, y1) = (y0 - pad, y1 + pad);
        double X(double x) => Left + ((Width - Left - Right) * (x1 > x0 ? (x - x0) / (x1 - x0) : 0.5));
        double Y(double y) => top + (plotHeight * (y1 - y) / (y1 - y0));
        var numbers = Say.Tongue.Culture;
        for (var i = 0; i <= 4; i++)
        {
            var y = y0 + ((y1 - y0) * i / 4);
            Line(
                svg,
                $"<text x=\"{Left - 6}\" y=\"{Y(y) + 4:F1}\" text-anchor=\"end\">{y.ToString("F1", numbers)}</text>"
            );
            var x = x0 + ((x1 - x0) * i / 4);
            Line(
                svg,
                $"<text x=\"{X(x):F1}\" y=\"{top + plotHeight + 16}\" text-anchor=\"middle\">{x.ToString("G4", numbers)}</text>"
            );
        }

        var path = string.Join(
            ' ',
            points.Select(p => string.Create(CultureInfo.InvariantCulture, $"{X(p.X):F1},{Y(value(p.R)):F1}"))
        );
        Line(svg, $"<polyline points=\"{path}\" fill=\"none\" stroke=\"{colour}\" stroke-width=\"2\"/>");
    }

    private static string Escape(string text) => SecurityElement.Escape(text);

    private static void Line(StringBuilder svg, FormattableString text) =>
        svg.Append(text.ToString(CultureInfo.InvariantCulture)).Append('\n');
}
