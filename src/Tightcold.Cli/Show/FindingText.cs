using System.Text.Json.Nodes;
using Spectre.Console;
using Tightcold.Cli.Commands;
using Tightcold.Findings;
using Tightcold.Jobs.Entries;
using Tightcold.Jobs.Journals;
using Tightcold.Jobs.Json;
using Tightcold.Quantities;
using Tightcold.Tongues;

namespace Tightcold.Cli.Show;

/// <summary>A finding on paper: verdict, numbers with their interval, what it rests on, what is missing, what can
/// hurt, what next.</summary>
internal static class FindingText
{
    /// <param name="whole">All cautions and the law with its articles; else the worst caution and how many
    /// more.</param>
    public static void Show(
        IAnsiConsole console,
        Finding finding,
        JobRecord record,
        IMeasureFormat units,
        bool whole = true
    )
    {
        Page.Heading(console, Say.It($"{units.Says(finding.Title)}: {Word(finding)}"));
        Page.Line(console, "  " + finding.Verdict.Render(units));
        if (!finding.Why.IsEmpty)
            Page.Line(console, "  " + finding.Why.Render(units));
        foreach (var estimate in finding.Estimates)
            Page.Line(console, "  " + Numbers(estimate, units));
        // The rules of the place are looked up, not read: tightcold rules prints them line by line.
        if (finding.Table is { } table && finding.Step != Step.Recover)
            Show(console, table, units);
        if (finding.RestsOn.Length > 0)
            Page.Line(console, "  " + Say.It($"rests on: {Sources(finding, record)}"));
        foreach (var assumption in finding.Assumptions)
            Page.Line(
                console,
                "  " + Say.It($"assumed: {assumption.What.Render(units)} ({assumption.Matters.Render(units)})")
            );
        foreach (var missing in finding.Missing)
            Page.Line(console, "  " + Say.It($"missing: {missing.Render(units)}"));
        foreach (var caution in finding.Cautions.Take(whole ? finding.Hazards.Length : finding.OpenCautions))
            Page.Heading(console, "  " + Say.It($"caution: {caution.Render(units)}"));
        if (whole)
            foreach (var line in finding.Law)
                Page.Line(console, "  " + Say.It($"law: {line.Says.Render(units)} ({units.Says(line.ReadOn)})"));
        else if (More(finding) is { Length: > 0 } more)
            Page.Line(console, "  " + Say.It($"read on: {more} with --step {Kebab(finding.Step.ToString())}"));
        foreach (var next in finding.Next)
        {
            Page.Line(
                console,
                "  " + Say.It($"next ({next.Minutes} min): {next.What.Render(units)} ({next.Tells.Render(units)})")
            );
            if (
                record.Job.Number > 0
                && SignWords.Groups.FirstOrDefault(group => group.Name == next.First) is { } signs
            )
            {
                // As they are typed: words of a file.
                var seen = string.Join("; ", signs.Seen);
                Page.Line(
                    console,
                    "    " + Say.It($"written down with job add {record.Job.Number} sign observation=… : {seen}")
                );
            }
        }
        Page.Line(console, "");
    }

    /// <summary>What there is to say; steps that have nothing yet are named in one line.</summary>
    public static void ShowAll(
        IAnsiConsole console,
        IReadOnlyCollection<Finding> findings,
        Step now,
        JobRecord record,
        IMeasureFormat units
    )
    {
        var said = findings
            .Where(finding => finding.Certainty != Certainty.NothingYet || finding.Step == now)
            .ToArray();
        foreach (var finding in said)
            Show(console, finding, record, units, whole: finding.Step == now);
        var quiet = findings.Except(said).Select(finding => units.Tongue.Within(units.Says(finding.Title))).ToArray();
        if (quiet.Length > 0)
            Page.Line(console, Say.It($"Nothing yet: {string.Join(", ", quiet)}."));
    }

    private static string More(Finding finding)
    {
        var (open, lines) = (finding.Hazards.Length - finding.OpenCautions, finding.Law.Length);
        var cautions = Say.Many(open, $"{open} more caution", $"{open} more cautions");
        var law = Say.Many(lines, $"{lines} line of law", $"{lines} lines of law");
        return open > 0 && lines > 0 ? Say.It($"{cautions} and {law}")
            : open > 0 ? cautions
            : lines > 0 ? law
            : "";
    }

    public static JsonObject Machine(Finding finding, IMeasureFormat units)
    {
        var node = new JsonObject
        {
            ["step"] = Kebab(finding.Step.ToString()),
            ["title"] = units.Says(finding.Title),
            ["certainty"] = Kebab(finding.Certainty.ToString()),
            ["judgement"] = Kebab(finding.Judgement.ToString()),
            ["verdict"] = finding.Verdict.Render(units),
            ["why"] = finding.Why.Render(units),
            ["estimates"] = List(finding.Estimates, estimate => Machine(estimate, units)),
            ["rests-on"] = List(finding.RestsOn, id => JsonValue.Create(id.ToString())),
            ["assumptions"] = List(finding.Assumptions, assumption => new JsonObject
            {
                ["what"] = assumption.What.Render(units),
                ["matters"] = assumption.Matters.Render(units),
            }),
            ["missing"] = List(finding.Missing, missing => JsonValue.Create(missing.Render(units))),
            ["cautions"] = List(finding.Cautions, caution => JsonValue.Create(caution.Render(units))),
            ["law"] = List(finding.Law, line => new JsonObject
            {
                ["act"] = Kebab(line.Act.ToString()),
                ["says"] = line.Says.Render(units),
                ["read-on"] = units.Says(line.ReadOn),
                ["keeps"] = line.Keeps,
            }),
            ["next"] = List(finding.Next, next => new JsonObject
            {
                ["what"] = next.What.Render(units),
                ["tells"] = next.Tells.Render(units),
                ["minutes"] = next.Minutes,
                ["entry-kind"] = next.EntryKind,
                ["begins-at"] = next.First,
                ["known"] = new JsonObject(
                    next.Known.Select(known =>
                        KeyValuePair.Create(known.Field, (JsonNode?)JsonValue.Create(known.Text))
                    )
                ),
            }),
        };
        if (finding.Table is { } table)
        {
            node["table"] = new JsonObject
            {
                ["caption"] = units.Says(table.Caption),
                ["columns"] = List(table.Columns, column => JsonValue.Create(units.Says(column))),
                ["rows"] = List(table.Rows, row => List(row, cell => JsonValue.Create(cell.Render(units)))),
            };
        }
        return node;
    }

    /// <summary>“340 g (300 to 380 g, 90 %)”, “at least 300 g (95 %)”.</summary>
    internal static string Numbers(Estimate estimate, IMeasureFormat units)
    {
        string One(double si) => units.Format(new Measure(estimate.Kind, si));
        var level = (estimate.Level * 100).ToString("0", Say.Tongue.Culture) + " %";
        var value = (estimate.Median, estimate.Low, estimate.High) switch
        {
            ({ } median, { } low, { } high) when low == high => One(median),
            ({ } median, { } low, { } high) => Spread(
                units.Format(new Measure(estimate.Kind, median), new(estimate.Kind, low), new(estimate.Kind, high)),
                level
            ),
            (null, { } low, { } high) => $"{units.Format(new(estimate.Kind, low), new(estimate.Kind, high))} ({level})",
            (_, { } low, null) => Say.It($"at least {One(low)} ({level})"),
            (_, null, { } high) => Say.It($"at most {One(high)} ({level})"),
            _ => Say.It("unknown"),
        };
        return Say.It($"{units.Says(estimate.Name)}: {value}, {Say.It(Came(estimate.Origin), NumberOrigin)}");
    }

    private const string NumberOrigin = "where a number comes from";

    [Said(NumberOrigin)]
    private static string Came(EstimateOrigin origin) =>
        origin switch
        {
            EstimateOrigin.Measured => "measured",
            EstimateOrigin.Computed => "computed",
            EstimateOrigin.Modelled => "modelled",
            _ => "assumed",
        };

    private static string Spread((string Value, string Range) shown, string level) =>
        $"{shown.Value} ({shown.Range}, {level})";

    private static JsonObject Machine(Estimate estimate, IMeasureFormat units) =>
        new()
        {
            ["key"] = estimate.Key,
            ["name"] = units.Says(estimate.Name),
            ["unit"] = SiUnit.Of(estimate.Kind),
            ["median"] = estimate.Median,
            ["low"] = estimate.Low,
            ["high"] = estimate.High,
            ["level"] = estimate.Level,
            ["origin"] = Kebab(estimate.Origin.ToString()),
        };

    private static void Show(IAnsiConsole console, FindingTable table, IMeasureFormat units)
    {
        var shown = new TextTable([.. table.Columns.Select(column => units.Says(column))]);
        foreach (var row in table.Rows)
            shown.Row([.. row.Select(cell => cell.Render(units))]);
        Page.Line(console, "  " + units.Says(table.Caption));
        shown.Show(console, indent: 2);
    }

    private static string Word(Finding finding)
    {
        var word = Say.It(Judged(finding), JudgedHere);
        return finding.Certainty == Certainty.Weak ? Say.It($"{word}, weak") : word;
    }

    private const string JudgedHere = "how a step stands";

    [Said(JudgedHere)]
    private static string Judged(Finding finding) =>
        (finding.Certainty, finding.Judgement) switch
        {
            (Certainty.NothingYet, _) => "nothing yet",
            (_, Judgement.Good) => "good",
            (_, Judgement.Bad) => "not good",
            (_, Judgement.CannotTell) => "cannot tell",
            _ => "open",
        };

    private static string Sources(Finding finding, JobRecord record) =>
        string.Join(
            "; ",
            finding
                .RestsOn.GroupBy(id => record.Journal.Find(id)?.Schema.Label)
                .Select(group =>
                    $"{(group.Key is { } label ? Say.It(label) : Say.It("entry"))} "
                    + $"[{string.Join(", ", group.Select(Ids.Short))}]"
                )
        );

    private static JsonArray List<T>(IEnumerable<T> items, Func<T, JsonNode?> node) => new([.. items.Select(node)]);

    internal static string Kebab(string name) =>
        string.Concat(
            name.Select(
                (letter, index) =>
                    char.IsUpper(letter) && index > 0
                        ? "-" + char.ToLowerInvariant(letter)
                        : char.ToLowerInvariant(letter).ToString()
            )
        );
}
