using Tightcold.App.Diagrams;
using Tightcold.App.Expectation;
using Tightcold.App.Units;
using Tightcold.Diagnosis.Faults;
using Tightcold.Jobs.Fields;
using Tightcold.Jobs.Journals;
using Tightcold.Properties;
using Tightcold.Quantities;

namespace Tightcold.Pages.Shown;

/// <summary>The page "what should I see?": the sheet with its question, or what is missing for it.</summary>
/// <param name="Sheet">Null while weather or label lack something.</param>
/// <param name="Fault">The fault shown beside the healthy car; null for none.</param>
public sealed record ExpectModel(
    JobRecord Record,
    ExpectationToday Today,
    ExpectationSheet? Sheet,
    NamedFault? Fault,
    string Rpm,
    string Air
)
{
    /// <summary>What belongs before the gauges, in the order they are put on.</summary>
    private static readonly string[] Keys =
    [
        FieldNames.LowSide,
        "low-side-least",
        "low-side-most",
        FieldNames.HighSide,
        "vent",
        "suction-line",
        "discharge-line",
        "liquid-line",
        "superheat",
        "subcooling",
        "cycles",
    ];

    [Said]
    public static IReadOnlyList<string> Speeds { get; } = ["850 rpm", "1500 rpm", "2000 rpm"];

    [Said]
    public static IReadOnlyList<string> Airs { get; } = ["doors open", "recirculation"];

    /// <summary>Rows for the table: name, then an estimate a column; a steady needle has no swing to show.</summary>
    public IEnumerable<(Phrase Name, IReadOnlyList<Estimate?> Cells)> Rows()
    {
        if (Sheet is null)
            yield break;
        var swings = Sheet.Columns.Any(column =>
            column.Readings.FirstOrDefault(one => one.Key == "cycles") is { Median: > 0.05 }
        );
        foreach (var key in Keys.Where(key => swings || key is not ("low-side-least" or "low-side-most" or "cycles")))
        {
            var cells = Sheet.Columns.Select(column => column.Readings.FirstOrDefault(one => one.Key == key)).ToList();
            if (cells.OfType<Estimate>().FirstOrDefault() is { } named)
                yield return (named.Name, cells);
        }
    }

    /// <summary>The cycle of a column on the pressure-enthalpy diagram; null where nothing runs.</summary>
    public PressureEnthalpyDiagram? Diagram(ExpectedColumn column, UnitSystem units)
    {
        var corners = column
            .Answer.Cycle.Select(point => new CyclePoint(point.Name, point.PressurePa, point.EnthalpyJPerKg))
            .ToList();
        return Sheet is null || corners.Count == 0
            ? null
            : new(FluidCatalog.Get(Sheet.Model.Refrigerant.Name), DiagramUnits.For(units), corners);
    }
}
