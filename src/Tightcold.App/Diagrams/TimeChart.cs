using System.Globalization;
using System.Security;
using System.Text;

namespace Tightcold.App.Diagrams;

/// <summary>A small drawing of pressure against time, as SVG text without styles or scripts. Every line has its name
/// beside it; what is expected is a band and lines, what was read are dots, with a bar as long as the gauge may be
/// off.</summary>
internal sealed class TimeChart
{
    private const double Width = 360,
        Height = 280,
        Left = 12,
        Right = 12,
        Top = 14,
        Bottom = 34,
        Letter = 14;

    /// <summary>From the middle to each end, in standard deviations: nine readings in ten lie within.</summary>
    private const double NineInTen = 1.645;

    private readonly StringBuilder svg = new();
    private readonly LabelRoom room = new(Width, Height);
    private readonly double spanSeconds;
    private readonly double lowPa;
    private readonly double highPa;
    private readonly bool straight;

    /// <param name="straight">Pressure evenly upwards, so that a steady rise is a straight line; else by
    /// decades.</param>
    public TimeChart(double spanSeconds, double lowPa, double highPa, bool straight, string title, string description)
    {
        this.spanSeconds = Math.Max(60, spanSeconds);
        this.straight = straight;
        (this.lowPa, this.highPa) = straight
            ? (lowPa, Math.Max(lowPa + 1, highPa))
            : (Math.Max(lowPa, 0.1), Math.Max(10 * Math.Max(lowPa, 0.1), highPa));
        Line(
            $"<svg xmlns=\"http://www.w3.org/2000/svg\" viewBox=\"0 0 {Width:0} {Height:0}\" role=\"img\" font-family=\"sans-serif\" font-size=\"{Letter}\" fill=\"currentColor\">"
        );
        Line($"<title>{Escape(title)}</title><desc>{Escape(description)}</desc>");
    }

    public double X(double seconds) => Left + ((Width - Left - Right) * Math.Clamp(seconds / spanSeconds, 0, 1));

    public double Y(double pascals)
    {
        var share = straight
            ? (pascals - lowPa) / (highPa - lowPa)
            : Math.Log10(Math.Max(pascals, lowPa) / lowPa) / Math.Log10(highPa / lowPa);
        return Height - Bottom - ((Height - Bottom - Top) * Math.Clamp(share, 0, 1));
    }

    /// <summary>The two axes, with the first and the last time and what is upwards.</summary>
    public void Axes(string upwards, string last)
    {
        Line(
            $"<path d=\"M{Left:0} {Top:0}V{Height - Bottom:0}H{Width - Right:0}\" fill=\"none\" stroke=\"currentColor\" stroke-width=\"1.5\"/>"
        );
        room.Ask("0", Letter, false, "", new LabelRoom.Place(Left, Height - 12, "start"));
        room.Ask(last, Letter, false, "", new LabelRoom.Place(Width - Right, Height - 12, "end"));
        room.Ask(upwards, Letter, false, "", new LabelRoom.Place(Left + 6, Top + 10, "start"));
    }

    public void Band(IReadOnlyList<(double Seconds, double Low, double High)> points, string name)
    {
        if (points.Count == 0)
            return;
        var path = string.Join(
            'L',
            points
                .Select(point => At(point.Seconds, point.High))
                .Concat(points.Reverse().Select(point => At(point.Seconds, point.Low)))
        );
        Line($"<path fill=\"currentColor\" fill-opacity=\"0.18\" stroke=\"none\" d=\"M{path}Z\"/>");
        var (seconds, _, high) = points[points.Count / 3];
        room.Ask(
            name,
            Letter,
            false,
            "",
            new LabelRoom.Place(X(seconds) + 8, Y(high) - 8, "start"),
            new LabelRoom.Place(Width - Right - 4, Y(points[^1].High) - 8, "end")
        );
    }

    /// <summary>A line of its own kind, with its name at its end; it stops where it leaves the drawing.</summary>
    public void Curve(IEnumerable<(double Seconds, double Pa)> points, string dash, double width, string name)
    {
        (double Seconds, double Pa)[] inside = [.. points.TakeWhile(point => point.Pa <= highPa)];
        if (inside.Length < 2)
            return;
        Line(
            $"<path fill=\"none\" stroke=\"currentColor\" stroke-width=\"{width:0.0}\" stroke-dasharray=\"{dash}\" d=\"M{string.Join('L', inside.Select(point => At(point.Seconds, point.Pa)))}\"/>"
        );
        var (seconds, pascals) = inside[^1];
        if (name.Length > 0)
            room.Ask(
                name,
                Letter,
                false,
                "",
                new LabelRoom.Place(X(seconds) - 4, Y(pascals) - 6, "end"),
                new LabelRoom.Place(X(seconds) - 4, Y(pascals) + 18, "end"),
                new LabelRoom.Place(Math.Min(X(seconds) + 6, Width - Right), Top + 28, "start")
            );
    }

    public void Level(double pascals, string label)
    {
        Line(
            $"<path stroke=\"currentColor\" stroke-width=\"2\" stroke-dasharray=\"2 4\" d=\"M{Left:0} {Y(pascals):0.0}H{Width - Right:0}\"/>"
        );
        room.Ask(
            label,
            Letter,
            true,
            "",
            new LabelRoom.Place(Width - Right - 4, Y(pascals) - 6, "end"),
            new LabelRoom.Place(Left + 6, Y(pascals) - 6, "start"),
            new LabelRoom.Place(Width - Right - 4, Y(pascals) + 18, "end")
        );
    }

    /// <summary>What was read, how far the gauge may be off, and the number where it is wanted.</summary>
    public void Point(double seconds, double pascals, double sigmaPa, string number)
    {
        double x = X(seconds),
            y = Y(pascals),
            top = Y(pascals + (NineInTen * sigmaPa)),
            bottom = Y(Math.Max(lowPa, pascals - (NineInTen * sigmaPa)));
        // A bar that the dot hides says nothing.
        if (bottom - top > 14)
            Line(
                $"<path class=\"may-be-off\" d=\"M{x:0.0} {top:0.0}V{bottom:0.0}m-6 0h12M{x - 6:0.0} {top:0.0}h12\" fill=\"none\" stroke=\"currentColor\" stroke-width=\"1.5\"/>"
            );
        Line($"<circle cx=\"{x:0.0}\" cy=\"{y:0.0}\" r=\"5\"/>");
        room.KeepDot(x, y, 6);
        if (number.Length == 0)
            return;
        room.Ask(
            number,
            Letter,
            true,
            "",
            new LabelRoom.Place(x + 9, y - 9, "start"),
            new LabelRoom.Place(x - 9, y - 9, "end"),
            new LabelRoom.Place(x + 9, y + 20, "start"),
            new LabelRoom.Place(x - 9, y + 20, "end")
        );
    }

    public string Finish()
    {
        room.Write(Line);
        svg.Append("</svg>\n");
        return svg.ToString();
    }

    private string At(double seconds, double pascals) =>
        string.Create(CultureInfo.InvariantCulture, $"{X(seconds):0.0} {Y(pascals):0.0}");

    private static string Escape(string text) => SecurityElement.Escape(text);

    private void Line(FormattableString text) => svg.Append(text.ToString(CultureInfo.InvariantCulture)).Append('\n');
}
