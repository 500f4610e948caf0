using Tightcold.Diagnosis.Faults;
using Tightcold.Diagnosis.Inference;
using Tightcold.Diagnosis.Priors;
using Tightcold.Jobs.Entries;
using Tightcold.Jobs.Journals;
using Tightcold.Quantities;

namespace Tightcold.Findings.Tests.Steps;

/// <summary>What earlier jobs and memory say of the last filling reaches the odds, and is said in the trade's
/// words.</summary>
public sealed class HistoryTests
{
    private static AJob Car() =>
        AJob.OnACar(
            ("label-charge", "550 g"),
            ("compressor", "fixed"),
            ("device", "expansion valve"),
            ("internal-volume", "2.5 L")
        );

    /// <summary>Somewhat low on both sides, a warm vent: too little, or one of several others.</summary>
    private static AJob Read(AJob job) =>
        job.At(0, "weather", ("ambient-temperature", "32 °C"), ("relative-humidity", "50 %"))
            .At(
                10,
                "running-reading",
                ("low-side", "1.3 bar"),
                ("high-side", "11 bar"),
                ("engine-speed", "1500 1/min"),
                ("ambient-temperature", "32 °C"),
                ("vent-temperature", "16 °C")
            );

    /// <summary>An earlier job that evacuated the car, and weighed in.</summary>
    private static JobRecord Before(double months, string gross = "350 g", bool evacuated = true)
    {
        var job = Car()
            .Holding(
                ("name", "A"),
                ("kind", "can"),
                ("refrigerant", "R-134a"),
                ("tare", "150 g"),
                ("gross-now", "900 g")
            )
            .Kit_(("scale-plus-minus", "3 g"))
            .At(0, "weather", ("ambient-temperature", "25 °C"));
        if (evacuated)
            job.At(1, "pump", ("action", "started")).At(60, "pump", ("action", "stopped"));
        job.At(
                70,
                "container-moved",
                ("container", "A"),
                ("action", "opened"),
                ("side", "low side"),
                ("position", "upright (vapour)")
            )
            .At(71, "scale-reading", ("container", "A"), ("gross", "900 g"))
            .At(90, "scale-reading", ("container", "A"), ("gross", gross))
            .At(91, "container-moved", ("container", "A"), ("action", "disconnected"));
        return Moved(job.Record(), -months, 9100);
    }

    private static JobRecord Moved(JobRecord record, double months, int id)
    {
        var by = TimeSpan.FromDays(months * 30.44);
        return record with
        {
            Job = record.Job with { Id = AJob.Id(id), Number = id, OpenedAt = record.Job.OpenedAt + by },
            Journal = Journal
                .Create(
                    record.Journal.All.Select(entry =>
                        entry with
                        {
                            ObservedAt = entry.ObservedAt + by,
                            WrittenAt = entry.WrittenAt + by,
                        }
                    )
                )
                .Journal!,
        };
    }

    private static JobDiagnosis Weigh(AJob job, params JobRecord[] earlier) => PictureOf(job, earlier).Machine!;

    private static JobPicture PictureOf(AJob job, params JobRecord[] earlier) =>
        new(job.Record(), [.. earlier], effort: Effort.Quick);

    private static double TooLittle(JobDiagnosis diagnosis) =>
        diagnosis.Answer.Beliefs.Where(belief => belief.Hypothesis.Has(Fault.Undercharge)).Sum(belief => belief.Odds);

    private static string Say(Phrase phrase) => phrase.Render(SiFormat.Instance);

    [Fact]
    public void A_charge_weighed_in_last_month_by_an_earlier_job_makes_too_little_less_likely_and_says_so()
    {
        var without = Weigh(Read(Car()));
        var with = Weigh(Read(Car()), Before(1));
        Assert.Null(without.Evidence.Filling);
        var history = with.Evidence.Filling!.History;
        Assert.Equal((FilledHow.ByWeight, false), (history.How, history.Remembered));
        Assert.InRange(history.Left!.Value.Share, 0.95, 1.01);
        Assert.True(TooLittle(with) < 0.7 * TooLittle(without), $"{TooLittle(with)} {TooLittle(without)}");

        var finding = Walk.Of(Step.WhatIsWrong, PictureOf(Read(Car()), Before(1)));
        Assert.Contains("filled by weight a month ago", Say(finding.Why), StringComparison.Ordinal);
        Assert.Contains(finding.Assumptions, one =>
            Say(one.What).Contains("(job 9100), and nobody worked on it since", StringComparison.Ordinal)
        );
        Assert.DoesNotContain(
            "history",
            Say(Walk.Of(Step.WhatIsWrong, PictureOf(Read(Car()))).Why),
            StringComparison.Ordinal
        );
    }

    [Fact]
    public void A_remembered_top_up_makes_too_little_more_likely_and_is_what_the_finding_rests_on()
    {
        var job = Read(Car())
            .At(1, "earlier-charge", ("months-ago", "14"), ("filled", "full, by weight"))
            .At(2, "earlier-charge", ("months-ago", "2"), ("filled", "topped up"), ("mass", "200 g"));
        var with = Weigh(job);
        Assert.True(TooLittle(with) > TooLittle(Weigh(Read(Car()))));
        var history = with.Evidence.Filling!.History;
        Assert.Equal((FilledHow.ToppedUp, true), (history.How, history.Remembered));
        // Twelve months between the filling and the top-up took what the top-up put back.
        Assert.Equal(0.2, history.LostBefore!.Value.LostKg, 6);
        Assert.InRange(history.LostBefore.Value.Seconds / 86400, 360, 370);
        var finding = Walk.Of(Step.WhatIsWrong, PictureOf(job));
        Assert.Contains(AJob.Id(4), finding.RestsOn);
        Assert.Contains("topped up 2 months ago", Say(finding.Why), StringComparison.Ordinal);
        Assert.Contains(
            "By the readings alone too little refrigerant would have",
            Say(finding.Why),
            StringComparison.Ordinal
        );
        Assert.Contains(finding.Table!.Rows, row =>
            row.Any(cell => Say(cell).Contains("topped up 2 months ago", StringComparison.Ordinal))
        );
    }

    [Fact]
    public void A_can_put_in_without_a_vacuum_is_a_top_up_and_a_job_that_only_looked_changes_nothing()
    {
        Assert.Equal(
            FilledHow.ToppedUp,
            Weigh(Read(Car()), Before(2, "700 g", evacuated: false)).Evidence.Filling!.History.How
        );
        var looked = Moved(Read(Car()).Record(), -0.5, 9200);
        Assert.Equal(
            Weigh(Read(Car()), Before(1)).Evidence.Filling!.History,
            Weigh(Read(Car()), Before(1), looked).Evidence.Filling!.History
        );
        Assert.Null(Weigh(Read(Car()), looked).Evidence.Filling);
    }

    [Fact]
    public void What_a_car_had_lost_by_an_earlier_job_that_mended_nothing_counts()
    {
        var first = Before(26);
        var found = Before(12);
        var standing = Moved(
            Car()
                .At(
                    -5,
                    "standing-reading",
                    ("low-side", "2.0 bar"),
                    ("high-side", "2.0 bar"),
                    ("ambient-temperature", "25 °C"),
                    ("since-engine-ran", "10 h")
                )
                .Record(),
            -12,
            9101
        );
        var refilled = found with
        {
            Job = found.Job with { Id = AJob.Id(9101), Number = 9101 },
            Journal = Journal
                .Create(
                    found
                        .Journal.All.Select((entry, i) => entry with { Id = AJob.Id(500 + i) })
                        .Concat(standing.Journal.All)
                )
                .Journal!,
        };
        var lost = Weigh(Read(Car()), first, refilled).Evidence.Filling!.History.LostBefore;
        // By hand: 2.5 L of vapour at 3 bar and 25 °C are 33 g, oil holds about as much again: some 480 of 550 g went.
        Assert.InRange(lost!.Value.LostKg, 0.40, 0.53);
    }

    [Fact]
    public void Once_the_job_itself_weighed_the_history_is_silent()
    {
        var job = Read(
                Car()
                    .Holding(
                        ("name", "R"),
                        ("kind", "recovery cylinder"),
                        ("refrigerant", "R-134a"),
                        ("tare", "8 kg"),
                        ("water-capacity", "12 kg")
                    )
            )
            .At(1, "earlier-charge", ("months-ago", "2"), ("filled", "topped up"))
            .At(60, "recovery", ("container", "R"), ("gross-before", "9 kg"), ("gross-after", "9.3 kg"));
        Assert.Null(Weigh(job).Evidence.Filling);
        Assert.NotNull(Weigh(job).Evidence.Evidence.Weighed);
    }
}
