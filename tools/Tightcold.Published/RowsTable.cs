using System.Globalization;
using System.Text;
using Tightcold.Diagnosis.Inference;
using Tightcold.Diagnosis.Measurement;
using Tightcold.Diagnosis.Priors;
using Tightcold.Loop.Designs;
using Tightcold.Studies.Faults;

namespace Tightcold.Published;

/// <summary>Every printed row through the diagnosis: maker's range, the model's band of a sound car, verdict, odds, and
/// the plain gauge table beside it.</summary>
internal sealed class RowsTable
{
    private readonly List<string> lines = [];
    private readonly List<Sound> sound = [];
    private readonly List<Faulty> faulty = [];

    private readonly Dictionary<Channel, List<(bool Inside, bool Under)>> inside = [];

    /// <param name="rows">Rows to weigh.</param>
    /// <param name="effort">How hard to look.</param>
    /// <param name="population">What sound cars are like, by the maker whose row it is.</param>
    /// <param name="why">Why the readings were taken.</param>
    public static string Of(
        IEnumerable<PublishedRow> rows,
        Effort effort,
        Func<string, Population> population,
        ReadingReason why = ReadingReason.NotSaid
    )
    {
        var table = new RowsTable();
        var all = rows.ToArray();
        var answers = new FaultOdds?[all.Length];
        Parallel.For(0, all.Length, new ParallelOptions { MaxDegreeOfParallelism = 2 }, i =>
        {
            if (all[i].LeftOut.Length == 0)
                answers[i] = Diagnoser.Diagnose(Question.Of(all[i], why), effort, 1, population(all[i].Maker));
        });
        for (var i = 0; i < all.Length; i++)
            table.Add(all[i], answers[i]);
        return table.Text();
    }

    private void Add(PublishedRow row, FaultOdds? weighed)
    {
        if (weighed is not { } answer)
        {
            lines.Add($"| {row.Id} | {Air(row)} | {Printed(row)} | | left out: {row.LeftOut} | | |");
            return;
        }

        var evidence = Question.Of(row, ReadingReason.NotSaid);
        var ranked = answer.ByFault().Select(one => (one.Alone.Key, one.Odds)).ToArray();
        var table = evidence.Points[0].Readings.IsEmpty ? [] : Table(evidence);
        var bands = string.Join(", ", answer.Readings.Select(Band));
        var isSound = row.Truth.Length == 0;
        if (isSound)
        {
            foreach (var reading in answer.Readings)
            {
                if (!inside.TryGetValue(reading.Channel, out var list))
                    inside[reading.Channel] = list = [];
                list.Add(
                    (
                        reading.Observed >= reading.Healthy.Low && reading.Observed <= reading.Healthy.High,
                        reading.Observed < reading.Healthy.Low
                    )
                );
            }
        }

        var soundOdds = answer.OddsOf(Hypothesis.NothingWrong);
        var right = isSound ? [Hypothesis.NothingWrong] : row.Truth;
        var place = Array.FindIndex(ranked, one => right.Contains(one.Key)) + 1;
        var tableRight = table.Length > 0 && right.Contains(table[0].Key);
        var worst = ranked.First(one => one.Key != Hypothesis.NothingWrong && one.Key != Hypothesis.NoneOfThese);
        var wrongSurely = ranked.Any(one =>
            one.Odds >= 0.8 && !right.Contains(one.Key) && one.Key != Hypothesis.NoneOfThese
        );
        if (isSound)
            sound.Add(new(row.Maker, place == 1, worst.Odds >= 0.8, soundOdds, tableRight));
        else
            faulty.Add(new(place == 1, place is 1 or 2, wrongSurely, tableRight));
        var verdict = string.Join(
            ", ",
            ranked.Take(3).Select(one => FormattableString.Invariant($"{one.Key} {100 * one.Odds:0}"))
        );
        var how = place switch
        {
            1 => "yes",
            2 => "second",
            _ => "no",
        };
        var plain = string.Join(", ", table.Select(one => one.Key)) + (tableRight ? " ✓" : "");
        lines.Add($"| {row.Id} | {Air(row)} | {Printed(row)} | {bands} | {verdict} | {how} | {plain} |");
    }

    private static (string Key, double Odds)[] Table(DiagnosisEvidence evidence)
    {
        var odds = SymptomTable.Odds(evidence);
        var most = odds.Values.Max();
        return most < 0.1
            ? []
            : [.. odds.Where(pair => pair.Value > most - 1e-9).Select(pair => (pair.Key, pair.Value))];
    }

    private static string Air(PublishedRow row) =>
        row.Air is { } air ? FormattableString.Invariant($"{air.Middle:0.#} °C") : "–";

    private static string Printed(PublishedRow row)
    {
        var text = new StringBuilder();
        void Add(string name, PublishedRow.Range? range)
        {
            if (range is { } one)
                text.Append(
                    CultureInfo.InvariantCulture,
                    $"{(text.Length > 0 ? ", " : "")}{name} {one.From:0.##}–{one.To:0.##}"
                );
        }

        Add("low", row.Low);
        Add("high", row.High);
        Add("vent", row.Vent);
        foreach (var seen in row.Seen)
            text.Append(CultureInfo.InvariantCulture, $", {seen.Key} {seen.Value}");
        return text.ToString();
    }

    private static string Band(ReadingCheck check)
    {
        double Show(double si) =>
            check.Channel is Channel.LowSide or Channel.HighSide or Channel.LowSwingTop
                ? (si - 101_325) / 1e5
                : si - 273.15;
        var name = check.Channel switch
        {
            Channel.LowSide => "low",
            Channel.HighSide => "high",
            Channel.Vent => "vent",
            _ => check.Channel.ToString(),
        };
        var mark =
            check.Observed < check.Healthy.Low ? " (below)"
            : check.Observed > check.Healthy.High ? " (above)"
            : "";
        var (low, high) = (Show(check.Healthy.Low), Show(check.Healthy.High));
        return FormattableString.Invariant($"{name} {low:0.0}–{high:0.0}{mark}");
    }

    private string Text()
    {
        var text = new StringBuilder("| row | air | printed | band of a sound car, 90 % | likeliest, % |");
        text.Append(" right | plain table |\n");
        text.Append("|---|---|---|---|---|---|---|\n");
        foreach (var line in lines)
            text.Append(line).Append('\n');
        text.Append('\n');
        void Add(FormattableString part) => text.Append(part.ToString(CultureInfo.InvariantCulture));
        if (sound.Count > 0)
        {
            var voices = sound.GroupBy(one => one.Maker).Average(group => group.Average(one => one.Leads ? 1.0 : 0));
            Add($"sound rows {sound.Count}: “nothing wrong” leads in {sound.Count(one => one.Leads)}, ");
            Add($"a fault at 80 % or more in {sound.Count(one => one.Surely)}, ");
            Add($"mean odds of sound {sound.Average(one => one.Odds):0.00}; ");
            Add($"plain table {sound.Count(one => one.Table)}\n");
            Add($"  each maker one voice: leads in {voices:P0}\n");
        }

        foreach (var (channel, list) in inside)
        {
            var (held, under) = (list.Count(one => one.Inside), list.Count(one => one.Under));
            Add($"  {channel}: middle inside the band in {held} of {list.Count}; below {under}, ");
            Add($"above {list.Count - held - under}\n");
        }

        if (faulty.Count > 0)
        {
            Add($"fault rows {faulty.Count}: right first {faulty.Count(one => one.First)}, ");
            Add($"first two {faulty.Count(one => one.Two)}, wrong at 80 % or more {faulty.Count(one => one.Surely)}; ");
            Add($"plain table {faulty.Count(one => one.Table)}\n");
        }

        return text.ToString();
    }

    private sealed record Sound(string Maker, bool Leads, bool Surely, double Odds, bool Table);

    private sealed record Faulty(bool First, bool Two, bool Surely, bool Table);
}
