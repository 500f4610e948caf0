using System.Globalization;
using System.Security;
using System.Text;

namespace Tightcold.App.Diagrams;

/// <summary>A small drawing of pressure against time, logarithmic upwards, as SVG text without styles or scripts.
/// Colours are never alone: what is expected is a band and lines, what was read are points.</summary>
internal sealed class TimeChart
{
    private const double Width = 360,
        Height = 260,
        Left = 78,
        Right = 14,
        Top = 12,
        Bottom = 34;
    private readonly StringBuilder svg = new();
    private readonly double spanSeconds;
    private readonly double lowPa;
    private readonly double highPa;

    public TimeChart(double spanSeconds, double lowPa, double highPa, string title, string description)
    {
        this.spanSeconds = Math.Max(60, spanSeconds);
        this.lowPa = Math.Pow(10, Math.Floor(Math.Log10(Math.Max(lowPa, 0.1))));
        this.highPa = Math.Max(this.lowPa * 10, Math.Pow(10, Math.Ceiling(Math.Log10(Math.Max(highPa, 1)))));
        Line(
            $"<svg xmlns=\"http://www.w3.org/2000/svg\" viewBox=\"0 0 {Width:0} {Height:0}\" role=\"img\" font-family=\"sans-serif\" font-size=\"13\" fill=\"currentColor\">"
        );
        Line($"<title>{Escape(title)}</title><desc>{Escape(description)}</desc>");
    }

    public double X(double seconds) => Left + (Width - Left - Right) * Math.Clamp(seconds / spanSeconds, 0, 1);

    public double Y(double pascals) =>
        Height
        - Bottom
        - (Height - Bottom - Top)
            * Math.Clamp(Math.Log10(Math.Max(pascals, lowPa) / lowPa) / Math.Log10(highPa / lowPa), 0, 1);

    /// <summary>Grid with a label at each decade and four times.</summary>
    public void Axes(Func<double, string> pressure, Func<double, string> time)
    {
        for (var decade = lowPa; decade <= highPa * 1.001; decade *= 10)
            Line(
                $"<path stroke=\"currentColor\" stroke-opacity=\"0.2\" d=\"M{Left:0} {Y(decade):0.0}H{Width - Right:0}\"/><text x=\"{Left - 6:0}\" y=\"{Y(decade) + 4:0.0}\" text-anchor=\"end\">{Escape(pressure(decade))}</text>"
            );
        for (var i = 0; i <= 3; i++)
        {
            var seconds = spanSeconds * i / 3;
            Line(
                $"<path stroke=\"currentColor\" stroke-opacity=\"0.2\" d=\"M{X(seconds):0.0} {Top:0}V{Height - Bottom:0}\"/><text x=\"{X(seconds):0.0}\" y=\"{Height - Bottom + 18:0}\" text-anchor=\"{(i == 3 ? "end" : "middle")}\">{Escape(time(seconds))}</text>"
            );
        }
    }

    public void Band(IReadOnlyList<(double Seconds, double Low, double High)> points)
    {
        var path = string.Join(
            'L',
            points
                .Select(point => At(point.Seconds, point.High))
                .Concat(points.Reverse().Select(point => At(point.Seconds, point.Low)))
        );
        Line($"<path fill=\"currentColor\" fill-opacity=\"0.12\" stroke=\"none\" d=\"M{path}Z\"/>");
    }

    public void Curve(IEnumerable<(double Seconds, double Pa)> points, string dash, double width = 1.5) =>
        Line(
            $"<path fill=\"none\" stroke=\"currentColor\" stroke-width=\"{width:0.0}\" stroke-dasharray=\"{dash}\" d=\"M{string.Join('L', points.Select(point => At(point.Seconds, point.Pa)))}\"/>"
        );

    public void Level(double pascals, string label) =>
        Line(
            $"<path stroke=\"currentColor\" stroke-dasharray=\"2 4\" d=\"M{Left:0} {Y(pascals):0.0}H{Width - Right:0}\"/><text x=\"{Width - Right - 4:0}\" y=\"{Y(pascals) - 4:0.0}\" text-anchor=\"end\">{Escape(label)}</text>"
        );

    public void Point(double seconds, double pascals) =>
        Line($"<circle cx=\"{X(seconds):0.0}\" cy=\"{Y(pascals):0.0}\" r=\"4\"/>");

    public void Label(double seconds, double pascals, string text) =>
        Line($"<text x=\"{X(seconds) - 4:0.0}\" y=\"{Y(pascals) - 6:0.0}\" text-anchor=\"end\">{Escape(text)}</text>");

    public string Finish()
    {
        svg.Append("</svg>\n");
        return svg.ToString();
    }

    private string At(double seconds, double pascals) =>
        string.Create(CultureInfo.InvariantCulture, $"{X(seconds):0.0} {Y(pascals):0.0}");

    private static string Escape(string text) => SecurityElement.Escape(text);

    private void Line(FormattableString text) => svg.Append(text.ToString(CultureInfo.InvariantCulture)).Append('\n');
}
