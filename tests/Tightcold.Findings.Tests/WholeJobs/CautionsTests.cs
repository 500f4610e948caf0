using Tightcold.Findings.Now;
using Tightcold.Jobs.Entries;
using Tightcold.Procedures.Rules;
using Tightcold.Procedures.Substances;
using Tightcold.Quantities;

namespace Tightcold.Findings.Tests.WholeJobs;

/// <summary>What can hurt stands at the act: every hazard of the substance and of the step, the worst first, each
/// once; and what the law keeps from the person is nowhere the next step without its word.</summary>
public sealed class CautionsTests
{
    // What the hands do at a step, written down here apart from the product.
    private static readonly Dictionary<Step, WorkStep> Hands = new()
    {
        [Step.StandingPressure] = WorkStep.Gauges,
        [Step.RunningPressures] = WorkStep.Gauges,
        [Step.LeakSearch] = WorkStep.LeakSearch,
        [Step.Recover] = WorkStep.Recover,
        [Step.Mend] = WorkStep.Mend,
        [Step.PumpDown] = WorkStep.PumpDown,
        [Step.Hold] = WorkStep.Holding,
        [Step.WeighIn] = WorkStep.Charge,
        [Step.ProveCold] = WorkStep.Run,
        [Step.Ledger] = WorkStep.Store,
    };

    // What a step brings itself, whatever is in the circuit: taken out of the product, the test fails.
    private static readonly Dictionary<Step, string> OfTheStep = new()
    {
        [Step.StandingPressure] = "freeze",
        [Step.RunningPressures] = "high-valve moving-parts",
        [Step.LeakSearch] = "moving-parts",
        [Step.Recover] = "recovery-cylinder freeze",
        [Step.Mend] = "freeze seals",
        [Step.PumpDown] = "pump-under-pressure compressor-under-vacuum",
        [Step.Hold] = "nitrogen",
        [Step.WeighIn] = "low-side-only can-bath freeze",
        [Step.ProveCold] = "moving-parts",
        [Step.Ledger] = "",
    };

    public static TheoryData<string, string, bool> Circuits =>
        new()
        {
            { "R-134a", "fixed, cycling", false },
            { "R-134a", "electric", false },
            { "R-1234yf", "fixed, cycling", false },
            { "R-1234yf", "electric", false },
            { "R-1234yf", "fixed, cycling", true },
        };

    private static AJob Job(string refrigerant, string compressor, bool mixed)
    {
        var job = AJob.OnACar(
                ("refrigerant", refrigerant),
                ("label-charge", "500 g"),
                ("internal-volume", "2.5 L"),
                ("oil-amount", "120 mL"),
                ("compressor", compressor)
            )
            .At(0, "weather", ("ambient-temperature", "25 °C"), ("relative-humidity", "60 %"))
            .Holding(
                ("name", "A"),
                ("kind", "can"),
                ("refrigerant", refrigerant),
                ("net-as-sold", "340 g"),
                ("gross-now", "478 g"),
                ("tare", "138 g")
            );
        return mixed
            ? job.At(
                5,
                "standing-reading",
                ("low-side", "4 bar"),
                ("ambient-temperature", "25 °C"),
                ("identified", "mixed or unknown")
            )
            : job;
    }

    [Theory]
    [MemberData(nameof(Circuits))]
    public void Every_hazard_of_substance_drive_and_step_stands_at_the_step(
        string refrigerant,
        string compressor,
        bool mixed
    )
    {
        var job = Job(refrigerant, compressor, mixed);
        Assert.All(Hands, pair =>
        {
            var told = job.Find(pair.Key).Hazards.Select(hazard => hazard.Key).ToArray();
            var asked = SubstanceCautions
                .At(pair.Value, mixed ? "mixed or unknown" : refrigerant, compressor == "electric")
                .Select(caution => caution.Key)
                .Concat(OfTheStep[pair.Key].Split(' ', StringSplitOptions.RemoveEmptyEntries));
            Assert.Empty(asked.Except(told));
        });
    }

    [Theory]
    [MemberData(nameof(Circuits))]
    public void The_worst_comes_first_and_nothing_is_said_twice(string refrigerant, string compressor, bool mixed)
    {
        var job = Job(refrigerant, compressor, mixed);
        Assert.All(Enum.GetValues<Step>(), step =>
        {
            var finding = job.Find(step);
            var dangers = finding.Hazards.Select(hazard => hazard.Danger).ToArray();
            Assert.Equal(dangers.Order(), dangers);
            Assert.Equal(
                finding.Hazards.Length,
                finding.Hazards.Select(hazard => hazard.Key).Distinct(StringComparer.Ordinal).Count()
            );
            // The same warning in two wordings.
            foreach (var word in new[] { "oxygen", "oggles", "orange cables", "oving air", "ressed air", "left-hand" })
                Assert.True(
                    finding.Cautions.Count(caution =>
                        caution.Render(SiFormat.Instance).Contains(word, StringComparison.Ordinal)
                    ) <= 1,
                    $"{step} says “{word}” more than once"
                );
            Assert.Equal(
                finding.Law.Length,
                finding.Law.Select(line => line.Says.ToString()).Distinct(StringComparer.Ordinal).Count()
            );
            // All that is about this very moment is open, and the worst of the rest.
            var open = finding.Hazards.Take(finding.OpenCautions).ToArray();
            Assert.Equal(finding.Hazards.Count(hazard => hazard.Stops), open.Count(hazard => hazard.Stops));
            Assert.True(finding.Hazards.IsEmpty || open.Length > 0);
            Assert.True(open.Count(hazard => !hazard.Stops) <= 1);
        });
    }

    [Fact]
    public void Fire_is_the_open_line_where_the_refrigerant_burns_and_the_can_where_it_does_not()
    {
        Assert.Equal("no-ignition", Job("R-1234yf", "fixed, cycling", false).Find(Step.WeighIn).Hazards[0].Key);
        Assert.Equal("low-side-only", Job("R-134a", "fixed, cycling", false).Find(Step.WeighIn).Hazards[0].Key);
        Assert.Equal("high-voltage", Job("R-1234yf", "electric", false).Find(Step.ProveCold).Hazards[0].Key);
        Assert.Equal("identify", Job("R-1234yf", "fixed, cycling", true).Find(Step.Recover).Hazards[0].Key);
    }

    // A place of every book, owner and for pay, at the two acts that the law speaks of most: whatever takes out or
    // fills in says so where the law keeps it from this person, on top and at the step.
    [Fact]
    public void What_the_law_keeps_from_a_person_is_nowhere_the_next_step_without_its_word()
    {
        var kept = 0;
        foreach (var code in RuleBook.All.Where(book => !book.Covers.IsEmpty).Select(book => book.Covers[0]))
        foreach (var works in new[] { Jobs.Kits.Kit.OwnCars, Jobs.Kits.Kit.ForPay })
        foreach (var filled in new[] { false, true })
        {
            var job = Job("R-134a", "fixed, cycling", false).Kit_(("jurisdiction", code), ("works", works));
            if (filled)
                job.At(100, "pump", ("action", "started"))
                    .At(200, "vacuum-reading", ("absolute-pressure", "40 Pa"), ("pump-valve", "shut"));
            else
                job.At(
                    5,
                    "standing-reading",
                    ("low-side", "9 bar"),
                    ("high-side", "9 bar"),
                    ("ambient-temperature", "25 °C")
                );
            var picture = job.Picture();
            var place = RuleBook.Of(code);
            var who = works == Jobs.Kits.Kit.OwnCars ? Who.Owner : Who.ForPay;
            var act = filled ? Act.Charge : Act.Recover;
            var next = Walk.Of(filled ? Step.WeighIn : Step.Recover, picture)
                .Next.Where(next => next.Does is Doing.TakesOut or Doing.FillsIn)
                .ToArray();
            Assert.NotEmpty(next);
            var barred = !place.For(act, who, "R-134a").MayBeOffered(qualified: false);
            Assert.All(next, action =>
                Assert.True(
                    !barred || action.What.ToString().Contains("By law: ", StringComparison.Ordinal),
                    $"{code} {works}: {action.What}"
                )
            );
            if (barred)
                kept++;
            if (NowWords.Of(picture).Action is { Does: Doing.TakesOut or Doing.FillsIn } top && barred)
                Assert.Contains("By law: ", top.What.ToString(), StringComparison.Ordinal);
        }
        Assert.True(kept > 40, $"only {kept} cases are kept from anyone");
    }
}
