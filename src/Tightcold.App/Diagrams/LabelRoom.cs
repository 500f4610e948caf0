using System.Globalization;
using System.Security;

namespace Tightcold.App.Diagrams;

/// <summary>The words of a drawing, put where none lies over another or over a dot: each asks for places in order of
/// liking and takes the first that is free, or the nearest free one. Widths are taken as those of a wide font, so that
/// a narrow one has room to spare.</summary>
internal sealed class LabelRoom(double width, double height)
{
    private const double PerLetter = 0.64,
        PerBoldLetter = 0.72,
        Step = 8;

    private readonly List<(double Left, double Top, double Right, double Bottom)> taken = [];
    private readonly List<Wish> wishes = [];

    /// <param name="X">Of the end that <paramref name="Anchor"/> names.</param>
    /// <param name="Y">Of the line that the letters stand on.</param>
    /// <param name="Anchor">start, middle or end.</param>
    internal readonly record struct Place(double X, double Y, string Anchor);

    private sealed record Wish(string Text, double Size, bool Bold, string Class, bool Stays, Place[] Places);

    /// <summary>A rectangle that words keep out of: a dot, an axis label.</summary>
    public void Keep(double left, double top, double right, double bottom) => taken.Add((left, top, right, bottom));

    /// <summary>A dot with its rim.</summary>
    public void KeepDot(double x, double y, double radius) => Keep(x - radius, y - radius, x + radius, y + radius);

    public void Ask(string text, double size, bool bold, string cssClass, params Place[] places) =>
        wishes.Add(new(text, size, bold, cssClass, Stays: false, places));

    /// <summary>A name that means nothing elsewhere: there or not at all.</summary>
    public void AskOnly(string text, double size, string cssClass, params Place[] places) =>
        wishes.Add(new(text, size, false, cssClass, Stays: true, places));

    /// <summary>Writes all that was asked for, the first first. What finds no room at all is left to the words below
    /// the drawing.</summary>
    public void Write(Action<FormattableString> line)
    {
        foreach (var wish in wishes)
        {
            if (Free(wish) is not { } place)
                continue;
            taken.Add(Box(wish, place));
            line(
                $"<text class=\"halo {wish.Class}\" x=\"{place.X:0.#}\" y=\"{place.Y:0.#}\" text-anchor=\"{place.Anchor}\" font-size=\"{wish.Size:0.#}\"{(wish.Bold ? " font-weight=\"bold\"" : "")} paint-order=\"stroke\" stroke=\"#fff\" stroke-width=\"4\" stroke-linejoin=\"round\">{SecurityElement.Escape(wish.Text)}</text>"
            );
        }
        wishes.Clear();
    }

    private Place? Free(Wish wish)
    {
        foreach (var place in wish.Places)
            if (Fits(Box(wish, place)))
                return place;
        if (wish.Stays)
            return null;
        foreach (var away in Enumerable.Range(1, (int)(height / Step)))
        foreach (var place in wish.Places)
        foreach (var sign in (double[])[-1, 1])
        {
            var other = place with { Y = place.Y + (sign * away * Step) };
            if (Fits(Box(wish, other)))
                return other;
        }
        return null;
    }

    private bool Fits((double Left, double Top, double Right, double Bottom) box) =>
        box.Left >= 0
        && box.Right <= width
        && box.Top >= 0
        && box.Bottom <= height
        && !taken.Exists(other =>
            box.Left < other.Right && other.Left < box.Right && box.Top < other.Bottom && other.Top < box.Bottom
        );

    private static (double Left, double Top, double Right, double Bottom) Box(Wish wish, Place place)
    {
        var wide = new StringInfo(wish.Text).LengthInTextElements * wish.Size * (wish.Bold ? PerBoldLetter : PerLetter);
        var left = place.Anchor switch
        {
            "end" => place.X - wide,
            "middle" => place.X - (wide / 2),
            _ => place.X,
        };
        return (left, place.Y - wish.Size, left + wide, place.Y + (0.3 * wish.Size));
    }
}
