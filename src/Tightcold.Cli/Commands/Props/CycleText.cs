using System.Globalization;
using Tightcold.App.Diagrams;
using Tightcold.App.Units;
using Tightcold.Cli.Wiring;
using Tightcold.Properties;
using Tightcold.Quantities;
using Tightcold.Tongues;

namespace Tightcold.Cli.Commands.Props;

/// <summary>Reads the corners of a cycle: "label:pressure,enthalpy" with semicolons between, in the diagram's
/// units.</summary>
internal static class CycleText
{
    public static IReadOnlyList<CyclePoint> Read(string? text, DiagramUnits units, Fluid fluid)
    {
        if (string.IsNullOrWhiteSpace(text))
            return [];
        var points = new List<CyclePoint>();
        foreach (var part in text.Split(';', StringSplitOptions.RemoveEmptyEntries | StringSplitOptions.TrimEntries))
        {
            var colon = part.IndexOf(':', StringComparison.Ordinal);
            var numbers = part[(colon + 1)..].Split(',');
            if (
                colon < 1
                || numbers.Length != 2
                || !Number(numbers[0], out var pressure)
                || !Number(numbers[1], out var enthalpy)
            )
                throw new RefusedException(
                    "cycle",
                    part,
                    $"label:pressure,enthalpy is needed, in {Phrase.Verbatim(UnitWords.Of(units.Pressure, Say.Tongue))} and "
                        + $"{Phrase.Verbatim(units.Enthalpy)}"
                );
            var point = new CyclePoint(
                part[..colon],
                pressure / units.PressureFromPa(1),
                enthalpy / units.EnthalpyFromJPerKg(1)
            );
            try
            {
                fluid.AtPressureEnthalpy(point.PressurePa, point.EnthalpyJPerKg);
            }
            catch (FluidRangeException refused)
            {
                throw new RefusedException("cycle", part, Phrase.Verbatim(refused.Message));
            }

            points.Add(point);
        }

        return points;
    }

    private static bool Number(string text, out double value) =>
        double.TryParse(text, NumberStyles.Float, CultureInfo.InvariantCulture, out value);
}
