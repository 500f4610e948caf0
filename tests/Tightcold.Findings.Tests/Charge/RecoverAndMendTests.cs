using Tightcold.Jobs.Entries;
using Tightcold.Quantities;

namespace Tightcold.Findings.Tests.Charge;

public sealed class RecoverAndMendTests
{
    private static AJob Car(params (string, string)[] more) =>
        AJob.OnACar([("label-charge", "500 g"), ("internal-volume", "2.5 L"), ("oil-amount", "120 mL"), .. more])
            .At(0, "weather", ("ambient-temperature", "25 °C"), ("relative-humidity", "60 %"));

    private static AJob Cylinder(AJob job, string refrigerant = "R-134a") =>
        job.Holding(
            ("name", "R"),
            ("kind", "recovery cylinder"),
            ("refrigerant", refrigerant),
            ("tare", "8 kg"),
            ("water-capacity", "12 kg"),
            ("gross-now", "9 kg")
        );

    private static string All(Finding finding) =>
        string.Join(
            "\n",
            finding
                .Missing.Concat(finding.Cautions)
                .Append(finding.Why)
                .Append(finding.Verdict)
                .Select(phrase => phrase.Render(SiFormat.Instance))
        );

    [Fact]
    public void A_pressure_that_rises_after_the_wait_means_the_recovery_is_not_at_its_end()
    {
        var job = Cylinder(Car())
            .At(
                30,
                "recovery",
                ("container", "R"),
                ("gross-before", "9 kg"),
                ("gross-after", "9.3 kg"),
                ("final-pressure", "-0.3 bar"),
                ("pressure-after-wait", "0.6 bar"),
                ("waited", "5 min")
            );
        var finding = job.Find(Step.Recover);
        Assert.Equal(Judgement.CannotTell, finding.Judgement);
        Assert.Contains("rose again", finding.Verdict.ToString(), StringComparison.Ordinal);
        Assert.Contains(finding.Estimates, estimate => estimate.Key == "left-inside" && estimate.Low > 0.010);
        var done = Cylinder(Car())
            .At(
                30,
                "recovery",
                ("container", "R"),
                ("gross-before", "9 kg"),
                ("gross-after", "9.3 kg"),
                ("final-pressure", "-0.5 bar"),
                ("pressure-after-wait", "-0.4 bar"),
                ("waited", "6 min"),
                ("certificate", "kept")
            );
        Assert.Equal(Judgement.Good, done.Find(Step.Recover).Judgement);
    }

    [Fact]
    public void More_than_the_standing_pressure_allowed_is_said()
    {
        var job = Cylinder(Car())
            .At(
                5,
                "standing-reading",
                ("low-side", "2.0 bar"),
                ("high-side", "2.0 bar"),
                ("ambient-temperature", "25 °C"),
                ("since-engine-ran", "10 h")
            )
            .At(30, "recovery", ("container", "R"), ("gross-before", "9 kg"), ("gross-after", "9.38 kg"));
        Assert.Contains("more came out", job.Find(Step.Recover).Why.ToString(), StringComparison.Ordinal);
    }

    [Fact]
    public void Rules_are_shown_with_paragraph_and_how_sure_and_always_say_check_local_rules()
    {
        var finding = Car().Kit_(("jurisdiction", "Ohio, USA")).Find(Step.Recover);
        Assert.Contains("check local rules", finding.Table!.Caption.ToString(), StringComparison.Ordinal);
        Assert.Contains(finding.Table.Rows, row =>
            row[1].ToString().Contains("82.154", StringComparison.Ordinal)
            && row[2].ToString().Contains("text read", StringComparison.Ordinal)
        );
        Assert.Contains("check local rules", All(Car().Find(Step.Recover)), StringComparison.Ordinal);
    }

    [Fact]
    public void Another_gas_inside_is_warned_of_before_it_is_recovered()
    {
        var job = Cylinder(Car())
            .At(
                5,
                "standing-reading",
                ("low-side", "8.0 bar"),
                ("high-side", "8.0 bar"),
                ("ambient-temperature", "25 °C"),
                ("since-engine-ran", "10 h")
            );
        Assert.Contains("another gas", job.Find(Step.Recover).Cautions[0].ToString(), StringComparison.Ordinal);
    }

    [Fact]
    public void Unknown_gas_never_goes_into_a_clean_cylinder()
    {
        Entry Recovery() =>
            new(
                AJob.Id(77),
                EntryKinds.Recovery,
                AJob.Morning.AddMinutes(30),
                AJob.Morning.AddMinutes(30),
                "tester",
                AJob.Bag(
                    EntryKinds.Get(EntryKinds.Recovery),
                    ("container", "R"),
                    ("gross-before", "9 kg"),
                    ("gross-after", "9.3 kg"),
                    ("identified", "mixed or unknown")
                )
            );
        Assert.Contains(EntryRules.Check(Cylinder(Car()).Record(), Recovery(), null), problem =>
            problem.Sentence.ToString().Contains("never mixed", StringComparison.Ordinal)
        );
        Assert.Empty(EntryRules.Check(Cylinder(Car(), "mixed or unknown").Record(), Recovery(), null));
    }

    [Fact]
    public void A_new_compressor_is_told_how_much_to_pour_out_and_that_it_wants_a_drier()
    {
        var job = Car(("compressor", "fixed, cycling"), ("oil-type", "PAG 46"))
            .At(
                10,
                "oil-moved",
                ("direction", "drained"),
                ("amount", "60 mL"),
                ("oil-type", "PAG 46"),
                ("spot", "compressor body")
            )
            .At(20, "part-changed", ("spot", "compressor body"), ("part", "compressor"), ("oil-in-new-part", "150 mL"));
        var said = All(job.Find(Step.Mend));
        Assert.Contains("pour about", said, StringComparison.Ordinal);
        Assert.Contains("new drier", said, StringComparison.Ordinal);
        Assert.Equal(Judgement.CannotTell, job.Find(Step.Mend).Judgement);
    }

    [Fact]
    public void Oil_of_another_family_stops_the_job_and_a_wrong_rubber_is_named()
    {
        var oil = Car(("compressor", "fixed, cycling"), ("oil-type", "PAG 46"))
            .At(10, "oil-moved", ("direction", "added"), ("amount", "20 mL"), ("oil-type", "mineral"));
        Assert.Equal(Judgement.Bad, oil.Find(Step.Mend).Judgement);
        var rubber = Car().At(10, "seal-changed", ("spot", "liquid line joint at condenser"), ("seal", "NBR O-ring"));
        Assert.Contains("rubber", All(rubber.Find(Step.Mend)), StringComparison.Ordinal);
    }

    [Fact]
    public void A_day_open_with_two_ends_asks_for_a_drier_and_tells_the_water()
    {
        var job = Car()
            .At(10, "opened", ("spot", "condenser"), ("open-ends", "2"))
            .At(20, "part-changed", ("spot", "condenser"), ("part", "condenser"))
            .At(10 + 24 * 60, "closed", ("spot", "condenser"));
        var finding = job.Find(Step.Mend);
        Assert.Contains(finding.Estimates, estimate => estimate.Key == "water-taken-up" && estimate.High > 0.005);
        Assert.Contains("new drier", All(finding), StringComparison.Ordinal);
        Assert.Contains("N·m", finding.Table!.Rows[0][2].ToString(), StringComparison.Ordinal);
    }
}
