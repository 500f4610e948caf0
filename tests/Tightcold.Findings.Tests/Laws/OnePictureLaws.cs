using CsCheck;
using Tightcold.Diagnosis.Measurement;
using Tightcold.Diagnosis.Tightness;
using Tightcold.Findings.Now;
using Tightcold.Jobs.Entries;
using Tightcold.Picture.Charge;
using Tightcold.Picture.Cold;
using Tightcold.Picture.Leaks;
using Tightcold.Picture.Tight;
using Tightcold.Quantities;

namespace Tightcold.Findings.Tests.Laws;

/// <summary>Whatever a journal holds, in whatever order: one quantity is one number wherever it is told, and nothing is
/// said or advised that the state of the circuit excludes.</summary>
public sealed class OnePictureLaws
{
    private const int Journals = 2000;

    private static AJob Kit() =>
        AJob.OnACar(
                ("label-charge", "550 g"),
                ("internal-volume", "2.2 L"),
                ("compressor", "variable"),
                ("device", "expansion valve")
            )
            .Kit_(("vacuum-gauge", "absolute"), ("leak-tests", "electronic detector, nitrogen, soap bubbles"))
            .Holding(
                ("name", "A"),
                ("kind", "can"),
                ("refrigerant", "R-134a"),
                ("net-as-sold", "300 g"),
                ("tare", "92 g"),
                ("gross-now", "392 g")
            )
            .Holding(("name", "B"), ("kind", "can"), ("refrigerant", "R-134a"), ("net-as-sold", "500 g"))
            .Holding(
                ("name", "R"),
                ("kind", "recovery cylinder"),
                ("refrigerant", "R-134a"),
                ("tare", "8 kg"),
                ("water-capacity", "12 kg")
            )
            .At(-5, "weather", ("ambient-temperature", "26 °C"), ("relative-humidity", "55 %"), ("altitude", "200 m"));

    private static readonly string[] Spots =
    [
        "condenser",
        "compressor shaft seal",
        "low-side service valve",
        "evaporator",
    ];

    private static readonly Gen<(int Kind, int Which, double Size, int Minute)> Line = Gen.Select(
        Gen.Int[0, 19],
        Gen.Int[0, 3],
        Gen.Double[0, 1],
        Gen.Int[0, 900]
    );

    private static Entry Entry(int index, (int Kind, int Which, double Size, int Minute) line)
    {
        var spot = Spots[line.Which];
        var can = line.Which % 2 == 0 ? "A" : "B";
        string Number(double value, string unit) => FormattableString.Invariant($"{value:0.00} {unit}");
        (string Kind, (string, string)[] Fields) made = line.Kind switch
        {
            0 => (
                "standing-reading",
                [
                    ("low-side", Number(-0.4 + (8 * line.Size), "bar")),
                    ("high-side", Number(-0.4 + (8 * line.Size) + (line.Which == 3 ? 3 : 0), "bar")),
                    ("ambient-temperature", "26 °C"),
                    ("since-engine-ran", "9 h"),
                ]
            ),
            1 => (
                "running-reading",
                [
                    ("low-side", Number(-0.5 + (5 * line.Size), "bar")),
                    ("high-side", Number(2 + (20 * line.Size), "bar")),
                    ("engine-speed", "1500 1/min"),
                    ("ambient-temperature", "27 °C"),
                    ("vent-temperature", Number(4 + (18 * line.Size), "°C")),
                ]
            ),
            2 or 3 => (
                "leak-check",
                [
                    ("spot", spot),
                    ("test", line.Size > 0.5 ? "soap bubbles" : "electronic detector"),
                    (
                        "outcome",
                        line.Size > 0.8 ? "clear leak"
                        : line.Size > 0.7 ? "trace"
                        : "nothing"
                    ),
                    ("system-pressure", Number(10 * line.Size, "bar")),
                ]
            ),
            4 => (
                "recovery",
                [("container", "R"), ("gross-before", "9 kg"), ("gross-after", Number(9 + (0.6 * line.Size), "kg"))]
            ),
            5 => ("opened", [("spot", spot)]),
            6 => ("closed", [("spot", spot)]),
            7 => ("seal-changed", [("spot", spot), ("seal", "O-ring, HNBR")]),
            8 => ("part-changed", [("spot", spot), ("part", "new one")]),
            9 => (
                "oil-moved",
                [("direction", "added"), ("amount", Number(5 + (60 * line.Size), "mL")), ("oil-type", "PAG 46")]
            ),
            10 => ("pump", [("action", line.Size > 0.3 ? "started" : "stopped")]),
            11 or 12 => (
                "vacuum-reading",
                [
                    ("absolute-pressure", Number(0.2 + (4 * line.Size), "mbar")),
                    ("pump-valve", line.Which > 1 ? "shut" : "open"),
                    ("part-temperature", "26 °C"),
                ]
            ),
            13 => (
                "pressure-test",
                [("gas", "dry nitrogen"), ("pressure", Number(15 * line.Size, "bar")), ("gas-temperature", "26 °C")]
            ),
            14 => (
                "container-moved",
                [
                    ("container", can),
                    ("action", new[] { "connected", "opened", "closed", "disconnected" }[line.Which]),
                    ("side", "low side"),
                ]
            ),
            15 => (
                "scale-reading",
                [("container", can), ("gross", Number((can == "A" ? 95 : 130) + (300 * line.Size), "g"))]
            ),
            16 => (
                "purge",
                [("hose", "yellow"), ("method", "short burst of gas"), ("estimated-loss", Number(8 * line.Size, "g"))]
            ),
            18 => ("sign", [("observation", SignWords.All[(int)(line.Size * (SignWords.All.Length - 1))])]),
            19 => ("story", [("told", StoryWords.All[(int)(line.Size * (StoryWords.All.Length - 1))])]),
            _ => (
                "vent-reading",
                [
                    ("vent-temperature", Number(3 + (25 * line.Size), "°C")),
                    ("ambient-temperature", "27 °C"),
                    ("air-source", line.Which > 1 ? "fresh" : "recirculated"),
                    ("blower", "full"),
                    ("cabin-temperature", "25 °C"),
                    ("since-start", "15 min"),
                ]
            ),
        };
        return new(
            AJob.Id(index + 100),
            made.Kind,
            AJob.Morning.AddMinutes(line.Minute),
            AJob.Morning.AddMinutes(line.Minute),
            "gen",
            AJob.Bag(EntryKinds.Get(made.Kind), made.Fields)
        );
    }

    private static readonly Gen<Entry[]> Journal = Line.Array[1, 16]
        .Select(lines => lines.Select((line, index) => Entry(index, line)).ToArray());

    /// <summary>The shape of a real day, cut off anywhere: arrival, search, recovery, repair, vacuum, charge,
    /// proof.</summary>
    private static readonly Gen<Entry[]> Day = Gen.Select(Line.Array[12, 16], Gen.Int[1, 16])
        .Select(
            (lines, cut) =>
            {
                int[] order = [0, 1, 2, 3, 4, 5, 7, 9, 6, 13, 2, 10, 11, 12, 15, 17];
                return lines
                    .Take(Math.Min(cut, lines.Length))
                    .Select((line, index) => Entry(index, line with { Kind = order[index], Minute = 20 * index }))
                    .ToArray();
            }
        );

    private static JobPicture Picture(Entry[] entries) =>
        new(Kit().Record([.. Kit().Entries, .. entries]), atAGlance: true, tightness: TightnessEffort.Glance);

    private static readonly Gen<Entry[]> Any = Gen.OneOf(Journal, Day);

    [Fact]
    public void One_quantity_is_one_number_wherever_it_is_told_and_nothing_is_said_that_the_state_of_the_circuit_excludes() =>
        Any.Sample(
            entries =>
            {
                var picture = Picture(entries);
                var findings = Walk.Of(picture);
                OneNumber(picture, findings);
                NothingExcluded(picture, findings);
            },
            iter: Journals
        );

    private static void OneNumber(JobPicture picture, System.Collections.Immutable.ImmutableArray<Finding> findings)
    {
        Estimate? Told(Step step, string key) =>
            findings.Single(finding => finding.Step == step).Estimates.FirstOrDefault(estimate => estimate.Key == key);

        // In the system: weigh-in, ledger, the curve and the charge that everything else speaks of.
        var weighed = Math.Max(0, picture.Mass.SystemKg);
        if (Told(Step.WeighIn, "in-system") is { } inside)
            Assert.Equal(weighed, inside.Median!.Value, 12);
        if (Told(Step.Ledger, "in-system-now") is { } ledger)
            Assert.Equal(weighed, ledger.Median!.Value, 12);
        Assert.Equal(picture.Mass.SystemKg, picture.Mass.Course[^1].SystemKg, 12);
        if (
            picture.Charge is { From: ChargeFrom.Scale, Kg: { } charge }
            && picture.Timeline.Now.Inside == Inside.Charge
        )
            Assert.Equal(weighed, charge, 12);

        // The first proof: sentence, number, outcome.
        var hold = findings.Single(finding => finding.Step == Step.Hold);
        var odds = Math.Clamp(picture.Tight.Odds, 0.01, 0.99);
        if (Told(Step.Hold, "still-cools") is { } cools)
            Assert.Equal(odds, cools.Median!.Value, 12);
        Assert.Equal(picture.Tight.Outcome == TightOutcome.Proven, hold.Judgement == Judgement.Good);
        Assert.Equal(
            picture.Tight.Outcome == TightOutcome.Proven,
            hold.Verdict.ToString().StartsWith("Proven tight", StringComparison.Ordinal)
        );
        if (hold.Verdict.ToString().Contains("still cool", StringComparison.Ordinal))
            Assert.Contains(hold.Verdict.Parts, part =>
                part is PhrasePart.One { Value: { Kind: QuantityKind.Ratio } ratio }
                && Math.Abs(ratio.Si - odds) < 1e-12
            );

        // The second proof.
        var cold = findings.Single(finding => finding.Step == Step.ProveCold);
        Assert.Equal(picture.Cold is { Outcome: ColdOutcome.Proven }, cold.Judgement == Judgement.Good);

        // Each spot: table and map; that another remains: sentence and number.
        var search = findings.Single(finding => finding.Step == Step.LeakSearch);
        if (search.Table is { } table)
        {
            var map = SpotView.Of(picture.Leaks);
            Assert.Equal(
                map.Select(spot => Math.Clamp(spot.Belief.Leaking, 0.01, 0.99)),
                table.Rows.Select(row => ((PhrasePart.One)row[4].Parts[0]).Value.Si)
            );
        }
        if (Told(Step.LeakSearch, "another-remains") is { } another)
            Assert.Equal(Math.Clamp(picture.Leaks.Belief.AnotherRemains, 0.01, 0.99), another.Median!.Value, 12);

        // No two findings tell the odds of one thing apart.
        foreach (
            var same in findings
                .SelectMany(finding => finding.Estimates)
                .Where(estimate => estimate.Kind == QuantityKind.Ratio)
                .GroupBy(estimate => estimate.Key)
        )
            Assert.Single(same.Select(estimate => estimate.Median).Distinct());
    }

    private static void NothingExcluded(
        JobPicture picture,
        System.Collections.Immutable.ImmutableArray<Finding> findings
    )
    {
        var (state, now) = (picture.Timeline.Now, NowWords.Of(picture));
        var advised = findings.SelectMany(finding => finding.Next).ToList();
        if (now.Action is { } action)
            advised.Add(action);
        if (!state.HoldsRefrigerant)
        {
            Assert.DoesNotContain(advised, next => next.Does == Doing.RunsCompressor);
            Assert.DoesNotContain(findings, finding =>
                finding.Verdict.ToString().StartsWith("Liquid is present", StringComparison.Ordinal)
                || finding.Verdict.ToString().StartsWith("Vapour only", StringComparison.Ordinal)
            );
        }
        if (state.NeedsVacuum)
        {
            Assert.DoesNotContain(advised, next => next.Does == Doing.FillsIn);
            Assert.NotEqual(Step.WeighIn, now.Step);
            Assert.Contains(picture.Charge.From, new[] { ChargeFrom.None, ChargeFrom.Scale, ChargeFrom.Nothing });
        }
        // What was seen counts once a group, in the state of repair that is weighed, and never with nothing inside.
        if (picture.Evidence is { } weighed)
        {
            Assert.Distinct(weighed.Evidence.Signs.Select(sign => SignGroups.Of(sign)[0]));
            Assert.Equal(weighed.Evidence.Signs.Length, weighed.Seen.Entries.Length);
            Assert.All(weighed.Seen.Entries, id =>
                Assert.InRange(picture.Timeline.After(picture.Record.Journal.Find(id)!).Epoch, weighed.Epoch, state.Epoch)
            );
        }
        if (state.HoldsRefrigerant)
            Assert.DoesNotContain(advised, next => next.Does == Doing.PullsVacuum);
        if (state.ChargedOnto != Foreign.Nothing)
            Assert.True(now.IsUrgent);
        // A finding rests on nothing that cannot be, but for the one that says so.
        foreach (
            var finding in findings.Where(finding =>
                !finding.Verdict.ToString().Contains("cannot be", StringComparison.Ordinal)
            )
        )
            Assert.DoesNotContain(finding.RestsOn, picture.Timeline.Doubted.ContainsKey);
        // What runs, runs in a state that allows it.
        foreach (var timer in WorkTimers.Of(picture))
        {
            if (timer.Kind is TimerKind.PumpingDown or TimerKind.Holding or TimerKind.LastOfTheHold)
                Assert.Equal(Inside.Vacuum, state.Inside);
            if (timer.Kind == TimerKind.CircuitOpen)
                Assert.Equal(Inside.Air, state.Inside);
            if (timer.Kind == TimerKind.ContainerGives)
                Assert.Equal(Inside.Charge, state.Inside);
        }
    }

    [Fact]
    public void Every_kind_of_entry_says_how_it_changes_the_circuit()
    {
        var record = Kit().Record();
        foreach (var kind in EntryKinds.All)
        {
            var entry = new Entry(
                AJob.Id(77),
                kind.Name,
                AJob.Morning.AddMinutes(9),
                AJob.Morning.AddMinutes(9),
                "gen",
                Jobs.Fields.FieldBag.Empty
            );
            var (journal, _) = Jobs.Journals.Journal.Create([.. record.Journal.All, entry]);
            Assert.NotNull(Timeline.Of(record with { Journal = journal! }));
        }
    }
}
