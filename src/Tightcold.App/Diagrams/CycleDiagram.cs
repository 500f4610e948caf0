using System.Globalization;
using System.Security;
using System.Text;
using Tightcold.Picture.Running;
using Tightcold.Quantities;

namespace Tightcold.App.Diagrams;

/// <summary>The measured cycle on the dome of liquid and vapour, pressure upwards (logarithmic) over enthalpy: small
/// enough for a phone, four corners with numbers that the words below take up.</summary>
public static class CycleDiagram
{
    private const double Width = 340,
        Height = 280,
        Left = 8,
        Right = 332,
        Top = 12,
        Bottom = 250;
    private const int DomePoints = 40;

    public static string Draw(MeasuredCycle cycle, IMeasureFormat units)
    {
        ArgumentNullException.ThrowIfNull(cycle);
        var fluid = cycle.Fluid;
        double low = 0.55 * cycle.Corners.Min(corner => corner.PressurePa),
            high = fluid.CriticalPressurePa * 1.15;
        // From the boiling line over the critical point to the dew line.
        var sides = Enumerable
            .Range(0, DomePoints)
            .Select(i => low * Math.Pow(0.998 * fluid.CriticalPressurePa / low, i / (DomePoints - 1.0)))
            .Select(pressure => (Pressure: pressure, State: fluid.SaturationAtPressure(pressure)))
            .ToArray();
        (double H, double P)[] dome =
        [
            .. sides.Select(side => (side.State.LiquidEnthalpyJPerKg, side.Pressure)),
            .. sides.Reverse().Select(side => (side.State.VapourEnthalpyJPerKg, side.Pressure)),
        ];
        var all = dome.Select(point => point.H).Concat(cycle.Corners.Select(corner => corner.EnthalpyJPerKg)).ToArray();
        double least = all.Min(),
            most = all.Max() + (0.06 * (all.Max() - all.Min()));
        double X(double h) => Left + ((Right - Left) * (h - least) / (most - least));
        double Y(double p) => Bottom - ((Bottom - Top) * Math.Log(p / low) / Math.Log(high / low));
        string Points(IEnumerable<(double H, double P)> points) =>
            string.Join(
                'L',
                points.Select(point =>
                    string.Create(CultureInfo.InvariantCulture, $"{X(point.H):0.#} {Y(point.P):0.#}")
                )
            );

        var svg = new StringBuilder();
        void Line(FormattableString text) => svg.Append(text.ToString(CultureInfo.InvariantCulture)).Append('\n');
        Line(
            $"<svg xmlns=\"http://www.w3.org/2000/svg\" viewBox=\"0 0 {Width:0} {Height:0}\" role=\"img\" font-family=\"sans-serif\" font-size=\"13\" fill=\"currentColor\">"
        );
        Line(
            $"<title>Pressure over enthalpy: the measured cycle on the dome of {Escape(fluid.DisplayName)}</title><desc>{Escape(InWords(cycle, units))}</desc>"
        );
        Line(
            $"<path d=\"M{Left} {Top}V{Bottom}H{Right}\" fill=\"none\" stroke=\"currentColor\" stroke-width=\"1.5\"/>"
        );
        Line($"<path d=\"M{Points(dome)}\" fill=\"none\" stroke=\"currentColor\" stroke-width=\"2\"/>");
        Line(
            $"<path class=\"cycle-line\" d=\"M{Points(cycle.Corners.Select(corner => (corner.EnthalpyJPerKg, corner.PressurePa)))}Z\" fill=\"currentColor\" fill-opacity=\"0.10\" stroke=\"currentColor\" stroke-width=\"4\" stroke-linejoin=\"round\"/>"
        );
        Side(Line, cycle, units, X, Y, least, high: true);
        Side(Line, cycle, units, X, Y, least, high: false);
        for (var i = 0; i < cycle.Corners.Length; i++)
        {
            var corner = cycle.Corners[i];
            double x = X(corner.EnthalpyJPerKg),
                y = Y(corner.PressurePa);
            Line(
                $"<circle cx=\"{x:0.#}\" cy=\"{y:0.#}\" r=\"11\" class=\"mark-ring\" fill=\"#fff\" stroke=\"currentColor\" stroke-width=\"2\" stroke-dasharray=\"{(corner.Read ? "none" : "3 2")}\"/><text x=\"{x:0.#}\" y=\"{y + 5:0.#}\" text-anchor=\"middle\" font-weight=\"bold\">{i + 1}</text>"
            );
        }
        Line(
            $"<text x=\"{(Left + Right) / 2:0}\" y=\"{Bottom - 46:0}\" text-anchor=\"middle\" font-size=\"12\">liquid and vapour</text>"
        );
        Line(
            $"<text x=\"{Right:0}\" y=\"{Height - 10:0}\" text-anchor=\"end\">enthalpy →</text><text x=\"{Left + 4:0}\" y=\"{Top + 8:0}\">↑ pressure</text>"
        );
        svg.Append("</svg>\n");
        return svg.ToString();
    }

    /// <summary>The pressure of a side, written on its line.</summary>
    private static void Side(
        Action<FormattableString> line,
        MeasuredCycle cycle,
        IMeasureFormat units,
        Func<double, double> x,
        Func<double, double> y,
        double least,
        bool high
    )
    {
        var pressure = high ? cycle.Corners[1].PressurePa : cycle.Corners[0].PressurePa;
        var words =
            $"{(high ? "high" : "low")} side {units.Format(new Measure(QuantityKind.AbsolutePressure, pressure))}";
        line(
            $"<text class=\"{(high ? "high-name" : "low-name")}\" x=\"{x(least) + 6:0.#}\" y=\"{y(pressure) + (high ? -16 : 26):0.#}\" font-weight=\"bold\">{Escape(words)}</text>"
        );
    }

    /// <summary>The same for who cannot see it, and with the figures.</summary>
    public static string InWords(MeasuredCycle cycle, IMeasureFormat units)
    {
        ArgumentNullException.ThrowIfNull(cycle);
        ArgumentNullException.ThrowIfNull(units);
        return string.Join(
            " ",
            cycle.Corners.Select(
                (corner, i) =>
                    string.Create(
                        CultureInfo.InvariantCulture,
                        $"{i + 1} {corner.Name}: {units.Format(new Measure(QuantityKind.AbsolutePressure, corner.PressurePa))}, {units.Format(Measure.AbsoluteTemperature(corner.TemperatureK))}, {(corner.EnthalpyJPerKg - cycle.Corners[2].EnthalpyJPerKg) / 1e3:0} kJ/kg above the liquid line{(corner.Read ? "" : " (temperature not read: taken as usual)")}."
                    )
            )
        );
    }

    private static string Escape(string text) => SecurityElement.Escape(text);
}
