using System.Diagnostics;
using Tightcold.SecondWorld.Cars;
using Tightcold.SecondWorld.Product;

namespace Tightcold.SecondWorld.Runs;

/// <summary>
/// Cars of the second world before the product: is a sound one called sound, a gross fault named first?
/// </summary>
internal static class CarsRun
{
    private const double SoundShare = 1.0 / 3;
    private static readonly double[] Mixes = [0.1, 1.0 / 3, 0.6];

    private sealed record Scored(
        CarCase Case,
        CarAnswer Answer,
        IReadOnlyList<string> Plain,
        IReadOnlyList<string> Right
    )
    {
        public bool IsSound => Case.Faults.Count == 0;

        public bool FirstRight => Right.Contains(Answer.First);

        public bool FirstTwoRight => Answer.Odds.Take(2).Any(line => Right.Contains(line.Key));

        public double OddsRight => Answer.Odds.Where(line => Right.Contains(line.Key)).Sum(line => line.Odds);
    }

    public static void Run(int count, ulong seed, TextWriter text, bool each, bool returning)
    {
        var clock = Stopwatch.StartNew();
        var scored = new List<Scored>();
        var unanswered = 0;
        for (var i = 0; i < count; i++)
        {
            var one = CaseMaker.Draw(seed + (ulong)i, SoundShare, 0.08);
            var before = returning && CaseMaker.WhenSound(one) is { } sound ? CarJob.Earlier(sound) : null;
            if (CarAnswer.Of(CarJob.Of(one), before) is not { } answer)
            {
                unanswered++;
                continue;
            }
            var right =
                one.Faults.Count == 0
                    ? [CarAnswer.Sound]
                    : one.Faults.SelectMany(fault => FaultNames.Of(fault.Kind, one.Car.Device)).Distinct().ToList();
            scored.Add(new(one, answer, PlainTable.Of(Plain(one)), right));
            if (each)
                text.WriteLine(Line(scored[^1]));
        }
        Report(scored, unanswered, clock.Elapsed.TotalSeconds / Math.Max(1, count), text);
    }

    private static PlainReading Plain(CarCase one)
    {
        var point = one.Points[^1].Setup.FanAid ? one.Points[^2] : one.Points[^1];
        return new(
            0.5e-5 * (point.LowMinPa + point.LowMaxPa),
            0.5e-5 * (point.HighMinPa + point.HighMaxPa),
            point.AmbientC,
            point.VentC,
            point.ClutchIn,
            one.Car.Control == Control.VariableStroke,
            one.Car.Device == Device.OrificeTube,
            point.Glass is Glass.Bubbles or Glass.Foam
        );
    }

    private static string Line(Scored one)
    {
        var faults = one.IsSound
            ? "sound"
            : string.Join('+', one.Case.Faults.Select(fault => $"{fault.Kind} {fault.Severity:F2}"));
        var seen =
            one.Case.Gross ? "gross"
            : one.Case.Seen ? "seen"
            : "";
        var charge =
            $"{one.Case.ChargeKg:F2} in {one.Answer.ChargeLowKg:F2}-{one.Answer.ChargeHighKg:F2} "
            + $"of {one.Case.Car.LabelKg:F2}";
        return $"{one.Case.Seed, 4} {faults, -34} {seen, -5} {(one.FirstRight ? "+" : one.FirstTwoRight ? "2" : "-")} "
            + $"{string.Join(", ", one.Answer.Odds.Take(3).Select(line => $"{line.Key} {line.Odds:F2}"))} | {charge} "
            + $"| table {one.Plain[0]}";
    }

    private static void Report(List<Scored> all, int unanswered, double seconds, TextWriter text)
    {
        var sound = all.Where(one => one.IsSound).ToList();
        var single = all.Where(one => one.Case.Faults.Count == 1).ToList();
        var gross = single.Where(one => one.Case.Gross).ToList();
        var seen = single.Where(one => one.Case.Seen).ToList();
        var two = all.Where(one => one.Case.Faults.Count == 2 && one.Case.Seen).ToList();
        text.WriteLine(
            $"{all.Count} cars weighed, {unanswered} without an answer, {seconds:F1} s a car; "
                + $"{all.Count(one => one.Answer.Remembers)} remembered from an earlier visit."
        );
        text.WriteLine();
        text.WriteLine("| figure | product | gauge table | cars |");
        text.WriteLine("|---|---|---|---|");
        Row("sound car called sound (leads)", sound, one => one.FirstRight, one => one.Plain[0] == CarAnswer.Sound);
        Row(
            "sound car: some fault told at 80 % or more",
            sound,
            one =>
                one.Answer.Odds.Any(line =>
                    line.Odds >= 0.8 && line.Key != CarAnswer.Sound && line.Key != CarAnswer.None
                ),
            null
        );
        Row("gross fault first", gross, one => one.FirstRight, one => one.Right.Contains(one.Plain[0]));
        Row("gross fault in the first two", gross, one => one.FirstTwoRight, one => one.Plain.Any(one.Right.Contains));
        Row("fault that shows, first", seen, one => one.FirstRight, one => one.Right.Contains(one.Plain[0]));
        Row(
            "fault that shows, in the first two",
            seen,
            one => one.FirstTwoRight,
            one => one.Plain.Any(one.Right.Contains)
        );
        Row("two faults: one of them first", two, one => one.FirstRight, one => one.Right.Contains(one.Plain[0]));
        Row(
            "fault that shows: a wrong answer told at 80 % or more",
            seen,
            one => one.Answer.Odds[0].Odds >= 0.8 && !one.FirstRight,
            null
        );
        text.WriteLine();
        text.WriteLine(
            "Mean ln odds of the right answer, none below one in a thousand: "
                + $"{Score(all.Where(one => one.IsSound || one.Case.Seen)):F3} over sound cars and faults that show, "
                + $"{Score(sound):F3} over sound cars, {Score(seen):F3} over faults that show."
        );
        text.WriteLine();
        Mixed(all, text);
        Charge(all, text);
        text.WriteLine("| fault | cars that show it | first | first two | mean odds of the right ones |");
        text.WriteLine("|---|---|---|---|---|");
        foreach (var group in seen.GroupBy(one => one.Case.Faults[0].Kind).OrderByDescending(group => group.Count()))
        {
            text.WriteLine(
                $"| {group.Key} | {group.Count()} | {group.Count(one => one.FirstRight)} "
                    + $"| {group.Count(one => one.FirstTwoRight)} | {group.Average(one => one.OddsRight):F2} |"
            );
        }
        text.WriteLine();

        void Row(string name, List<Scored> cases, Func<Scored, bool> product, Func<Scored, bool>? table) =>
            text.WriteLine(
                $"| {name} | {Share(cases, product)} | {(table is null ? "" : Share(cases, table))} | {cases.Count} |"
            );
    }

    private static double Score(IEnumerable<Scored> cases) =>
        cases.Select(one => Math.Log(Math.Clamp(one.OddsRight, 1e-3, 1))).DefaultIfEmpty().Average();

    private static string Share(List<Scored> cases, Func<Scored, bool> holds) =>
        cases.Count == 0 ? "–" : $"{(double)cases.Count(holds) / cases.Count:F2}";

    /// <summary>
    /// Calibration at three mixes of cases. Cases are weighted to the mix; "told" turns the product's odds of nothing
    /// wrong from its own beforehand to the mix's, as a story of why the reading was taken would.
    /// </summary>
    private static void Mixed(List<Scored> all, TextWriter text)
    {
        text.WriteLine("| share of sound cars | calibration error, prior told | as it stands |");
        text.WriteLine("|---|---|---|");
        var drawn = (double)all.Count(one => one.IsSound) / all.Count;
        foreach (var mix in Mixes)
        {
            Reliability told = new(),
                asIs = new();
            foreach (var one in all.Where(one => one.IsSound || one.Case.Seen))
            {
                var weight = one.IsSound ? mix / drawn : (1 - mix) / (1 - drawn);
                asIs.Add(one.Answer.Odds[0].Odds, one.FirstRight, weight);
                var before = one.Answer.SoundBefore;
                var turned = one
                    .Answer.Odds.Select(line =>
                        (
                            line.Key,
                            Odds: line.Odds * (line.Key == CarAnswer.Sound ? mix / before : (1 - mix) / (1 - before))
                        )
                    )
                    .ToList();
                var lead = turned.MaxBy(line => line.Odds);
                // Odds by fault may overlap (two faults at once): nothing wrong against the rest keeps its meaning.
                var sound = one.Answer.Of(CarAnswer.Sound);
                var whole = sound * mix / before + (1 - sound) * (1 - mix) / (1 - before);
                told.Add(Math.Min(1, lead.Odds / whole), one.Right.Contains(lead.Key), weight);
            }
            text.WriteLine($"| {mix:F2} | {told.Error:F3} | {asIs.Error:F3} |");
        }
        text.WriteLine();
        var bins = new Reliability();
        foreach (var one in all)
            bins.Add(one.Answer.Odds[0].Odds, one.FirstRight);
        text.WriteLine("Leading odds, said against was (all cars as drawn): " + bins.Words() + ".");
        text.WriteLine();
    }

    private static void Charge(List<Scored> all, TextWriter text)
    {
        static bool Holds(Scored one) =>
            one.Case.ChargeKg >= one.Answer.ChargeLowKg && one.Case.ChargeKg <= one.Answer.ChargeHighKg;
        static double Width(Scored one) => (one.Answer.ChargeHighKg - one.Answer.ChargeLowKg) / one.Case.Car.LabelKg;
        var widths = all.Select(Width).Order().ToList();
        text.WriteLine(
            $"Charge: the 90 % interval holds it in {Share(all, Holds)} of {all.Count}; median width "
                + $"{widths[widths.Count / 2]:F2} of the label, mean {widths.Average():F2}."
        );
        text.WriteLine();
    }
}
