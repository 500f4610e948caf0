using System.Globalization;

namespace Tightcold.App.Diagrams;

/// <summary>The ring on which a circuit's spots are drawn: an upright rectangle that is walked clockwise from its lower
/// left corner, as the refrigerant goes from the compressor. All lengths in drawing units.</summary>
internal sealed class CircuitRing(int spots)
{
    /// <summary>A fingertip in a glove: marks stand no closer.</summary>
    private const double Apart = 78;

    public const double Width = 300,
        Left = 44,
        Right = 256,
        Top = 56;

    private const double Across = Right - Left;
    public double Down { get; } = Math.Max(420, ((Math.Max(spots, 4) * Apart) - (2 * (Right - Left))) / 2);
    public double Bottom => Top + Down;
    public double Height => Bottom + 62;
    public double Length => 2 * (Across + Down);

    /// <summary>Where the spot of this index stands along the ring.</summary>
    public double At(int spot) => (spot + 0.5) * Length / spots;

    /// <summary>The point, and the direction that leads out of the ring.</summary>
    public (double X, double Y, int OutX, int OutY) Point(double along)
    {
        if (along < Down)
            return (Left, Bottom - along, -1, 0);
        along -= Down;
        if (along < Across)
            return (Left + along, Top, 0, -1);
        along -= Across;
        if (along < Down)
            return (Right, Top + along, 1, 0);
        along -= Down;
        return (Right - Math.Min(along, Across), Bottom, 0, 1);
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
                        var (x, y, _, _) = Point(Math.Min(along, Length));
                        return string.Create(CultureInfo.InvariantCulture, $"{x:0.#} {y:0.#}");
                    })
            );
    }
}
