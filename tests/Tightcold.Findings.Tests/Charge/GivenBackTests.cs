using Tightcold.Jobs.Entries;
using Tightcold.Quantities;

namespace Tightcold.Findings.Tests.Charge;

/// <summary>What was recovered going back into the car: only what was identified, only when a person connects
/// it.</summary>
public sealed class GivenBackTests
{
    private static AJob Recovered(string? identified) =>
        AJob.OnACar(("label-charge", "500 g"), ("internal-volume", "2.5 L"))
            .Holding(
                ("name", "R"),
                ("kind", "recovery cylinder"),
                ("refrigerant", "R-134a"),
                ("tare", "8 kg"),
                ("water-capacity", "12 kg"),
                ("gross-now", "12 kg")
            )
            .Holding(
                ("name", "A"),
                ("kind", "can"),
                ("refrigerant", "R-134a"),
                ("net-as-sold", "340 g"),
                ("tare", "97 g"),
                ("gross-now", "437 g")
            )
            .At(0, "weather", ("ambient-temperature", "25 °C"))
            .At(
                5,
                "recovery",
                [
                    ("container", "R"),
                    ("gross-before", "12 kg"),
                    ("gross-after", "12.3 kg"),
                    .. identified is null ? Array.Empty<(string, string)>() : [("identified", identified)],
                ]
            )
            .At(30, "pump", ("action", "started"));

    private static Entry Connect(string container) =>
        new(
            AJob.Id(800),
            EntryKinds.ContainerMoved,
            AJob.Morning.AddMinutes(60),
            AJob.Morning.AddMinutes(60),
            "tester",
            AJob.Bag(
                EntryKinds.Get(EntryKinds.ContainerMoved),
                ("container", container),
                ("action", "connected"),
                ("side", "low side")
            )
        );

    [Fact]
    public void A_recovery_cylinder_gives_only_after_a_person_connected_it_and_then_with_its_caution()
    {
        var job = Recovered("as labelled");
        Assert.DoesNotContain(job.Picture().WeighIn.Plan!.Steps, step => step.Container == "R");
        var live = job.Add(Connect("R")).Picture().WeighIn;
        Assert.Equal("R", live.Plan!.Steps[0].Container);
        Assert.Contains(Findings.Steps.WeighInWords.Warnings(job.Picture()), warning =>
            warning.Render(SiFormat.Instance).Contains("check local rules", StringComparison.Ordinal)
        );
    }

    [Theory]
    [InlineData("as labelled", true)]
    [InlineData("mixed or unknown", false)]
    [InlineData("not checked", false)]
    [InlineData(null, false)]
    public void Only_what_was_identified_as_the_cars_own_refrigerant_may_go_back(string? identified, bool taken) =>
        Assert.Equal(taken, EntryRules.Check(Recovered(identified).Record(), Connect("R"), null).Count == 0);

    [Fact]
    public void Nothing_is_connected_from_a_cylinder_of_mixed_or_unknown_contents()
    {
        var job = AJob.OnACar(("label-charge", "500 g"))
            .Holding(
                ("name", "X"),
                ("kind", "recovery cylinder"),
                ("refrigerant", "mixed or unknown"),
                ("tare", "8 kg"),
                ("water-capacity", "12 kg")
            );
        Assert.Contains(
            "never mixed",
            Assert.Single(EntryRules.Check(job.Record(), Connect("X"), null)).Allowed.Render(SiFormat.Instance),
            StringComparison.Ordinal
        );
    }

    // 300 g came out and 400 g go back: 300 of them are what was recovered, 100 were in the cylinder before. Nothing
    // appears or is lost.
    [Fact]
    public void Every_gram_is_accounted_for_when_more_goes_back_than_came_out()
    {
        var balance = Recovered("as labelled")
            .Add(Connect("R"))
            .At(61, "scale-reading", ("container", "R"), ("gross", "12.3 kg"))
            .At(75, "scale-reading", ("container", "R"), ("gross", "11.9 kg"))
            .Picture()
            .Mass;
        Assert.Equal(balance.CameInKg, balance.AccountedKg, 9);
        Assert.Equal(0.300, balance.RecoveredKg, 9);
        Assert.Equal(0.300, balance.ReturnedKg, 9);
        Assert.Equal(0.400, balance.SystemKg + balance.HosesKg, 9);
    }
}
