using Tightcold.SecondWorld.Leaks;
using Tightcold.SecondWorld.Nitrogen;
using Tightcold.SecondWorld.Product;
using Tightcold.SecondWorld.Vacuum;

namespace Tightcold.SecondWorld.Runs;

/// <summary>Vacuum holds and nitrogen tests of the second world before the product.</summary>
internal static class TightRuns
{
    private const double Kelvin = 273.15;

    /// <summary>
    /// The line that "proven" is held to, g/yr: type approval of one-evaporator systems (2006/40/EC).
    /// </summary>
    private const double LineGramPerYear = 40;
    private const double WetG = 0.5;

    public static void Holds(int count, ulong seed, TextWriter text, bool each)
    {
        var rows = new List<(VacuumCase Case, TightAnswer Answer)>();
        for (var i = 0; i < count; i++)
        {
            var one = VacuumWorld.Draw(seed + (ulong)i);
            var answer = TightAnswer.Of(HoldJob(one));
            rows.Add((one, answer));
            if (each)
            {
                text.WriteLine(
                    $"{one.Seed} circuit {one.CircuitGramPerYear:F0} hose {one.HoseGramPerYear:F0} "
                        + $"water {one.FreeWaterG:F1} dial {one.DialOnly}: {answer.Judgement} rate {answer.Rate} "
                        + $"whole {answer.WholeJobRate} {answer.Verdict} "
                        + string.Join(
                            ' ',
                            one.Leaks.Select(leak => $"{leak.Kind} {leak.GramPerYear:F0} {leak.ShutShare:F2},")
                        )
                        + string.Join(' ', one.Hold.Select(read => $" {read.Minute:F1}:{read.ShownPa:F1}"))
                );
            }
        }
        var fine = rows.Where(row => !row.Case.DialOnly).ToList();
        var good = rows.Where(row => row.Answer.Good).ToList();
        var leaky = rows.Where(row => row.Answer.CalledLeaking).ToList();
        var moist = rows.Where(row =>
                row.Case.FreeWaterG > WetG
                && row.Case.CircuitGramPerYear < LineGramPerYear
                && row.Case.HoseGramPerYear < 100
            )
            .ToList();
        var tight = rows.Where(row =>
                row.Case.FreeWaterG <= 0.05
                && row.Case.CircuitGramPerYear < LineGramPerYear
                && row.Case.HoseGramPerYear < 100
            )
            .ToList();
        text.WriteLine($"{rows.Count} holds, {rows.Count - fine.Count} on a dial alone.");
        text.WriteLine();
        text.WriteLine("| figure | of | share |");
        text.WriteLine("|---|---|---|");
        Line("called good, and the circuit loses more than 40 g/yr", good, row =>
            row.Case.CircuitGramPerYear > LineGramPerYear
        );
        Line("called good, and more than a whole charge (500 g) a year", good, row =>
            row.Case.CircuitGramPerYear > 500
        );
        Line("called good, and more than 0.5 g of free water left", good, row => row.Case.FreeWaterG > WetG);
        Line("tight and dry, called good", tight, row => row.Answer.Good);
        Line("tight and dry, called leaking", tight, row => row.Answer.CalledLeaking);
        Line("moist and tight, called leaking", moist, row => row.Answer.CalledLeaking);
        Line("moist and tight, called not dry", moist, row => row.Answer.CalledWet);
        Line("called leaking, and neither circuit nor hoses lose 40 g/yr", leaky, row =>
            Math.Max(row.Case.CircuitGramPerYear, row.Case.HoseGramPerYear) < LineGramPerYear
        );
        Line(
            "rate stated with the hold: 90 % interval holds what is seen under vacuum",
            rows.Where(row => row.Answer.Rate is not null).ToList(),
            row => In(row.Answer.Rate, row.Case.SeenUnderVacuumGramPerYear + row.Case.HoseGramPerYear)
        );
        Line(
            "rate stated with the hold: holds what the circuit loses",
            rows.Where(row => row.Answer.Rate is not null).ToList(),
            row => In(row.Answer.Rate, row.Case.CircuitGramPerYear)
        );
        Line(
            "rate of the whole job: 90 % interval holds what the circuit loses",
            rows.Where(row => row.Answer.WholeJobRate is not null).ToList(),
            row => In(row.Answer.WholeJobRate, row.Case.CircuitGramPerYear)
        );
        text.WriteLine();

        void Line(
            string name,
            List<(VacuumCase Case, TightAnswer Answer)> of,
            Func<(VacuumCase Case, TightAnswer Answer), bool> holds
        ) =>
            text.WriteLine(
                $"| {name} | {of.Count} | {(of.Count == 0 ? "–" : $"{(double)of.Count(holds)
                / of.Count:F2}")} |"
            );
    }

    private static bool In((double Low, double High)? interval, double value) =>
        interval is { } one && value >= one.Low && value <= one.High;

    private static Jobs.Journals.JobRecord HoldJob(VacuumCase one)
    {
        var job = new JobBuilder(
            (int)one.Seed,
            ("refrigerant", "R-134a"),
            ("label-charge", LabelKg(one.VolumeM3, one.Seed)),
            ("device", "expansion valve"),
            ("compressor", "variable")
        );
        var bore = 0.0052;
        job.Kit_(
            ("vacuum-gauge", one.DialOnly ? "dial" : "absolute"),
            ("hose-bore", bore),
            ("hose-length", one.HoseVolumeM3 / 2 / (Math.PI / 4 * bore * bore))
        );
        if (!one.DialOnly)
            job.Kit_(("vacuum-gauge-step", 1.0), ("vacuum-gauge-plus-minus", 5.0));
        job.At(0, "weather", ("ambient-temperature", one.DayC + Kelvin), ("relative-humidity", 0.55));
        job.At(1, "pump", ("action", "started"), ("sides", "both sides"));
        foreach (var read in one.PumpDown)
            job.At(1 + read.Minute, "vacuum-reading", [.. Fields(one, read, "open")]);
        foreach (var read in one.Hold)
            job.At(1.2 + one.PumpedMinutes + read.Minute, "vacuum-reading", [.. Fields(one, read, "shut")]);
        return job.Record();
    }

    private static IEnumerable<(string, object)> Fields(VacuumCase one, HoldRead read, string valve)
    {
        if (one.DialOnly)
            yield return ("dial", read.ShownPa - Leak.AirPa);
        else
            yield return ("absolute-pressure", read.ShownPa);
        yield return ("pump-valve", valve);
        if (valve == "shut")
            yield return ("held-part", "car and hoses");
        yield return ("part-temperature", read.PartC + Kelvin);
    }

    /// <summary>A label that goes with the volume as labels do, within a fifth.</summary>
    private static double LabelKg(double volumeM3, ulong seed) =>
        Math.Round(volumeM3 * 245 * (1 + 0.18 * Math.Sin(seed * 1.7)), 2);

    public static void NitrogenTests(int count, ulong seed, TextWriter text, bool each)
    {
        var rows = new List<(NitrogenCase Case, TightAnswer Answer)>();
        for (var i = 0; i < count; i++)
        {
            var one = NitrogenWorld.Draw(seed + (ulong)i);
            var answer = TightAnswer.Of(NitrogenJob(one));
            rows.Add((one, answer));
            if (each)
            {
                text.WriteLine(
                    $"{one.Seed} circuit {one.CircuitGramPerYear:F0} hose {one.HoseGramPerYear:F0} "
                        + $"fall {one.LeakFallPa:F0} step {one.StepPa:F0}: {answer.Judgement} {answer.Verdict}"
                );
            }
        }
        text.WriteLine($"{rows.Count} nitrogen tests.");
        text.WriteLine();
        text.WriteLine(
            "| gauge | tight cars | called leaking | leaks that it could show | called leaking "
                + "| called good | of these over 40 g/yr | whole-job interval holds |"
        );
        text.WriteLine("|---|---|---|---|---|---|---|---|");
        foreach (
            var (name, of) in new (string, Func<NitrogenCase, bool>)[]
            {
                ("fine (0.01 bar)", one => one.StepPa < 0.03e5),
                ("dial (0.05 bar)", one => one.StepPa is >= 0.03e5 and < 0.1e5),
                ("dial (0.2 bar)", one => one.StepPa >= 0.1e5),
                ("all", _ => true),
            }
        )
        {
            var group = rows.Where(row => of(row.Case)).ToList();
            var tight = group
                .Where(row => row.Case.CircuitGramPerYear < LineGramPerYear && row.Case.HoseGramPerYear < 100)
                .ToList();
            // A fall of four steps, with two thirds of it from the circuit.
            var open = group
                .Where(row =>
                    row.Case.LeakFallPa > Math.Max(4 * row.Case.StepPa, 0.1e5)
                    && row.Case.CircuitGramPerYear > 2 * row.Case.HoseGramPerYear
                )
                .ToList();
            var good = group.Where(row => row.Answer.Good).ToList();
            text.WriteLine(
                $"| {name} | {tight.Count} | {Share(tight, row => row.Answer.CalledLeaking)} | {open.Count} "
                    + $"| {Share(open, row => row.Answer.CalledLeaking)} | {good.Count} "
                    + $"| {Share(good, row => row.Case.CircuitGramPerYear > LineGramPerYear)} "
                    + $"| {Share(group, row => In(row.Answer.WholeJobRate, row.Case.CircuitGramPerYear))} |"
            );
        }
        text.WriteLine();

        static string Share(
            List<(NitrogenCase Case, TightAnswer Answer)> of,
            Func<(NitrogenCase Case, TightAnswer Answer), bool> holds
        ) => of.Count == 0 ? "–" : $"{(double)of.Count(holds) / of.Count:F2}";
    }

    private static Jobs.Journals.JobRecord NitrogenJob(NitrogenCase one)
    {
        var job = new JobBuilder(
            (int)one.Seed,
            ("refrigerant", "R-134a"),
            ("label-charge", LabelKg(one.VolumeM3, one.Seed)),
            ("device", "expansion valve"),
            ("compressor", "variable")
        );
        job.Kit_(("high-gauge-step", one.StepPa), ("high-gauge-plus-minus", one.StepPa < 0.03e5 ? 0.1e5 : 0.55e5));
        job.At(0, "weather", ("ambient-temperature", one.DayC + Kelvin), ("relative-humidity", 0.55));
        foreach (var read in one.Reads)
        {
            job.At(
                10 + read.Minute,
                "pressure-test",
                ("gas", "dry nitrogen"),
                ("pressure", read.ShownGaugePa),
                ("gas-temperature", read.ShownC + Kelvin),
                ("since-filled", read.Minute * 60)
            );
        }
        return job.Record();
    }
}
