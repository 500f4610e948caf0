using System.Globalization;

namespace Tightcold.App.Diagrams;

/// <summary>The ring on which a circuit's spots are drawn: an upright rectangle that is walked clockwise from its lower
/// left corner, as the refrigerant goes from the compressor. Spots stand on its two long sides, so that each has half
/// the width for its name. All lengths in drawing units.</summary>
internal sealed class CircuitRing(int spots)
{
    /// <summary>A fingertip in a glove, also with the drawing shrunk to 320 pixels: marks stand no closer.</summary>
    public const double Apart = 74;

    public const double Width = 360,
        Left = 26,
        Right = 334,
        Top = 10;

    private const double Across = Right - Left;
    private readonly int up = (Math.Max(spots, 2) + 1) / 2;

    public double Down => (up * Apart) + 28;
    public double Bottom => Top + Down;
    public double Height => Bottom + 30;
    public double Length => 2 * (Across + Down);

    /// <summary>Where the spot of this index stands along the ring: the first half goes up on the left, the rest down
    /// on the right.</summary>
    public double At(int spot) => spot < up ? ((spot + 0.5) * Apart) : Down + Across + 28 + ((spot - up + 0.5) * Apart);

    /// <summary>The point, and whether it is on the right.</summary>
    public (double X, double Y, bool OnRight) Point(double along)
    {
        if (along < Down)
            return (Left, Bottom - along, false);
        along -= Down;
        if (along < Across)
            return (Left + along, Top, false);
        along -= Across;
        if (along < Down)
            return (Right, Top + along, true);
        along -= Down;
        return (Right - Math.Min(along, Across), Bottom, true);
    }

    /// <summary>The pipe between two places, through the corners in between.</summary>
    public string Path(double from, double to)
    {
        var corners = new[] { Down, Down + Across, (2 * Down) + Across }.Where(corner => corner > from && corner < to);
        return "M"
            + string.Join(
                'L',
                new[] { from }
                    .Concat(corners)
                    .Append(to)
                    .Select(along =>
                    {
                        var (x, y, _) = Point(Math.Min(along, Length));
                        return string.Create(CultureInfo.InvariantCulture, $"{x:0.#} {y:0.#}");
                    })
            );
    }
}
