using System.Globalization;
using System.Text.Json.Nodes;
using Tightcold.App.Desk;
using Tightcold.App.Diagrams;
using Tightcold.App.Expectation;
using Tightcold.Cli.Show;
using Tightcold.Cli.Wiring;
using Tightcold.Loop.Designs;
using Tightcold.Properties;
using Tightcold.Quantities;
using Tightcold.Tongues;

namespace Tightcold.Cli.Commands.Loop;

/// <summary>What a healthy car, and one with chosen faults, would show at gauges, lines and vents today.</summary>
internal sealed class LoopCommand(Surroundings surroundings) : DeskCommand<LoopSettings>(surroundings)
{
    protected override bool NeedsData(LoopSettings settings) => settings.Car is not null;

    protected override async Task<int> RunAsync(LoopSettings settings, CancellationToken cancellation)
    {
        var (bag, problems) = FieldReader.Read(
            ExpectationDay.Schema,
            FieldArguments.Read(settings.Fields),
            Say.Tongue.Culture
        );
        if (problems.Count > 0)
            throw new RefusedException(problems);
        var car = settings.Car is { } name
            ? await Cars.FindAsync(Desk, name, cancellation).ConfigureAwait(false)
            : null;
        var day = new ExpectationDay(bag);
        var faults = FaultWords.Read(settings.Faults);
        var earlier = car is null
            ? EarlierReadings.None
            : EarlierReadings.Of(
                (await Desk.RecordsOfCarAsync(car.Id, cancellation).ConfigureAwait(false)).Select(
                    record => new Tightcold.Picture.JobPicture(record)
                )
            );
        var sheet = WhatToExpect.For(car, day, faults, earlier);
        var written = new List<string>();
        if (settings.Svg is { } svg)
            written.Add(await DrawAsync(sheet, svg, cancellation).ConfigureAwait(false));
        if (settings.Sweep is { } what)
            written.AddRange(
                await SweepAsync(sheet, faults.FirstOrDefault() ?? [], day.ChargeKg, what, settings, cancellation)
                    .ConfigureAwait(false)
            );
        return Answer(settings, () => Machine(sheet, written), () => Print(sheet, written));
    }

    private void Print(ExpectationSheet sheet, List<string> written)
    {
        var d = sheet.Model.Design;
        Page.Heading(
            Out,
            Say.It(
                $"What to expect, modelled, not measured: {sheet.Model.Refrigerant.Name}, "
                    + $"{Say.It(Driven(d.Compressor))}, {Say.It(Fed(d.Expansion))}, "
                    + $"label {Units.Format(new Measure(QuantityKind.Mass, d.LabelChargeKg))}"
            )
        );
        var table = new TextTable([string.Empty, .. sheet.Columns.Select(column => column.Title)]);
        table.Row([Say.It("the system"), .. sheet.Columns.Select(column => column.StateWords)]);
        table.Row([
            Say.It("parked and soaked, both gauges"),
            .. sheet.Columns.Select(column =>
                Units.Format(
                    new Measure(QuantityKind.GaugePressure, column.Answer.StaticPa - sheet.Conditions.BarometricPa)
                )
            ),
        ]);
        foreach (
            var row in sheet.Columns[0].Readings.Length > 0
                ? sheet.Columns[0].Readings
                : sheet.Columns.SelectMany(column => column.Readings).Take(1)
        )
        {
            table.Row([
                Units.Says(row.Name),
                .. sheet.Columns.Select(column =>
                    column.Readings.FirstOrDefault(estimate => estimate.Key == row.Key) is { } found ? Cell(found) : "-"
                ),
            ]);
        }

        table.Show(Out);
        Page.Line(
            Out,
            Say.It("In brackets: nine cars in ten of this kind and size, with the same fault, lie between.")
        );
        foreach (var assumption in sheet.Assumptions)
            Page.Line(Out, "  " + assumption.Render(Units));
        foreach (var column in sheet.Columns)
        {
            var worst = column.Answer.Balance.Worst.ToString("E1", Units.Culture);
            var walks = column.Answer.Solver.Marches;
            Page.Line(Out, "  " + Say.It($"{column.Key}: balances close to {worst}; {walks} walks round the circuit."));
        }
        foreach (var file in written)
            Page.Line(Out, Say.It($"written to {file}"));
    }

    [Said]
    private static string Driven(CompressorKind kind) =>
        kind switch
        {
            CompressorKind.FixedWithFinThermostat => "FixedWithFinThermostat",
            CompressorKind.FixedCycling => "FixedCycling",
            CompressorKind.Variable => "Variable",
            _ => "Electric",
        };

    [Said]
    private static string Fed(ExpansionKind kind) =>
        kind switch
        {
            ExpansionKind.ExpansionValve => "ExpansionValve",
            _ => "OrificeTube",
        };

    private string Cell(Estimate estimate)
    {
        var middle = Units.Format(new Measure(estimate.Kind, estimate.Median!.Value));
        var (low, high) = (
            new Measure(estimate.Kind, estimate.Low!.Value),
            new Measure(estimate.Kind, estimate.High!.Value)
        );
        return Units.Format(low) == Units.Format(high) ? middle : $"{middle} ({Units.Format(low, high)})";
    }

    private static JsonObject Machine(ExpectationSheet sheet, List<string> written) =>
        new()
        {
            ["refrigerant"] = sheet.Model.Refrigerant.Name,
            ["compressor"] = FindingText.Kebab(sheet.Model.Design.Compressor.ToString()),
            ["expansion"] = FindingText.Kebab(sheet.Model.Design.Expansion.ToString()),
            ["label-charge-kg"] = sheet.Model.Design.LabelChargeKg,
            ["barometer-pa"] = sheet.Conditions.BarometricPa,
            ["columns"] = new JsonArray([
                .. sheet.Columns.Select(column => new JsonObject
                {
                    ["key"] = column.Key,
                    ["title"] = column.Title,
                    ["state"] = FindingText.Kebab(column.State.ToString()),
                    ["regimes"] = new JsonArray([
                        .. column
                            .Answer.Regimes.ToString()
                            .Split(", ")
                            .Select(regime => (JsonNode)FindingText.Kebab(regime)),
                    ]),
                    ["standing-abs-pa"] = column.Answer.StaticPa,
                    ["closure"] = column.Answer.Balance.Worst,
                    ["walks"] = column.Answer.Solver.Marches,
                    ["property-calls"] = column.Answer.Solver.PropertyCalls,
                    ["readings"] = new JsonArray([
                        .. column.Readings.Select(estimate => new JsonObject
                        {
                            ["key"] = estimate.Key,
                            ["kind"] = FindingText.Kebab(estimate.Kind.ToString()),
                            ["origin"] = FindingText.Kebab(estimate.Origin.ToString()),
                            ["median"] = estimate.Median,
                            ["low"] = estimate.Low,
                            ["high"] = estimate.High,
                            ["level"] = estimate.Level,
                        }),
                    ]),
                    ["cycle"] = new JsonArray([
                        .. column.Answer.Cycle.Select(point => new JsonObject
                        {
                            ["name"] = point.Name,
                            ["pressure-pa"] = point.PressurePa,
                            ["enthalpy-j-per-kg"] = point.EnthalpyJPerKg,
                            ["temperature-k"] = point.TemperatureK,
                        }),
                    ]),
                }),
            ]),
            ["assumptions"] = new JsonArray([.. sheet.Assumptions.Select(phrase => (JsonNode)phrase.ToString())]),
            ["written"] = new JsonArray([.. written.Select(file => (JsonNode)file)]),
        };

    private async Task<string> DrawAsync(ExpectationSheet sheet, string file, CancellationToken cancellation)
    {
        var column = sheet.Columns[^1];
        var points = column.Answer.Cycle;
        if (points.IsEmpty)
            throw new RefusedException("svg", file, "nothing runs in this state, so there is no cycle to draw");
        var corners = points
            .Select(
                (point, i) =>
                    new CyclePoint(
                        (i + 1).ToString(CultureInfo.InvariantCulture),
                        point.PressurePa,
                        point.EnthalpyJPerKg
                    )
            )
            .ToList();
        var diagram = new PressureEnthalpyDiagram(
            FluidCatalog.Get(sheet.Model.Refrigerant.Name),
            DiagramUnits.For(Units.System),
            corners
        );
        await Files.WriteAsync("--svg", file, diagram.Svg(), cancellation).ConfigureAwait(false);
        return file;
    }

    private static async Task<IEnumerable<string>> SweepAsync(
        ExpectationSheet sheet,
        IReadOnlyList<AskedFault> asked,
        double? chargeKg,
        string what,
        LoopSettings settings,
        CancellationToken cancellation
    )
    {
        var (usualFrom, usualTo) = what switch
        {
            "charge" => (0.2, 1.6),
            "ambient" => (15, 50),
            "humidity" => (10, 95),
            "rpm" => (700, 4000),
            _ => (0.0, 1.0),
        };
        if (settings.Steps is < 2 or > 10_000)
            throw new RefusedException(
                "steps",
                settings.Steps.ToString(CultureInfo.InvariantCulture),
                "2 to 10000 is allowed"
            );
        LoopSweep? sweep;
        try
        {
            sweep = LoopSweep.Run(
                sheet,
                asked,
                chargeKg,
                what,
                settings.From ?? usualFrom,
                settings.To ?? usualTo,
                settings.Steps
            );
        }
        catch (ArgumentOutOfRangeException outside)
        {
            throw new RefusedException("sweep", what, Phrase.Verbatim(outside.Message.Split('(')[0].TrimEnd(' ', '.')));
        }

        if (sweep is null)
            throw new RefusedException(
                "sweep",
                what,
                $"one of {Phrase.Verbatim(string.Join(", ", LoopSweep.Words))} or a fault's key is allowed"
            );
        var csv = settings.Csv ?? "loop-sweep.csv";
        await Files.WriteAsync("--csv", csv, sweep.Csv(), cancellation).ConfigureAwait(false);
        if (settings.Plot is not { } plot)
            return [csv];
        await Files.WriteAsync("--plot", plot, SweepPlot.Svg(sweep), cancellation).ConfigureAwait(false);
        return [csv, plot];
    }
}
