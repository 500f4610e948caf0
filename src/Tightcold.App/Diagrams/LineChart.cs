using System.Globalization;
using System.Security;
using System.Text;
using Tightcold.Tongues;

namespace Tightcold.App.Diagrams;

/// <summary>A small drawing with two even axes, readable at a phone's width: bands, steps and points, told apart by
/// shape and dash. Values are already in the reader's units.</summary>
internal sealed class LineChart
{
    private const double Width = 340,
        Height = 240,
        Left = 46,
        Right = 12,
        Top = 26,
        Bottom = 38;
    private readonly StringBuilder svg = new();
    private readonly double x0,
        x1,
        y0,
        y1;

    public LineChart(string title, string description, (double From, double To) across, (double From, double To) up)
    {
        (x0, x1) = across.To - across.From < 1e-9 ? (across.From, across.From + 1) : across;
        var room = Math.Max(0.06 * (up.To - up.From), 1e-6);
        (y0, y1) = (up.From >= 0 ? Math.Max(0, up.From - room) : up.From - room, up.To + room);
        Line(
            $"<svg xmlns=\"http://www.w3.org/2000/svg\" viewBox=\"0 0 {Width:0} {Height:0}\" role=\"img\" font-family=\"sans-serif\" font-size=\"13\" fill=\"currentColor\">"
        );
        Line($"<title>{Escape(title)}</title><desc>{Escape(description)}</desc>");
    }

    private double X(double value) => Left + ((Width - Left - Right) * Math.Clamp((value - x0) / (x1 - x0), 0, 1));

    private double Y(double value) =>
        Height - Bottom - ((Height - Top - Bottom) * Math.Clamp((value - y0) / (y1 - y0), 0, 1));

    public void Axes(string across, string up, Func<double, string>? xLabel = null)
    {
        foreach (var y in Ticks(y0, y1, 4))
            Line(
                $"<path d=\"M{Left} {Y(y):0.#}H{Width - Right}\" stroke=\"currentColor\" stroke-opacity=\"0.25\"/><text x=\"{Left - 5}\" y=\"{Y(y) + 4:0.#}\" text-anchor=\"end\">{y.ToString("0.##", Say.Tongue.Culture)}</text>"
            );
        foreach (var x in Ticks(x0, x1, 4))
            Line(
                $"<path d=\"M{X(x):0.#} {Height - Bottom}v5\" stroke=\"currentColor\"/><text x=\"{X(x):0.#}\" y=\"{Height - Bottom + 18:0.#}\" text-anchor=\"middle\">{Escape(xLabel?.Invoke(x) ?? x.ToString("0.##", Say.Tongue.Culture))}</text>"
            );
        Line(
            $"<path d=\"M{Left} {Top}V{Height - Bottom}H{Width - Right}\" fill=\"none\" stroke=\"currentColor\" stroke-width=\"1.5\"/>"
        );
        Line(
            $"<text x=\"{Width - Right}\" y=\"{Height - 4}\" text-anchor=\"end\">{Escape(across)}</text><text x=\"4\" y=\"16\">{Escape(up)}</text>"
        );
    }

    /// <summary>What is aimed at or expected, over the whole width.</summary>
    public void Band(double low, double high, string label)
    {
        Line(
            $"<rect x=\"{Left}\" y=\"{Y(high):0.#}\" width=\"{Width - Left - Right}\" height=\"{Math.Max(2, Y(low) - Y(high)):0.#}\" fill-opacity=\"0.16\"/>"
        );
        Line($"<text x=\"{Width - Right - 4}\" y=\"{Y(high) - 5:0.#}\" text-anchor=\"end\">{Escape(label)}</text>");
    }

    /// <summary>What was expected at one point.</summary>
    public void Bar(double x, double low, double high) =>
        Line(
            $"<path d=\"M{X(x):0.#} {Y(low):0.#}V{Y(high):0.#}m-7 0h14M{X(x) - 7:0.#} {Y(low):0.#}h14\" fill=\"none\" stroke=\"currentColor\" stroke-width=\"2\"/>"
        );

    public void Joined(IEnumerable<(double X, double Y)> points) =>
        Line(
            $"<path d=\"M{string.Join('L', points.Select(point => string.Create(CultureInfo.InvariantCulture, $"{X(point.X):0.#} {Y(point.Y):0.#}")))}\" fill=\"none\" stroke=\"currentColor\" stroke-width=\"2.5\"/>"
        );

    public void Point(double x, double y) => Line($"<circle cx=\"{X(x):0.#}\" cy=\"{Y(y):0.#}\" r=\"5\"/>");

    public void Ring(double x, double y) =>
        Line(
            $"<circle class=\"mark-ring\" cx=\"{X(x):0.#}\" cy=\"{Y(y):0.#}\" r=\"5.5\" fill=\"#fff\" stroke=\"currentColor\" stroke-width=\"2.5\"/>"
        );

    public string Finish()
    {
        svg.Append("</svg>\n");
        return svg.ToString();
    }

    private static IEnumerable<double> Ticks(double from, double to, int about)
    {
        var raw = (to - from) / about;
        var power = Math.Pow(10, Math.Floor(Math.Log10(raw)));
        var step =
            power
            * (raw / power) switch
            {
                < 1.5 => 1,
                < 3.5 => 2,
                < 7.5 => 5,
                _ => 10,
            };
        for (var tick = Math.Ceiling(from / step) * step; tick <= to + (1e-9 * step); tick += step)
            yield return Math.Abs(tick) < 1e-9 ? 0 : tick;
    }

    private static string Escape(string text) => SecurityElement.Escape(text);

    private void Line(FormattableString text) => svg.Append(text.ToString(CultureInfo.InvariantCulture)).Append('\n');
}
