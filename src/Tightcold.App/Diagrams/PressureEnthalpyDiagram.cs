using System.Globalization;
using System.Security;
using System.Text;
using Tightcold.App.Units;
using Tightcold.Properties;
using Tightcold.Quantities;
using Tightcold.Tongues;

namespace Tightcold.App.Diagrams;

/// <summary>
/// The pressure-enthalpy diagram of a fluid as a small SVG drawn by hand: dome, lines of equal temperature, entropy
/// and quality, and a cycle if one is given. Light enough for a phone; black on white for the printer; with a title
/// and description for a screen reader and <see cref="Text"/> for those who want the numbers.
/// </summary>
public sealed class PressureEnthalpyDiagram
{
    private const double Width = 800;
    private const double Height = 560;
    private const double Left = 70;
    private const double Right = 20;
    private const double Top = 40;
    private const double Bottom = 60;

    private readonly Fluid _fluid;
    private readonly DiagramUnits _units;
    private readonly IReadOnlyList<CyclePoint> _cycle;
    private readonly List<DiagramCurve> _curves = [];
    private readonly double _minPressure;
    private readonly double _maxPressure;
    private readonly double _minEnthalpy;
    private readonly double _maxEnthalpy;

    /// <param name="fluid">The fluid; one with a saturation line makes the usual picture.</param>
    /// <param name="units">Units of axes and labels.</param>
    /// <param name="cycle">Corners of a cycle in order; it is closed by the drawing. Empty for none.</param>
    public PressureEnthalpyDiagram(Fluid fluid, DiagramUnits units, IReadOnlyList<CyclePoint> cycle)
    {
        _fluid = fluid;
        _units = units;
        _cycle = cycle;
        var fast = fluid.Fast;
        _minPressure = Math.Min(cycle.Select(point => 0.8 * point.PressurePa).Append(0.5e5).Min(), fast.MaxPressurePa);
        _minPressure = Math.Max(_minPressure, fast.MinPressurePa);
        _maxPressure = Math.Max(cycle.Select(point => 1.1 * point.PressurePa).Append(0).Max(), fast.MaxPressurePa);
        var lines = new DiagramCurves(fluid, units, _minPressure, _maxPressure);
        if (fast.HasSaturation)
        {
            _curves.AddRange(lines.Qualities());
            _curves.AddRange(lines.Isotherms());
            _curves.AddRange(lines.Isentropes());
            _curves.Add(lines.Dome());
        }
        else
        {
            _curves.AddRange(lines.Isotherms());
        }

        if (cycle.Count > 0)
            _curves.Add(
                new DiagramCurve(
                    "cycle",
                    "cycle",
                    [.. cycle.Append(cycle[0]).Select(point => (point.EnthalpyJPerKg, point.PressurePa))]
                )
            );
        var all = _curves.SelectMany(curve => curve.Points).Select(point => point.EnthalpyJPerKg).ToList();
        _minEnthalpy = all.Min();
        _maxEnthalpy = all.Max();
    }

    /// <summary>The drawing.</summary>
    public string Svg()
    {
        var svg = new StringBuilder();
        Line(
            svg,
            $"<svg xmlns=\"http://www.w3.org/2000/svg\" viewBox=\"0 0 {Width:0} {Height:0}\" role=\"img\" aria-labelledby=\"ph-title ph-desc\" font-family=\"sans-serif\" font-size=\"12\">"
        );
        Line(
            svg,
            $"<title id=\"ph-title\">{Escape(Say.It($"Pressure-enthalpy diagram of {_fluid.DisplayName}"))}</title>"
        );
        Line(svg, $"<desc id=\"ph-desc\">{Escape(Description())}</desc>");
        svg.Append(
            "<style>path{fill:none}.frame{stroke:#000}.grid{stroke:#ddd;stroke-width:.5}.dome{stroke:#000;stroke-width:2}.isotherm{stroke:#b33;stroke-width:.8}.isentrope{stroke:#37a;stroke-width:.8;stroke-dasharray:6 3}.quality{stroke:#888;stroke-width:.6;stroke-dasharray:2 3}.cycle{stroke:#070;stroke-width:3;stroke-linejoin:round}text.isotherm{fill:#b33;stroke:none}text.isentrope{fill:#37a;stroke:none}text.cycle{fill:#070;stroke:none;font-weight:bold}</style>\n"
        );
        Line(svg, $"<rect x=\"0\" y=\"0\" width=\"{Width:0}\" height=\"{Height:0}\" fill=\"#fff\"/>");
        Line(
            svg,
            $"<text x=\"{Left:0}\" y=\"24\" font-size=\"16\">{Escape(Say.It($"{_fluid.DisplayName}: pressure over enthalpy"))}</text>"
        );
        Axes(svg);
        var room = new LabelRoom(Width, Height);
        // The frame's own words stand outside it.
        room.Keep(0, 0, Width, Top);
        room.Keep(0, 0, Left, Height);
        room.Keep(0, Height - Bottom, Width, Height);
        foreach (var point in _cycle)
            Corner(svg, room, point);
        foreach (var curve in _curves)
            Curve(svg, room, curve);
        room.Write(part => Line(svg, part));
        svg.Append("</svg>\n");
        return svg.ToString();
    }

    /// <summary>What the drawing shows, in words and numbers.</summary>
    public string Text()
    {
        var text = new StringBuilder();
        text.Append(Description()).Append('\n');
        foreach (var point in _cycle)
        {
            var state = _fluid.AtPressureEnthalpy(point.PressurePa, point.EnthalpyJPerKg);
            List<string> parts =
            [
                $"{Figure(_units.PressureFromPa(point.PressurePa), "0.00")} {Pressure}",
                $"{Figure(_units.EnthalpyFromJPerKg(point.EnthalpyJPerKg), "0.0")} {_units.Enthalpy}",
                $"{Figure(_units.TemperatureFromK(state.TemperatureK), "0.0")} {_units.Temperature}",
                Say.It(PhaseWord(state.Phase)),
            ];
            if (state.Quality is { } x)
                parts.Add(Say.It($"{Figure(100 * x, "0")} % vapour"));
            text.Append(Say.It(point.Label)).Append(": ").AppendJoin(", ", parts).Append('\n');
        }

        return text.ToString();
    }

    [Said]
    private static string PhaseWord(FluidPhase phase) =>
        phase switch
        {
            FluidPhase.Liquid => "liquid",
            FluidPhase.Gas => "gas",
            FluidPhase.TwoPhase => "liquid and vapour",
            _ => "supercritical",
        };

    /// <summary>The unit of pressure as the reader's language writes it.</summary>
    private string Pressure => UnitWords.Of(_units.Pressure, Say.Tongue);

    private static string Figure(double value, string digits) => value.ToString(digits, Say.Tongue.Culture);

    private static string Escape(string text) => SecurityElement.Escape(text);

    private static string Invariant(FormattableString text) => text.ToString(CultureInfo.InvariantCulture);

    private static void Line(StringBuilder svg, FormattableString text) => svg.Append(Invariant(text)).Append('\n');

    private string Description()
    {
        var (lowest, highest) = (
            Figure(_units.PressureFromPa(_minPressure), "0.##"),
            Figure(_units.PressureFromPa(_maxPressure), "0.#")
        );
        var (least, most) = (
            Figure(_units.EnthalpyFromJPerKg(_minEnthalpy), "0"),
            Figure(_units.EnthalpyFromJPerKg(_maxEnthalpy), "0")
        );
        List<string> sentences =
        [
            Say.It(
                $"Pressure {lowest} to {highest} {Pressure} (logarithmic) over enthalpy {least} to {most} "
                    + $"{_units.Enthalpy} for {_fluid.DisplayName}."
            ),
        ];
        if (_fluid.HasSaturation)
            sentences.Add(
                Say.It(
                    $"The dome of liquid and vapour ends at the critical point, "
                        + $"{Figure(_units.TemperatureFromK(_fluid.CriticalTemperatureK), "0.0")} {_units.Temperature} "
                        + $"and {Figure(_units.PressureFromPa(_fluid.CriticalPressurePa), "0.0")} {Pressure}."
                )
            );
        if (_cycle.Count > 0)
            sentences.Add(
                Say.It(
                    $"A cycle of {_cycle.Count} corners is drawn: "
                        + $"{string.Join(", ", _cycle.Select(point => Say.It(point.Label)))}."
                )
            );
        return string.Join(" ", sentences);
    }

    private double X(double enthalpyJPerKg) =>
        Left + ((Width - Left - Right) * (enthalpyJPerKg - _minEnthalpy) / (_maxEnthalpy - _minEnthalpy));

    private double Y(double pressurePa) =>
        Height
        - Bottom
        - ((Height - Top - Bottom) * Math.Log(pressurePa / _minPressure) / Math.Log(_maxPressure / _minPressure));

    private void Axes(StringBuilder svg)
    {
        double bottom = Height - Bottom,
            right = Width - Right;
        var low = _units.EnthalpyFromJPerKg(_minEnthalpy);
        var high = _units.EnthalpyFromJPerKg(_maxEnthalpy);
        var step = NiceStep((high - low) / 8);
        for (var h = Math.Ceiling(low / step) * step; h <= high; h += step)
        {
            var x = Left + ((right - Left) * (h - low) / (high - low));
            Line(
                svg,
                $"<path class=\"grid\" d=\"M{x:0.0} {Top:0}V{bottom:0}\"/><text x=\"{x:0.0}\" y=\"{bottom + 16:0}\" text-anchor=\"middle\">{Figure(h, "0.#")}</text>"
            );
        }

        foreach (var tick in PressureTicks())
        {
            var y = Y(tick / _units.PressureFromPa(1));
            Line(
                svg,
                $"<path class=\"grid\" d=\"M{Left:0} {y:0.0}H{right:0}\"/><text x=\"{Left - 6:0}\" y=\"{y + 4:0.0}\" text-anchor=\"end\">{Figure(tick, "0.##")}</text>"
            );
        }

        Line(
            svg,
            $"<rect class=\"frame\" x=\"{Left:0}\" y=\"{Top:0}\" width=\"{right - Left:0}\" height=\"{bottom - Top:0}\" fill=\"none\"/>"
        );
        Line(
            svg,
            $"<text x=\"{(Left + right) / 2:0}\" y=\"{Height - 20:0}\" text-anchor=\"middle\">{Escape(Say.It($"enthalpy, {_units.Enthalpy}"))}</text>"
        );
        Line(
            svg,
            $"<text x=\"16\" y=\"{(Top + bottom) / 2:0}\" text-anchor=\"middle\" transform=\"rotate(-90 16 {(Top + bottom) / 2:0})\">{Escape(Say.It($"pressure, {Pressure}"))}</text>"
        );
    }

    private IEnumerable<double> PressureTicks()
    {
        double low = _units.PressureFromPa(_minPressure),
            high = _units.PressureFromPa(_maxPressure);
        for (var decade = Math.Pow(10, Math.Floor(Math.Log10(low))); decade <= high; decade *= 10)
        {
            foreach (var digit in (double[])[1, 2, 5])
            {
                if (digit * decade >= low && digit * decade <= high)
                    yield return digit * decade;
            }
        }
    }

    private static double NiceStep(double rough)
    {
        var decade = Math.Pow(10, Math.Floor(Math.Log10(rough)));
        return (rough / decade) switch
        {
            < 1.5 => decade,
            < 3.5 => 2 * decade,
            < 7.5 => 5 * decade,
            _ => 10 * decade,
        };
    }

    private void Curve(StringBuilder svg, LabelRoom room, DiagramCurve curve)
    {
        svg.Append("<path class=\"").Append(curve.Kind).Append("\" d=\"");
        var pen = 'M';
        foreach (var (enthalpy, pressure) in curve.Points)
        {
            svg.Append(Invariant($"{pen}{X(enthalpy):0.0} {Y(pressure):0.0}"));
            pen = 'L';
        }

        svg.Append("\"/>\n");
        if (curve.Kind is "isotherm" or "isentrope" && curve.Points.Count > 0)
        {
            // Isotherms are named at the foot, isentropes at the top; what finds no room there stays without a name.
            var (enthalpy, pressure) = curve.Points[^1];
            room.AskOnly(
                curve.Label,
                11,
                curve.Kind,
                [
                    .. Enumerable
                        .Range(0, 4)
                        .Select(i => new LabelRoom.Place(
                            X(enthalpy),
                            Y(pressure) + (curve.Kind == "isotherm" ? -3 - (14 * i) : 11 + (14 * i)),
                            "end"
                        )),
                ]
            );
        }
    }

    private void Corner(StringBuilder svg, LabelRoom room, CyclePoint point)
    {
        double x = X(point.EnthalpyJPerKg),
            y = Y(point.PressurePa);
        Line(svg, $"<circle class=\"cycle\" cx=\"{x:0.0}\" cy=\"{y:0.0}\" r=\"4\" fill=\"#070\"/>");
        room.KeepDot(x, y, 5);
        room.Ask(
            Say.It(point.Label),
            CornerLetter,
            true,
            "cycle",
            new LabelRoom.Place(x + 8, y - 8, "start"),
            new LabelRoom.Place(x + 8, y + 20, "start"),
            new LabelRoom.Place(x - 8, y - 8, "end"),
            new LabelRoom.Place(x - 8, y + 20, "end")
        );
    }

    private const double CornerLetter = 18;
}
