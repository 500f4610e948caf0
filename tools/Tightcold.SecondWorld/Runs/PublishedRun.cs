using Tightcold.SecondWorld.Cars;
using Tightcold.SecondWorld.Product;

namespace Tightcold.SecondWorld.Runs;

/// <summary>
/// Every published row through the product, none hidden: the maker's range, the product's band, its verdict, its odds.
/// </summary>
internal static class PublishedRun
{
    private const double Kelvin = 273.15;
    private const double AirPa = 101325;
    private const double BarPa = 1e5;

    /// <summary>Where a text does not say how warm it was; such rows are shown and not scored by band.</summary>
    private const double AssumedC = 30;
    private const double Told = 0.8;

    private sealed record Weighed(
        PublishedRow Row,
        CarAnswer Answer,
        IReadOnlyList<string> Plain,
        IReadOnlyList<string> Right
    );

    public static void Run(TextWriter text)
    {
        var rows = PublishedRow.Read();
        Sound(rows.Where(row => row.Text("group") == "sound").ToList(), text);
        Faults(rows.Where(row => row.Text("group") == "fault").ToList(), text);
        General(rows.Where(row => row.Text("group") == "general").ToList(), text);
    }

    private static void Sound(List<PublishedRow> rows, TextWriter text)
    {
        text.WriteLine("### Sound cars, makers' charts");
        text.WriteLine();
        text.WriteLine(
            "Low and high in bar gauge, vent in °C: printed, then where the product's model has "
                + "nine in ten sound cars; "
                + "* middle outside."
        );
        text.WriteLine();
        text.WriteLine("| row | air °C | low | high | vent | leads | nothing wrong | gauge table | remark |");
        text.WriteLine("|---|---|---|---|---|---|---|---|---|");
        var weighed = new List<Weighed>();
        foreach (var row in rows)
        {
            var answer = Weigh([row]);
            if (answer is null)
            {
                text.WriteLine(
                    $"| {row.Id} | {Air(row)} | {Printed(row, "low")} "
                        + $"| {Printed(row, "high")} | {Printed(row, "vent")} "
                        + $"| not weighed | | | {Remark(row)} |"
                );
                continue;
            }
            var one = new Weighed(row, answer, Plain(row), [CarAnswer.Sound]);
            weighed.Add(one);
            text.WriteLine(
                $"| {row.Id} | {Air(row)} | {Band(one, "low", "LowSide")} | {Band(one, "high", "HighSide")} "
                    + $"| {Band(one, "vent", "Vent")} | {Leads(answer)} | {answer.Of(CarAnswer.Sound):F2} "
                    + $"| {First(one.Plain)} | {Remark(row)} |"
            );
        }
        text.WriteLine();
        var scored = weighed
            .Where(one => one.Row.Flag.Length == 0 && one.Row.Number("air_from_c") is not null)
            .ToList();
        text.WriteLine(
            $"Scored (no flag, temperature printed): {scored.Count} of {rows.Count}. Nothing wrong leads in "
                + $"{scored.Count(one => one.Answer.First == CarAnswer.Sound)}; a fault told at 80 % or more in "
                + $"{scored.Count(one => TellsAFault(one.Answer))}; mean odds of nothing wrong "
                + $"{scored.Average(one => one.Answer.Of(CarAnswer.Sound)):F2}; the gauge table calls "
                + $"{scored.Count(one => one.Plain.Count > 0 && one.Plain[0] == CarAnswer.Sound)} of "
                + $"{scored.Count(one => one.Plain.Count > 0)} normal."
        );
        foreach (var (name, channel) in new[] { ("low", "LowSide"), ("high", "HighSide"), ("vent", "Vent") })
        {
            var with = scored.Where(one => one.Row.Middle(name) is not null && Of(one, channel) is not null).ToList();
            var under = with.Count(one => InSi(one.Row, name) < Of(one, channel)!.Low);
            var over = with.Count(one => InSi(one.Row, name) > Of(one, channel)!.High);
            text.WriteLine(
                $"Maker's middle inside the 90 % band, {name}: {with.Count - under - over} of {with.Count} "
                    + $"({under} below it, {over} above)."
            );
        }
        text.WriteLine();
    }

    private static void Faults(List<PublishedRow> rows, TextWriter text)
    {
        text.WriteLine("### Readings printed for a fault");
        text.WriteLine();
        text.WriteLine(
            "| row | air °C | low | high | cause printed | product's first | second "
                + "| odds of the cause | gauge table | remark |"
        );
        text.WriteLine("|---|---|---|---|---|---|---|---|---|---|");
        var weighed = new List<Weighed>();
        for (var i = 0; i < rows.Count; i++)
        {
            var row = rows[i];
            // Two rows of one car that alternate are one visit.
            var group = row.Text("seen") == "swings with next" ? new List<PublishedRow> { row, rows[i + 1] } : [row];
            if (row.Text("seen") == "swings with last")
                continue;
            var label = string.Join(" + ", group.Select(one => one.Id));
            var lows = string.Join(", ", group.Select(one => Printed(one, "low")));
            var highs = string.Join(", ", group.Select(one => Printed(one, "high")));
            var device = row.Text("device") == "orifice tube" ? Device.OrificeTube : Device.ExpansionValve;
            var kinds = row.Text("cause")
                .Split(' ', StringSplitOptions.RemoveEmptyEntries)
                .Select(Enum.Parse<FaultKind>)
                .ToList();
            var right = kinds.SelectMany(kind => FaultNames.Of(kind, device)).Distinct().ToList();
            var answer = Weigh(group);
            if (answer is null || kinds.Count == 0)
            {
                var told = kinds.Count == 0 ? "not told" : row.Text("cause");
                text.WriteLine(
                    $"| {label} | {Air(row)} | {lows} | {highs} | {told} "
                        + $"| {(answer is null ? "not weighed" : Leads(answer))} | | | | {Remark(row)} |"
                );
                continue;
            }
            var one = new Weighed(row, answer, Plain(row), right);
            weighed.Add(one);
            var causes = string.Join(" or ", kinds);
            var oddsRight = answer.Odds.Where(line => right.Contains(line.Key)).Sum(line => line.Odds);
            text.WriteLine(
                $"| {label} | {Air(row)} | {lows} | {highs} | {causes} "
                    + $"| {Leads(answer)} | {Second(answer)} | {oddsRight:F2} "
                    + $"| {First(one.Plain)} | {Remark(row)} |"
            );
        }
        text.WriteLine();
        var wrong = weighed.Count(one => one.Answer.Odds[0].Odds >= Told && !one.Right.Contains(one.Answer.First));
        var first = weighed.Count(one => one.Right.Contains(one.Answer.First));
        var firstTwo = weighed.Count(one => one.Answer.Odds.Take(2).Any(line => one.Right.Contains(line.Key)));
        text.WriteLine(
            $"{weighed.Count} rows: right first {first}, in the first two {firstTwo}, "
                + $"wrong at 80 % or more {wrong}; gauge table right first "
                + $"{weighed.Count(one => one.Plain.Count > 0 && one.Right.Contains(one.Plain[0]))}, in its first two "
                + $"{weighed.Count(one => one.Plain.Any(one.Right.Contains))}."
        );
        text.WriteLine();
    }

    private static void General(List<PublishedRow> rows, TextWriter text)
    {
        text.WriteLine("### General tables without a source");
        text.WriteLine();
        text.WriteLine("| row | air °C | low | high | vent | leads | nothing wrong |");
        text.WriteLine("|---|---|---|---|---|---|---|");
        foreach (var row in rows)
        {
            var answer = Weigh([row]);
            text.WriteLine(
                $"| {row.Id} | {Air(row)} | {Printed(row, "low")} "
                    + $"| {Printed(row, "high")} | {Printed(row, "vent")} "
                    + (answer is null ? "| not weighed | |" : $"| {Leads(answer)} | {answer.Of(CarAnswer.Sound):F2} |")
            );
        }
        text.WriteLine();
    }

    private static bool TellsAFault(CarAnswer answer) =>
        answer.Odds[0] is var lead && lead.Odds >= Told && lead.Key is not (CarAnswer.Sound or CarAnswer.None);

    private static CarAnswer? Weigh(List<PublishedRow> rows)
    {
        var row = rows[0];
        if (rows.All(one => Value(one, "low") is null && Value(one, "high") is null && Value(one, "vent") is null))
            return null;
        var fields = new List<(string, object)>
        {
            ("refrigerant", row.Text("refrigerant") == "R-1234yf" ? "R-1234yf" : "R-134a"),
        };
        if (row.Text("device").Length > 0)
            fields.Add(("device", row.Text("device")));
        if (row.Text("compressor") is { Length: > 0 } kind)
            fields.Add(("compressor", kind == "cycling clutch" ? "fixed, cycling" : kind));
        var job = new JobBuilder(1, [.. fields]);
        var minute = 10.0;
        foreach (var one in rows)
            job.At(minute += 5, "running-reading", [.. Fields(one)]);
        return CarAnswer.Of(job.Record());
    }

    private static IEnumerable<(string, object)> Fields(PublishedRow row)
    {
        var air = row.Middle("air") ?? AssumedC;
        yield return ("ambient-temperature", air + Kelvin);
        // A chart on recirculated air is drawn over the air at the inlet.
        if (row.Text("air_source") == "recirculated")
            yield return ("cabin-temperature", air + Kelvin);
        if (row.Middle("humidity") is { } humidity)
            yield return ("relative-humidity", humidity / 100);
        var rpm = row.Text("speed") switch
        {
            "idle" => 800,
            "engine off" => (double?)null,
            _ => row.Number("speed"),
        };
        if (rpm is { } turns)
            yield return ("engine-speed", turns / 60);
        if (row.Text("air_source").Length > 0)
            yield return ("air-source", row.Text("air_source"));
        if (row.Text("blower").Length > 0)
            yield return ("blower", row.Text("blower"));
        if (row.Text("doors").Length > 0)
            yield return ("doors", row.Text("doors"));
        if (Value(row, "low") is { } low)
            yield return ("low-side", low * BarPa);
        if (Value(row, "high") is { } high)
            yield return ("high-side", high * BarPa);
        if (Value(row, "vent") is { } vent && vent > 0)
            yield return ("vent-temperature", vent + Kelvin);
        if (row.Text("seen") is "bubbles" or "clear")
            yield return ("sight-glass", row.Text("seen"));
        yield return ("clutch", "on");
    }

    /// <summary>The middle; of a one-sided print a little inside the limit.</summary>
    private static double? Value(PublishedRow row, string name)
    {
        if (row.Middle(name) is { } middle)
            return middle;
        return name switch
        {
            // "Below zero", "below 1.2": a reading a little under the limit.
            "low" when row.Range(name).To is { } most => most - 0.2,
            _ => null,
        };
    }

    private static IReadOnlyList<string> Plain(PublishedRow row) =>
        Value(row, "low") is { } low && Value(row, "high") is { } high
            ? PlainTable.Of(
                new(
                    low,
                    high,
                    row.Middle("air") ?? AssumedC,
                    row.Middle("vent"),
                    true,
                    row.Text("compressor") is { Length: > 0 } kind ? kind is "variable" or "electric" : null,
                    row.Text("device") is { Length: > 0 } device ? device == "orifice tube" : null,
                    row.Text("seen") == "bubbles"
                )
            )
            : [];

    private static SoundBand? Of(Weighed one, string channel) =>
        one.Answer.Bands.FirstOrDefault(band => band.Channel == channel);

    private static string Band(Weighed one, string name, string channel)
    {
        var printed = Printed(one.Row, name);
        if (Of(one, channel) is not { } band)
            return printed;
        double Shown(double si) => name == "vent" ? si - Kelvin : (si - AirPa) / BarPa;
        var outside = one.Row.Middle(name) is { } middle && (middle < Shown(band.Low) || middle > Shown(band.High));
        return $"{printed} in {Shown(band.Low):F1}–{Shown(band.High):F1}{(outside ? " *" : "")}";
    }

    private static double InSi(PublishedRow row, string name) =>
        name == "vent" ? row.Middle(name)!.Value + Kelvin : row.Middle(name)!.Value * BarPa + AirPa;

    private static string Printed(PublishedRow row, string name)
    {
        var (from, to) = row.Range(name);
        return (from, to) switch
        {
            (null, null) => "",
            ({ } a, null) => $"from {a}",
            (null, { } b) => $"to {b}",
            ({ } a, { } b) => a.Equals(b) ? $"{a}" : $"{a}–{b}",
        };
    }

    private static string Air(PublishedRow row) => Printed(row, "air") is { Length: > 0 } air ? air : $"({AssumedC})";

    private static string Leads(CarAnswer answer) => $"{answer.Odds[0].Key} {answer.Odds[0].Odds:F2}";

    private static string Second(CarAnswer answer) => $"{answer.Odds[1].Key} {answer.Odds[1].Odds:F2}";

    private static string First(IReadOnlyList<string> plain) => plain.Count > 0 ? plain[0] : "";

    private static string Remark(PublishedRow row) => row.Flag;
}
