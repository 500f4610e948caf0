using Tightcold.Picture.Leaks;

namespace Tightcold.App.Diagrams;

/// <summary>The sign of a spot's standing: each has its own shape, so that black and white loses nothing.</summary>
public static class CircuitMark
{
    /// <summary>A drawing of its own, for a list or a legend.</summary>
    public static string Alone(SpotStanding standing)
    {
        var svg = new System.Text.StringBuilder(
            "<svg class=\"spot-mark\" viewBox=\"0 0 36 36\" aria-hidden=\"true\" focusable=\"false\">"
        );
        Draw(part => svg.Append(part.ToString(System.Globalization.CultureInfo.InvariantCulture)), standing, 18, 18);
        return svg.Append("</svg>").ToString();
    }

    internal static void Draw(Action<FormattableString> line, SpotStanding standing, double x, double y)
    {
        const string ring = "fill=\"#fff\" stroke=\"currentColor\"";
        switch (standing)
        {
            case SpotStanding.Leaking:
                line(
                    $"<path class=\"mark-bad\" d=\"M{x:0.#} {y - 17:0.#}l17 31h-34z\"/><path class=\"mark-sign\" d=\"M{x:0.#} {y - 6:0.#}v9m0 5v.1\" fill=\"none\" stroke=\"#fff\" stroke-width=\"4\" stroke-linecap=\"round\"/>"
                );
                break;
            case SpotStanding.Suspected:
                line(
                    $"<path class=\"mark-ring\" d=\"M{x:0.#} {y - 17:0.#}l17 17l-17 17l-17 -17z\" {ring} stroke-width=\"3\"/><text x=\"{x:0.#}\" y=\"{y + 6:0.#}\" text-anchor=\"middle\" font-size=\"17\" font-weight=\"bold\">?</text>"
                );
                break;
            case SpotStanding.Clear:
                line(
                    $"<circle class=\"mark-good\" cx=\"{x:0.#}\" cy=\"{y:0.#}\" r=\"14\"/><path class=\"mark-sign\" d=\"M{x - 6:0.#} {y:0.#}l4 5l8 -10\" fill=\"none\" stroke=\"#fff\" stroke-width=\"3.4\" stroke-linecap=\"round\" stroke-linejoin=\"round\"/>"
                );
                break;
            case SpotStanding.Mended:
                line(
                    $"<circle class=\"mark-ring\" cx=\"{x:0.#}\" cy=\"{y:0.#}\" r=\"16\" {ring} stroke-width=\"2.5\"/><circle class=\"mark-good\" cx=\"{x:0.#}\" cy=\"{y:0.#}\" r=\"11\"/><path class=\"mark-sign\" d=\"M{x - 5:0.#} {y:0.#}l3.5 4.5l6.5 -8.5\" fill=\"none\" stroke=\"#fff\" stroke-width=\"3\" stroke-linecap=\"round\" stroke-linejoin=\"round\"/>"
                );
                break;
            case SpotStanding.MendedUntested:
                line(
                    $"<circle class=\"mark-ring\" cx=\"{x:0.#}\" cy=\"{y:0.#}\" r=\"16\" {ring} stroke-width=\"2.5\"/><circle class=\"mark-ring\" cx=\"{x:0.#}\" cy=\"{y:0.#}\" r=\"10\" {ring} stroke-width=\"2.5\"/>"
                );
                break;
            case SpotStanding.Blind:
                line(
                    $"<circle class=\"mark-ring\" cx=\"{x:0.#}\" cy=\"{y:0.#}\" r=\"14\" {ring} stroke-width=\"2.5\"/><path class=\"mark-bar\" d=\"M{x - 10:0.#} {y + 10:0.#}l20 -20\" stroke=\"currentColor\" stroke-width=\"4\"/>"
                );
                break;
            default:
                line(
                    $"<circle class=\"mark-ring\" cx=\"{x:0.#}\" cy=\"{y:0.#}\" r=\"14\" {ring} stroke-width=\"2.5\" stroke-dasharray=\"5 4\"/>"
                );
                break;
        }
    }
}
