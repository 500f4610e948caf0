using CsCheck;
using Tightcold.Jobs.Entries;
using Tightcold.Jobs.Fields;

namespace Tightcold.Findings.Tests.Laws;

/// <summary>The laws every journal obeys, over random journals.</summary>
public sealed class JournalLaws
{
    /// <summary>A walk weighs leaks and faults and takes some tenths of a second; CsCheck takes another seed at each
    /// run.</summary>
    private const int Walks = 10;

    private static AJob Kit() =>
        AJob.OnACar(("label-charge", "500 g"), ("internal-volume", "2.2 L"))
            .Holding(
                ("name", "A"),
                ("kind", "can"),
                ("refrigerant", "R-134a"),
                ("net-as-sold", "340 g"),
                ("tare", "97 g"),
                ("gross-now", "437 g")
            )
            .Holding(("name", "B"), ("kind", "can"), ("refrigerant", "R-134a"), ("net-as-sold", "500 g"))
            .Holding(
                ("name", "C"),
                ("kind", "cylinder"),
                ("refrigerant", "R-134a"),
                ("net-as-sold", "5 kg"),
                ("tare", "3 kg")
            )
            .Holding(
                ("name", "R"),
                ("kind", "recovery cylinder"),
                ("refrigerant", "R-134a"),
                ("tare", "8 kg"),
                ("water-capacity", "12 kg")
            );

    private static readonly Gen<(int Kind, int Which, double Mass, int Minute)> Line = Gen.Select(
        Gen.Int[0, 9],
        Gen.Int[0, 2],
        Gen.Double[0, 1],
        Gen.Int[0, 600]
    );

    private static Entry Entry(int index, (int Kind, int Which, double Mass, int Minute) line)
    {
        var name = "ABC"[line.Which].ToString();
        string Grams(double kilograms) => FormattableString.Invariant($"{kilograms * 1000:0.0} g");
        (string Kind, (string, string)[] Fields) made = line.Kind switch
        {
            0 or 1 or 2 => (
                "scale-reading",
                [("container", name), ("gross", Grams((name == "C" ? 3 + 5 * line.Mass : 0.097 + 0.34 * line.Mass)))]
            ),
            3 => (
                "container-moved",
                [
                    ("container", name),
                    ("action", "opened"),
                    ("side", "low side"),
                    ("position", line.Mass > 0.5 ? "inverted (liquid)" : "upright (vapour)"),
                ]
            ),
            4 => ("container-moved", [("container", name), ("action", line.Mass > 0.5 ? "emptied" : "disconnected")]),
            5 => ("recovery", [("container", "R"), ("gross-before", "9 kg"), ("gross-after", Grams(9 + line.Mass))]),
            6 => ("purge", [("hose", "yellow"), ("estimated-loss", Grams(0.02 * line.Mass))]),
            7 => ("opened", [("spot", "condenser")]),
            8 => ("pump", [("action", "started")]),
            _ => (
                "standing-reading",
                [
                    ("low-side", FormattableString.Invariant($"{4.5 * line.Mass:0.00} bar")),
                    ("ambient-temperature", "22 °C"),
                ]
            ),
        };
        return new(
            AJob.Id(index + 1),
            made.Kind,
            AJob.Morning.AddMinutes(line.Minute),
            AJob.Morning.AddMinutes(line.Minute),
            "gen",
            AJob.Bag(EntryKinds.Get(made.Kind), made.Fields)
        );
    }

    private static readonly Gen<Entry[]> Journal = Line.Array[1, 14]
        .Select(lines => lines.Select((line, index) => Entry(index, line)).ToArray());

    private static string Everything(Jobs.Journals.JobRecord record) =>
        string.Join(
            "\n",
            Walk.Of(record)
                .Select(finding =>
                    $"{finding.Step} {finding.Certainty} {finding.Judgement} {finding.Verdict} {finding.Why} {string.Join(";", finding.Estimates)} {string.Join(";", finding.Missing)} {string.Join(";", finding.Cautions)}"
                )
        );

    [Fact]
    public void Containers_hoses_system_recovered_and_lost_always_equal_what_came_in() =>
        Journal.Sample(
            entries =>
            {
                var balance = new JobPicture(Kit().Record(entries)).Mass;
                Assert.Equal(balance.CameInKg, balance.AccountedKg, 9);
            },
            iter: 2000
        );

    [Fact]
    public void The_order_of_writing_does_not_matter() =>
        Gen.Select(Journal, Gen.Int[0, 1000])
            .Sample(
                (entries, seed) =>
                {
                    var shuffled = entries
                        .OrderBy(entry => unchecked((entry.Id.GetHashCode() * 31 + seed) * 2654435761))
                        .ToArray();
                    Assert.Equal(Everything(Kit().Record(entries)), Everything(Kit().Record(shuffled)));
                },
                iter: Walks
            );

    [Fact]
    public void A_struck_entry_influences_nothing() =>
        Gen.Select(Journal, Line)
            .Sample(
                (entries, extra) =>
                {
                    var wrong = Entry(500, extra);
                    var strike = new Entry(
                        AJob.Id(900),
                        EntryKinds.Struck,
                        wrong.ObservedAt,
                        wrong.WrittenAt,
                        "gen",
                        FieldBag.Empty,
                        wrong.Id,
                        "misread"
                    );
                    Assert.Equal(
                        Everything(Kit().Record(entries)),
                        Everything(Kit().Record([.. entries, wrong, strike]))
                    );
                },
                iter: Walks
            );

    [Fact]
    public void A_note_or_a_cost_changes_no_finding() =>
        Journal.Sample(
            entries =>
            {
                var note = new Entry(
                    AJob.Id(600),
                    EntryKinds.Note,
                    AJob.Morning.AddMinutes(5),
                    AJob.Morning,
                    "gen",
                    AJob.Bag(EntryKinds.Get(EntryKinds.Note), ("text", "tea"))
                );
                Assert.Equal(Everything(Kit().Record(entries)), Everything(Kit().Record([.. entries, note])));
            },
            iter: Walks
        );

    [Fact]
    public void No_finding_of_any_journal_holds_a_number_that_is_none_or_an_interval_upside_down() =>
        Journal.Sample(
            entries =>
            {
                foreach (var finding in Walk.Of(Kit().Record(entries)))
                {
                    Assert.True(finding.Next.Length <= 3);
                    foreach (var estimate in finding.Estimates)
                    {
                        Assert.True(estimate.Median is null || double.IsFinite(estimate.Median.Value));
                        if (estimate is { Low: { } low, High: { } high })
                            Assert.True(low <= high, $"{estimate}");
                    }
                }
            },
            iter: 3 * Walks
        );
}
