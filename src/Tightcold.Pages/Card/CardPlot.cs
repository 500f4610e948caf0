using System.Collections.Immutable;
using System.Globalization;
using System.Net;
using System.Text;
using Tightcold.Tongues;

namespace Tightcold.Pages.Card;

/// <summary>A small line drawing for the card: points joined by a line, perhaps a band, axes with a few numbers; black
/// on white, told apart by dash and shape and never by colour.</summary>
/// <param name="Title">What it shows.</param>
/// <param name="Across">Name and unit of the horizontal axis.</param>
/// <param name="Up">Name and unit of the vertical axis.</param>
/// <param name="Points">In the units of the axes.</param>
/// <param name="Band">What was to be expected at each point, low and high; empty for none.</param>
public sealed record CardPlot(
    string Title,
    string Across,
    string Up,
    ImmutableArray<(double X, double Y)> Points,
    ImmutableArray<(double Low, double High)> Band
)
{
    private const double Width = 330,
        Height = 90,
        Left = 40,
        Right = 8,
        Top = 8,
        Bottom = 26;

    public string Svg()
    {
        double x0 = Points.Min(point => point.X),
            x1 = Points.Max(point => point.X);
        var all = Points
            .Select(point => point.Y)
            .Concat(Band.SelectMany(band => new[] { band.Low, band.High }))
            .ToArray();
        double y0 = all.Min(),
            y1 = all.Max();
        if (x1 - x0 < 1e-9)
            x1 = x0 + 1;
        var room = Math.Max(0.08 * (y1 - y0), 1e-9 + 0.02 * Math.Abs(y1));
        (y0, y1) = (y0 - room, y1 + room);
        string X(double x) => Number(Left + (x - x0) / (x1 - x0) * (Width - Left - Right));
        string Y(double y) => Number(Height - Bottom - (y - y0) / (y1 - y0) * (Height - Top - Bottom));
        var svg = new StringBuilder();
        svg.Append(
            CultureInfo.InvariantCulture,
            $"<svg class=\"plot\" viewBox=\"0 0 {Width} {Height}\" role=\"img\" "
                + $"aria-label=\"{WebUtility.HtmlEncode(Title)}\" font-size=\"9\">"
        );
        svg.Append(
            CultureInfo.InvariantCulture,
            $"<path d=\"M{Left} {Top}V{Height - Bottom}H{Width - Right}\" fill=\"none\" stroke=\"#000\" "
                + $"stroke-width=\"1\"/>"
        );
        foreach (var y in Ticks(y0, y1))
            svg.Append(
                CultureInfo.InvariantCulture,
                $"<path d=\"M{Left - 3} {Y(y)}h3\" stroke=\"#000\"/><text x=\"{Left - 5}\" y=\"{Y(y)}\" "
                    + $"text-anchor=\"end\" dominant-baseline=\"middle\">{Short(y)}</text>"
            );
        foreach (var x in Ticks(x0, x1))
            svg.Append(
                CultureInfo.InvariantCulture,
                $"<path d=\"M{X(x)} {Height - Bottom}v3\" stroke=\"#000\"/><text x=\"{X(x)}\" "
                    + $"y=\"{Height - Bottom + 11}\" text-anchor=\"middle\">{Short(x)}</text>"
            );
        svg.Append(
            CultureInfo.InvariantCulture,
            $"<text x=\"{Width - Right}\" y=\"{Height - 4}\" "
                + $"text-anchor=\"end\">{WebUtility.HtmlEncode(Across)}</text><text x=\"{Left + 4}\" "
                + $"y=\"{Top + 7}\">{WebUtility.HtmlEncode(Up)}</text>"
        );
        for (var i = 0; i < Band.Length; i++)
            svg.Append(
                CultureInfo.InvariantCulture,
                $"<path d=\"M{X(Points[i].X)} {Y(Band[i].Low)}V{Y(Band[i].High)}m-5 0h10M{X(Points[i].X)} "
                    + $"{Y(Band[i].Low)}m-5 0h10\" stroke=\"#000\" stroke-width=\"1.4\" fill=\"none\"/>"
            );
        svg.Append("<polyline fill=\"none\" stroke=\"#000\" stroke-width=\"1.2\" stroke-dasharray=\"4 2\" points=\"")
            .AppendJoin(' ', Points.Select(point => $"{X(point.X)},{Y(point.Y)}"))
            .Append("\"/>");
        foreach (var point in Points)
            svg.Append(
                CultureInfo.InvariantCulture,
                $"<circle cx=\"{X(point.X)}\" cy=\"{Y(point.Y)}\" r=\"3\" fill=\"#000\"/>"
            );
        return svg.Append("</svg>").ToString();
    }

    private static IEnumerable<double> Ticks(double from, double to)
    {
        var raw = (to - from) / 4;
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
        for (var tick = Math.Ceiling(from / step) * step; tick <= to + 1e-9 * step; tick += step)
            yield return tick;
    }

    private static string Number(double value) => value.ToString("0.0", CultureInfo.InvariantCulture);

    /// <summary>For people; places in the drawing are for machines.</summary>
    private static string Short(double value) =>
        (Math.Abs(value) < 1e-12 ? 0 : value).ToString("0.####", Say.Tongue.Culture);
}
