using Tightcold.Diagnosis.Inference;
using Tightcold.Jobs.Entries;
using Tightcold.Procedures.Standing;
using Tightcold.Properties;
using Tightcold.Quantities;

namespace Tightcold.Findings.Tests.Steps;

/// <summary>Another refrigerant than the label's: never claimed from a gauge, and never talked over.</summary>
public sealed class WrongRefrigerantTests
{
    private static AJob Car() =>
        AJob.OnACar(
                ("label-charge", "550 g"),
                ("compressor", "fixed"),
                ("device", "expansion valve"),
                ("internal-volume", "2.5 L")
            )
            .Kit_(
                ("low-gauge-plus-minus", "0.1 bar"),
                ("high-gauge-plus-minus", "0.2 bar"),
                ("thermometer-plus-minus", "0.5 K")
            )
            .At(
                0,
                "weather",
                ("ambient-temperature", "25 °C"),
                ("relative-humidity", "50 %"),
                ("station-pressure", "1013 mbar")
            );

    private static AJob Stands(AJob job, string bar, double minute = 1, params (string, string)[] more) =>
        job.At(
            minute,
            "standing-reading",
            [
                ("low-side", bar),
                ("high-side", bar),
                ("ambient-temperature", "25 °C"),
                ("condenser-temperature", "25 °C"),
                ("cabin-temperature", "25 °C"),
                ("since-engine-ran", "10 h"),
                .. more,
            ]
        );

    private static AJob Runs(AJob job) =>
        job.At(
            60,
            "running-reading",
            ("low-side", "1.3 bar"),
            ("high-side", "11 bar"),
            ("engine-speed", "1500 1/min"),
            ("ambient-temperature", "25 °C"),
            ("vent-temperature", "16 °C")
        );

    private static string Say(Phrase phrase) => phrase.Render(SiFormat.Instance);

    // 25 °C: R-134a 665.4 kPa, R-152a 596.4 kPa; equations of Tillner-Roth and Baehr (1994), Outcalt and McLinden
    // (1996).
    [Fact]
    public void A_car_that_stands_where_r152a_would_is_not_surely_nearly_empty()
    {
        var finding = Stands(Car(), "4.95 bar").Find(Step.StandingPressure);
        Assert.Equal((Certainty.Weak, Judgement.CannotTell), (finding.Certainty, finding.Judgement));
        Assert.StartsWith(
            "Cannot tell: R-152a with liquid inside would stand here",
            Say(finding.Verdict),
            StringComparison.Ordinal
        );
        var caution = Assert.Single(finding.Cautions, one =>
            Say(one).Contains("cannot be ruled out", StringComparison.Ordinal)
        );
        Assert.Contains("R-152a (596", Say(caution), StringComparison.Ordinal);
        Assert.Contains("identifier", Say(finding.Next[0].What), StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("5.64 bar")]
    [InlineData("2.3 bar")]
    [InlineData("8 bar")]
    public void Where_no_other_refrigerant_fits_nothing_is_said_of_one(string bar)
    {
        var finding = Stands(Car(), bar).Find(Step.StandingPressure);
        Assert.Equal(Certainty.Stands, finding.Certainty);
        Assert.DoesNotContain(finding.Cautions, one => Say(one).Contains("ruled out", StringComparison.Ordinal));
    }

    [Fact]
    public void The_odds_stay_but_are_no_longer_told_surely()
    {
        var job = Runs(Stands(Car(), "4.95 bar"));
        var finding = Walk.Of(Step.WhatIsWrong, job.Picture(Effort.Quick));
        Assert.Equal((Certainty.Weak, Judgement.CannotTell), (finding.Certainty, finding.Judgement));
        Assert.Contains(finding.Cautions, one =>
            Say(one).Contains("Wrong or mixed refrigerant cannot be ruled out", StringComparison.Ordinal)
        );
        Assert.Contains("identifier", Say(finding.Next[0].What), StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("another refrigerant")]
    [InlineData("mixed or unknown")]
    public void An_identifier_that_says_otherwise_stops_the_weighing(string said)
    {
        var job = Runs(Stands(Car(), "5.6 bar", 1, ("identified", said)));
        Assert.Null(job.Picture(Effort.Quick).Machine);
        var finding = job.Find(Step.WhatIsWrong);
        Assert.Equal(Judgement.Bad, finding.Judgement);
        Assert.StartsWith(
            $"Not R-134a inside: the identifier says “{said}”.",
            Say(finding.Verdict),
            StringComparison.Ordinal
        );
        Assert.Contains("recovered as contaminated", Say(Assert.Single(finding.Next).What), StringComparison.Ordinal);
        Assert.Contains("check local rules", Say(finding.Next[0].What), StringComparison.Ordinal);
        Assert.Empty(finding.Estimates);
        Assert.DoesNotContain(job.Find(Step.StandingPressure).Estimates, estimate => estimate.Key == "mass-left");
        Assert.Null(job.Picture().Unweighed);
    }

    [Fact]
    public void The_last_word_counts_and_a_vacuum_ends_it()
    {
        var job = Runs(
            Stands(
                Stands(Car(), "5.6 bar", 1, ("identified", "mixed or unknown")),
                "5.6 bar",
                20,
                ("identified", "as labelled")
            )
        );
        Assert.NotNull(job.Picture(Effort.Quick).Machine);
        var refilled = Stands(Car(), "5.6 bar", 1, ("identified", "mixed or unknown"))
            .At(30, "pump", ("action", "started"));
        Assert.NotNull(Runs(refilled).Picture(Effort.Quick).Machine);
    }

    [Fact]
    public void What_an_identifier_called_mixed_goes_into_a_cylinder_of_its_own()
    {
        var job = Stands(
                Car()
                    .Holding(
                        ("name", "R"),
                        ("kind", "recovery cylinder"),
                        ("refrigerant", "R-134a"),
                        ("tare", "8 kg"),
                        ("water-capacity", "12 kg")
                    ),
                "5.6 bar",
                1,
                ("identified", "another refrigerant")
            )
            .At(60, "recovery", ("container", "R"), ("gross-before", "9 kg"), ("gross-after", "9.3 kg"));
        var recovery = job.Entries[^1];
        Assert.Contains(
            EntryRules.Check(job.Record(job.Entries.Take(job.Entries.Count - 1)), recovery, null),
            problem => problem.Field == "container"
        );
    }

    [Fact]
    public void Nothing_goes_into_a_car_that_holds_something_else_before_a_vacuum()
    {
        AJob Opened(bool pumped)
        {
            var job = Stands(
                Car()
                    .Holding(
                        ("name", "A"),
                        ("kind", "can"),
                        ("refrigerant", "R-134a"),
                        ("tare", "150 g"),
                        ("gross-now", "490 g")
                    ),
                "5.6 bar",
                1,
                ("identified", "another refrigerant")
            );
            if (pumped)
                job.At(30, "pump", ("action", "started"));
            return job.At(
                60,
                "container-moved",
                ("container", "A"),
                ("action", "opened"),
                ("side", "low side"),
                ("position", "upright (vapour)")
            );
        }

        IReadOnlyList<Jobs.Fields.InputProblem> Problems(AJob job) =>
            EntryRules.Check(job.Record(job.Entries.Take(job.Entries.Count - 1)), job.Entries[^1], null);
        Assert.Contains(Problems(Opened(pumped: false)), problem => problem.Field == "action");
        Assert.Empty(Problems(Opened(pumped: true)));
    }

    [Fact]
    public void A_history_written_down_after_the_pump_does_not_hide_what_the_identifier_said()
    {
        var job = Runs(Stands(Car(), "5.6 bar", 1, ("identified", "mixed or unknown")))
            .At(90, "pump", ("action", "started"))
            .At(100, "earlier-charge", ("months-ago", "2"), ("filled", "topped up"));
        Assert.Null(job.Picture(Effort.Quick).Machine);
    }

    [Fact]
    public void Only_what_fits_every_reading_fits()
    {
        var label = FluidCatalog.Get("R134a");
        StandingReading At(double kilopascals, double celsius) => new(kilopascals * 1e3, 5e3, celsius + 273.15, 0.3);
        // 15 °C: R-152a 439.8 kPa by its own equation; vapour of R-134a would have kept 596 · 288/298.
        var own = FluidCatalog.Get("R152a").SaturationAtTemperature(288.15).PressurePa / 1e3;
        Assert.Equal("R152a", Assert.Single(OtherRefrigerant.Fitting(label, At(596.4, 25), At(own, 15))).Fluid.Name);
        Assert.Empty(OtherRefrigerant.Fitting(label, At(596.4, 25), At(576, 15)));
        Assert.Empty(OtherRefrigerant.Fitting(label, At(665.4, 25)));
        Assert.Empty(OtherRefrigerant.Fitting(label));
    }
}
