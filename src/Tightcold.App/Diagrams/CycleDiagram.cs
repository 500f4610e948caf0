using System.Globalization;
using System.Security;
using System.Text;
using Tightcold.Diagnosis.Inference;
using Tightcold.Diagnosis.Measurement;
using Tightcold.Picture;
using Tightcold.Picture.Running;
using Tightcold.Quantities;
using Tightcold.Tongues;
using GaugeScale = Tightcold.Picture.Pressures.Gauges;

namespace Tightcold.App.Diagrams;

/// <summary>The measured cycle on the dome of liquid and vapour, pressure upwards (logarithmic) over enthalpy: small
/// enough for a phone, each corner with its name, and behind it where a sound car's gauges would stand.</summary>
public static class CycleDiagram
{
    private const double Width = 360,
        Height = 300,
        Left = 12,
        Right = 348,
        Top = 14,
        Bottom = 266,
        Letter = 14;
    private const int DomePoints = 40;

    /// <summary>What to look for, in one sentence.</summary>
    public static string LookFor =>
        Say.It(
            "Liquid line left of the dome: all liquid. Suction right of it: all vapour. "
                + "Grey: the gauges of a sound car."
        );

    /// <summary>Without the grey of a sound car, while that is not weighed or its weather is not known.</summary>
    public static string LookForAlone =>
        Say.It("Liquid line left of the dome: all liquid. Suction right of it: all vapour.");

    public static bool HasSound(JobPicture picture)
    {
        ArgumentNullException.ThrowIfNull(picture);
        return Sound(picture, Channel.LowSide) is not null || Sound(picture, Channel.HighSide) is not null;
    }

    public static string Draw(MeasuredCycle cycle, JobPicture picture, IMeasureFormat units)
    {
        ArgumentNullException.ThrowIfNull(cycle);
        ArgumentNullException.ThrowIfNull(picture);
        ArgumentNullException.ThrowIfNull(units);
        var fluid = cycle.Fluid;
        double low = 0.45 * cycle.Corners.Min(corner => corner.PressurePa),
            high = fluid.CriticalPressurePa * 1.3;
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
        double wide = all.Max() - all.Min(),
            least = all.Min() - (0.08 * wide),
            most = all.Max() + (0.08 * wide);
        double X(double h) => Left + ((Right - Left) * (h - least) / (most - least));
        double Y(double p) => Bottom - ((Bottom - Top) * Math.Clamp(Math.Log(p / low) / Math.Log(high / low), 0, 1));
        string Points(IEnumerable<(double H, double P)> points) =>
            string.Join(
                'L',
                points.Select(point =>
                    string.Create(CultureInfo.InvariantCulture, $"{X(point.H):0.#} {Y(point.P):0.#}")
                )
            );

        var svg = new StringBuilder();
        var room = new LabelRoom(Width, Height);
        void Line(FormattableString text) => svg.Append(text.ToString(CultureInfo.InvariantCulture)).Append('\n');
        Line(
            $"<svg xmlns=\"http://www.w3.org/2000/svg\" viewBox=\"0 0 {Width:0} {Height:0}\" role=\"img\" font-family=\"sans-serif\" font-size=\"{Letter}\" fill=\"currentColor\">"
        );
        Line(
            $"<title>{Escape(Say.It($"Pressure over enthalpy: the measured cycle on the dome of {fluid.DisplayName}"))}</title><desc>{Escape(InWords(cycle, units))}</desc>"
        );
        foreach (var channel in (Channel[])[Channel.LowSide, Channel.HighSide])
            if (Sound(picture, channel) is { } sound)
                Line(
                    $"<rect class=\"sound\" x=\"{Left}\" y=\"{Y(sound.High):0.#}\" width=\"{Right - Left}\" height=\"{Math.Max(3, Y(sound.Low) - Y(sound.High)):0.#}\" fill-opacity=\"0.18\"/>"
                );
        Line(
            $"<path d=\"M{Left} {Top}V{Bottom}H{Right}\" fill=\"none\" stroke=\"currentColor\" stroke-width=\"1.5\"/>"
        );
        Line($"<path d=\"M{Points(dome)}\" fill=\"none\" stroke=\"currentColor\" stroke-width=\"1.5\"/>");
        Line(
            $"<path class=\"cycle-line\" d=\"M{Points(cycle.Corners.Select(corner => (corner.EnthalpyJPerKg, corner.PressurePa)))}Z\" fill=\"none\" stroke=\"currentColor\" stroke-width=\"4\" stroke-linejoin=\"round\"/>"
        );
        for (var i = 0; i < cycle.Corners.Length; i++)
        {
            var corner = cycle.Corners[i];
            Corner(
                Line,
                room,
                corner,
                i,
                (X(corner.EnthalpyJPerKg), Y(corner.PressurePa)),
                Off(picture, i) is { } sigma
                    ? (
                        Y(corner.PressurePa + (NineInTen * sigma)),
                        Y(Math.Max(low, corner.PressurePa - (NineInTen * sigma)))
                    )
                    : null
            );
        }
        foreach (var onHigh in (bool[])[true, false])
            Side(room, cycle, picture, units, X, Y, onHigh);
        var middle = X(
            (sides[DomePoints / 4].State.LiquidEnthalpyJPerKg + sides[DomePoints / 4].State.VapourEnthalpyJPerKg) / 2
        );
        room.Ask(
            Say.It("liquid and vapour"),
            Letter,
            false,
            "",
            new LabelRoom.Place(middle, (Y(cycle.Corners[0].PressurePa) + Y(cycle.Corners[1].PressurePa)) / 2, "middle")
        );
        room.Ask(Say.It("heat in it →"), Letter, false, "", new LabelRoom.Place(Right, Height - 12, "end"));
        room.Ask(Say.It("↑ pressure"), Letter, false, "", new LabelRoom.Place(Left + 4, Top + 10, "start"));
        room.Write(Line);
        svg.Append("</svg>\n");
        return svg.ToString();
    }

    /// <summary>From the middle to each end of a bar: nine readings in ten lie within.</summary>
    private const double NineInTen = 1.645;

    /// <summary>Where nine sound cars in ten would show it at the last reading; absolute.</summary>
    private static Interval? Sound(JobPicture picture, Channel channel) =>
        picture.Machine?.Answer.Readings.LastOrDefault(reading => reading.Channel == channel)?.Healthy;

    /// <summary>How far the gauge behind a corner may be off; the other two corners hang on the same gauges.</summary>
    private static double? Off(JobPicture picture, int corner) =>
        corner switch
        {
            0 => picture.Running?.Low?.SigmaPa,
            1 => picture.Running?.High?.SigmaPa,
            _ => null,
        };

    /// <summary>A dot with its name outside the cycle; hollow where no thermometer stood.</summary>
    private static void Corner(
        Action<FormattableString> line,
        LabelRoom room,
        MeasuredCycle.Corner corner,
        int index,
        (double X, double Y) at,
        (double Top, double Bottom)? off
    )
    {
        var (x, y) = at;
        if (off is { } bar && bar.Bottom - bar.Top > 18)
            line(
                $"<path class=\"may-be-off\" d=\"M{x:0.#} {bar.Top:0.#}V{bar.Bottom:0.#}m-6 0h12M{x - 6:0.#} {bar.Top:0.#}h12\" fill=\"none\" stroke=\"currentColor\" stroke-width=\"1.5\"/>"
            );
        line(
            $"<circle cx=\"{x:0.#}\" cy=\"{y:0.#}\" r=\"7\" class=\"{(corner.Read ? "dot" : "mark-ring")}\" {(corner.Read ? "" : "fill=\"#fff\" ")}stroke=\"currentColor\" stroke-width=\"2\"/>"
        );
        room.KeepDot(x, y, 8);
        LabelRoom.Place above = new(x, y - 14, "middle"),
            below = new(x, y + 24, "middle");
        room.Ask(
            Say.It(corner.Name),
            Letter,
            true,
            "",
            index switch
            {
                // Suction at the lower right, discharge at the upper right, the liquid line at the upper left.
                0 => [below, new(Right - 2, y + 24, "end"), new(Right - 2, y + 40, "end")],
                1 => [above, new(Right - 2, y - 14, "end"), new(Right - 2, y - 30, "end")],
                2 => [above, new(Left + 4, y - 14, "start"), new(Left + 4, y + 24, "start")],
                _ => [below, new(Left + 4, y + 24, "start"), new(Left + 4, y + 40, "start")],
            }
        );
    }

    /// <summary>The pressure of a side as its gauge shows it, on its line.</summary>
    private static void Side(
        LabelRoom room,
        MeasuredCycle cycle,
        JobPicture picture,
        IMeasureFormat units,
        Func<double, double> x,
        Func<double, double> y,
        bool high
    )
    {
        var pressure = high ? cycle.Corners[1].PressurePa : cycle.Corners[0].PressurePa;
        var air = picture.Running?.Air.Pascals ?? 101_325;
        var at = y(pressure) + (high ? 20 : -8);
        var shown = units.Format(GaugeScale.Shown(pressure, air));
        room.Ask(
            high ? Say.It($"high side {shown}") : Say.It($"low side {shown}"),
            Letter,
            true,
            high ? "high-name" : "low-name",
            new LabelRoom.Place(
                (x(cycle.Corners[2].EnthalpyJPerKg) + x(cycle.Corners[1].EnthalpyJPerKg)) / 2,
                at,
                "middle"
            ),
            new LabelRoom.Place(Left + 6, at, "start"),
            new LabelRoom.Place(Right - 6, at, "end")
        );
    }

    /// <summary>The same for who cannot see it, and with the figures.</summary>
    public static string InWords(MeasuredCycle cycle, IMeasureFormat units)
    {
        ArgumentNullException.ThrowIfNull(cycle);
        ArgumentNullException.ThrowIfNull(units);
        return string.Join(" ", cycle.Corners.Select(Told));

        string Told(MeasuredCycle.Corner corner, int i)
        {
            var (name, pressure, temperature, heat) = (
                Say.It(corner.Name),
                units.Format(new Measure(QuantityKind.AbsolutePressure, corner.PressurePa)),
                units.Format(Measure.AbsoluteTemperature(corner.TemperatureK)),
                ((corner.EnthalpyJPerKg - cycle.Corners[2].EnthalpyJPerKg) / 1e3).ToString("0", Say.Tongue.Culture)
            );
            return corner.Read
                ? Say.It($"{i + 1} {name}: {pressure}, {temperature}, {heat} kJ/kg above the liquid line.")
                : Say.It(
                    $"{i + 1} {name}: {pressure}, {temperature}, {heat} kJ/kg above the liquid line (temperature not "
                        + $"read: taken as usual)."
                );
        }
    }

    private static string Escape(string text) => SecurityElement.Escape(text);
}
