using System.Collections.Immutable;
using System.Globalization;
using System.Text;
using Tightcold.Diagnosis.Faults;
using Tightcold.Diagnosis.NextTest.Tests;
using Tightcold.Jobs.Entries;
using Tightcold.Jobs.Fields;
using Tightcold.Jobs.Kits;
using Tightcold.LeakTests;
using Tightcold.Picture.Leaks;
using Tightcold.Picture.Machine;
using Tightcold.Quantities;

namespace Tightcold.House.Tests;

/// <summary>A fault, a leak test and a next test stand in one file each, with all their words; the document of them is
/// the rows themselves.</summary>
public sealed class RowTests
{
    private const string Document = "docs/faults-and-tests.md";
    private const string From = "<!-- the rows -->\n";

    [Fact]
    public void Every_row_has_a_file_a_number_and_words_of_its_own()
    {
        Rows(Fault.All, "src/Tightcold.Diagnosis/Faults");
        Rows(LeakTestKind.All, "src/Tightcold.LeakTests");
        Rows(TestKind.All, "src/Tightcold.Diagnosis/NextTest/Tests");
    }

    private static void Rows<T>(ImmutableArray<T> rows, string folder)
        where T : Row<T>
    {
        Assert.Equal(Enumerable.Range(0, rows.Length), rows.Select(row => row.Order));
        Assert.Distinct(rows.Select(row => row.Key));
        Assert.Distinct(rows.Select(row => row.Name));
        Assert.All(rows, row => Assert.False(string.IsNullOrWhiteSpace(row.Name)));
        var files = House.Files().Where(file => file.StartsWith(folder + "/", StringComparison.Ordinal));
        Assert.All(typeof(T).GetProperties().Where(row => row.PropertyType == typeof(T)), property =>
            Assert.Contains($"{folder}/{property.Name}.cs", files)
        );
    }

    [Fact]
    public void Every_fault_says_what_mends_it_and_which_form_takes_that_down()
    {
        foreach (var fault in Fault.All)
        {
            Assert.True(fault.Weight > 0, fault.Key);
            Assert.Matches("^[a-z]+(-[a-z]+)*$", fault.Key);
            Assert.All([fault.Mend.What, fault.Mend.Tells], words => Assert.NotEmpty(words));
            Assert.True(fault.Mend.Minutes > 0, fault.Key);
            Assert.NotNull(EntryKinds.Find(fault.Mend.Entry));
            if (fault.Mend.Look is { } look)
                Assert.True(fault.Mend.Then.Length > 0 && SeenSigns.Group(look).Length > 0, fault.Key);
            Assert.All(fault.Asked, asked => Assert.NotNull(NamedFault.Find(asked.Key)));
        }
    }

    [Fact]
    public void Every_leak_test_can_be_written_down_and_is_offered_to_who_owns_what_it_needs()
    {
        FieldType.Choice Tests(string kind) => (FieldType.Choice)EntryKinds.Get(kind).Find("test")!.Type;
        Assert.Equal(LeakTestKind.All.Select(test => test.Key), Tests(EntryKinds.LeakCheck).Words);
        Assert.Subset(Tests(EntryKinds.LeakCheck).Words.ToHashSet(), Tests(EntryKinds.LeakSearch).Words.ToHashSet());
        foreach (var test in LeakTestKind.All)
        {
            Assert.True(test is { Minutes: > 0, HalfSeen.Grams: > 0, FalseAlarm: > 0 and < 1 }, test.Key);
            var owned = FieldBag.Empty.With("leak-tests", new FieldValue.Text(test.Needs ?? "none"));
            Assert.Contains(test, LeakView.Owned(new Kit(Guid.Empty, DateTimeOffset.UnixEpoch, owned, [])));
        }
    }

    [Fact]
    public void Every_next_test_opens_a_form_that_knows_its_fields()
    {
        foreach (var test in TestKind.All)
        {
            Assert.True(test.Minutes > 0, test.Key);
            Assert.Matches("^[a-z]+(-[a-z]+)*$", test.Key);
            var form = EntryKinds.Find(test.Entry ?? (test.Looks is null ? "running-reading" : "sign"));
            Assert.NotNull(form);
            if (test.Begins is { } begins)
                Assert.NotNull(form.Find(begins));
            foreach (var (field, text) in test.Known)
                Assert.Contains(text, Assert.IsType<FieldType.Choice>(form.Find(field)?.Type).Words);
            if (test.Looks is { } look)
                Assert.Single(TestKind.All, other =>
                    other.Looks is { } same && SeenSigns.Group(same) == SeenSigns.Group(look)
                );
        }
    }

    [Fact]
    public void The_document_of_faults_and_tests_holds_the_rows_as_they_are()
    {
        var document = House.Read(Document);
        var at = document.IndexOf(From, StringComparison.Ordinal);
        Assert.True(at > 0, $"{Document} has no mark where the rows begin");
        var expected = Written();
        if (document[(at + From.Length)..] == expected)
            return;
        var file = Path.Combine(Path.GetTempPath(), "rows.md");
        File.WriteAllText(file, expected);
        Assert.Fail($"{Document} is not the rows: what belongs below its mark was written to {file}");
    }

    private static string Written()
    {
        var text = new StringBuilder("\n## Faults\n\n");
        Table(
            text,
            [
                "fault",
                "key",
                "weight",
                "from “worth mending” to the worst",
                "by the story",
                "goes with",
                "mend",
                "caution",
            ],
            Fault.All.Select(fault =>
                (string[])
                    [
                        fault.Name,
                        $"`{fault.Key}`",
                        N(fault.Weight),
                        fault.Severities is { Least: 0, Most: 1 }
                            ? ""
                            : $"{N(fault.Severities.Least)} to {N(fault.Severities.Most)}, {Spread(fault.Severities.Law)}",
                        string.Join(", ", fault.Because.Select(one => $"{Told.Word(one.Why)} × {N(one.Factor)}")),
                        string.Join(", ", fault.With.Select(one => $"{one.Fault.Name} × {N(one.Share)}")),
                        fault.Mend.Then.Length == 0 ? fault.Mend.What : $"{fault.Mend.What}; then: {fault.Mend.Then}",
                        fault.Caution,
                    ]
            )
        );
        text.Append("\n## Leak tests\n\n");
        Table(
            text,
            [
                "test",
                "stored as",
                "kit",
                "minutes a spot",
                "q₅₀ g/yr",
                "k",
                "false alarm",
                "settles, s",
                "reach",
                "feels",
            ],
            LeakTestKind.All.Select(test =>
                (string[])
                    [
                        test.Name,
                        $"`{test.Key}`",
                        test.Needs ?? "–",
                        N(test.Minutes),
                        N(test.HalfSeen.Grams),
                        N(test.HalfSeen.Steepness),
                        N(test.FalseAlarm),
                        N(test.SettleSeconds),
                        Reach(test),
                        Felt(test),
                    ]
            )
        );
        text.Append("\n## Next tests\n\n");
        Table(
            text,
            ["test", "key", "minutes", "written down as", "begins at"],
            TestKind.All.Select(test =>
                (string[])
                    [
                        test.Name,
                        $"`{test.Key}`",
                        N(test.Minutes),
                        $"`{test.Entry ?? (test.Looks is null ? "running-reading" : "sign")}`",
                        (test.Looks is { } look ? SeenSigns.Group(look) : test.Begins) ?? "",
                    ]
            )
        );
        return text.ToString();
    }

    private static void Table(StringBuilder text, string[] heads, IEnumerable<string[]> rows)
    {
        text.Append("| ").AppendJoin(" | ", heads).Append(" |\n|");
        text.Append(string.Concat(heads.Select(_ => "---|"))).Append('\n');
        foreach (var row in rows)
            text.Append("| ").AppendJoin(" | ", row).Append(" |\n");
    }

    private static string N(double value) => value.ToString("0.####", CultureInfo.InvariantCulture);

    private static string Reach(LeakTestKind test) =>
        test.Reach switch
        {
            (null, null) => "the spot's own",
            ({ } evaporator, null) => $"the spot's own; evaporator {N(evaporator)}",
            var (evaporator, others) => $"{N(others ?? 1)}; evaporator {N(evaporator ?? 1)}",
        };

    private static string Spread(SeverityLaw law) =>
        law switch
        {
            SeverityLaw.Even => "even",
            SeverityLaw.AreaLeft => "even in the log of the area left",
            _ => "small ones commoner",
        };

    private static string Felt(LeakTestKind test) =>
        string.Join(
            ", ",
            new (bool Is, string Says)[]
            {
                (test.Goes(Feels.Nitrogen), "nitrogen's pressure"),
                (test.Goes(Feels.Pressure) && !test.Goes(Feels.Nitrogen), "pressure"),
                (test.Goes(Feels.Wind), "wind"),
                (test.Goes(Feels.Dye), "dye put in earlier"),
                (test.Goes(Feels.Residue), "what leaked earlier"),
                (test.GathersSeconds is not null, "the waiting time"),
                (test.Goes(Feels.Coarse), "large leaks only"),
            }
                .Where(one => one.Is)
                .Select(one => one.Says)
        );
}
