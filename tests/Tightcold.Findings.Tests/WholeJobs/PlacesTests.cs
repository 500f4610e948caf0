using Tightcold.Findings.Now;
using Tightcold.Jobs.Entries;
using Tightcold.Quantities;

namespace Tightcold.Findings.Tests.WholeJobs;

/// <summary>One job, told by the whole walk, in nine places: the rule stands where its act is, the substance's cautions
/// at each step, and nothing that the law keeps from the person is the next step without its word.</summary>
public sealed class PlacesTests
{
    private static AJob Job(string refrigerant, string? place, string? town = null, string? works = null) =>
        Kit(
            AJob.OnACar(
                    ("refrigerant", refrigerant),
                    ("label-charge", "500 g"),
                    ("internal-volume", "2.5 L"),
                    ("oil-amount", "120 mL"),
                    ("compressor", "fixed, cycling")
                )
                .At(0, "weather", ("ambient-temperature", "25 °C"), ("relative-humidity", "60 %"))
                .At(
                    5,
                    "standing-reading",
                    ("low-side", "2.0 bar"),
                    ("high-side", "2.0 bar"),
                    ("ambient-temperature", "25 °C"),
                    ("since-engine-ran", "10 h")
                )
                .At(20, "leak-check", ("spot", "condenser"), ("test", "soap bubbles"), ("outcome", "clear leak"))
                .Holding(
                    ("name", "A"),
                    ("kind", "can"),
                    ("refrigerant", refrigerant),
                    ("net-as-sold", "340 g"),
                    ("gross-now", "478 g"),
                    ("tare", "138 g")
                )
                .Holding(
                    ("name", "R"),
                    ("kind", "recovery cylinder"),
                    ("refrigerant", refrigerant),
                    ("tare", "8 kg"),
                    ("water-capacity", "12 kg"),
                    ("gross-now", "9 kg")
                ),
            ("jurisdiction", place),
            ("place", town),
            ("works", works)
        );

    private static AJob Kit(AJob job, params (string Name, string? Value)[] fields) =>
        job.Kit_([.. fields.Where(field => field.Value is not null).Select(field => (field.Name, field.Value!))]);

    private static string Said(AJob job, Step step)
    {
        var finding = job.Find(step);
        return string.Join(
            "\n",
            finding
                .Cautions.Concat(finding.Law.Select(line => line.Says))
                .Concat(finding.Missing)
                .Append(finding.Verdict)
                .Append(finding.Why)
                .Concat(finding.Next.Select(next => next.What))
                .Select(phrase => phrase.Render(SiFormat.Instance))
        );
    }

    private static void Says(AJob job, Step step, params string[] words)
    {
        var said = Said(job, step);
        Assert.All(words, word =>
            Assert.True(said.Contains(word, StringComparison.Ordinal), $"{step} lacks “{word}”:\n{said}")
        );
    }

    /// <summary>The next thing to do once it is that step's turn.</summary>
    private static void Next(AJob job, Step step, string? law)
    {
        if (step == Step.WeighIn)
            ReadyToFill(job);
        var next = job.Find(step).Next[0].What.ToString();
        // The line on top of every page says the same once it speaks of that step.
        var now = NowWords.Of(job.Picture());
        var top = now.Step == step && now.Action is { } action ? action.What.ToString() : null;
        foreach (var said in new[] { next, top }.OfType<string>())
        {
            if (law is null)
                Assert.DoesNotContain("By law", said, StringComparison.Ordinal);
            else
                Assert.Contains(law, said, StringComparison.Ordinal);
        }
    }

    /// <summary>What the ledger counts a loss with, and what the place wants kept.</summary>
    private static void Books(AJob job, string warming, string? asks)
    {
        job.At(40, "recovery", ("container", "R"), ("gross-before", "9 kg"), ("gross-after", "9.020 kg"))
            .At(50, "opened", ("spot", "condenser"));
        Assert.Contains(warming, Said(job, Step.Ledger), StringComparison.Ordinal);
        var sheet = RecordSheet.Of(job.Picture());
        Assert.Equal(asks, sheet is null ? null : string.Join("; ", sheet.Rows.Select(row => row.Label)));
    }

    private static void ReadyToFill(AJob job)
    {
        job.At(40, "recovery", ("container", "R"), ("gross-before", "9 kg"), ("gross-after", "9.3 kg"))
            .At(60, "opened", ("spot", "condenser"))
            .At(80, "part-changed", ("spot", "condenser"), ("part", "condenser"))
            .At(85, "oil-moved", ("direction", "added"), ("amount", "30 mL"), ("oil-type", "ND-12"))
            .At(90, "closed", ("spot", "condenser"))
            .At(100, "pump", ("action", "started"));
        for (var minute = 130; minute <= 250; minute += 20)
            job.At(
                minute,
                "vacuum-reading",
                ("absolute-pressure", "40 Pa"),
                ("pump-valve", "shut"),
                ("part-temperature", "24 °C")
            );
    }

    [Fact]
    public void R1234yf_in_Germany()
    {
        var job = Job("R-1234yf", "Germany (DE)", "Kassel", Jobs.Kits.Kit.OwnCars);
        Says(
            job,
            Step.Recover,
            "Recovering, Germany: Only with the certificate of expertise (Sachkunde)",
            "Letting out, Germany: Letting fluorinated gas out on purpose is forbidden",
            "R-1234yf burns (A2L, from 6.2 %",
            "SAE J2843",
            "left-hand thread",
            "hydrogen fluoride"
        );
        Next(job, Step.Recover, "By law: Recovering, Germany: Only with the certificate");
        Says(
            job,
            Step.WeighIn,
            "Buying, Germany: Gas for work that asks for the attestation is sold to undertakings",
            "Disposable cans, Germany: Whether the ban of disposable containers covers R-1234yf",
            "R-1234yf burns"
        );
        Says(
            job,
            Step.LeakSearch,
            "detector made for R-1234yf",
            "Topping up a leak, Germany: Owners: whoever runs the equipment mends a leak"
        );
        Assert.All(
            Enum.GetValues<Step>().Where(step => step is not (Step.ComplaintAndWeather or Step.WhatIsWrong)),
            step => Assert.Contains("R-1234yf", Said(job, step), StringComparison.Ordinal)
        );
        Books(job, "sixth assessment report, so counted by law: European Union", null);
        var old = Job("R-134a", "Germany", works: Jobs.Kits.Kit.OwnCars);
        Says(old, Step.WeighIn, "Disposable cans, Germany: Disposable containers of HFC for filling are banned");
        // The plan draws from a can: what forbids the can stands in the next step itself.
        Next(
            old,
            Step.WeighIn,
            "By law: Disposable cans, Germany: Disposable containers of HFC for filling are banned"
        );
    }

    [Fact]
    public void R134a_in_New_South_Wales()
    {
        var job = Job("R-134a", "New South Wales", works: Jobs.Kits.Kit.OwnCars);
        Says(
            job,
            Step.Recover,
            "Recovering, New South Wales, Australia: Recovery needs a refrigerant handling "
                + "licence, owners included"
        );
        Next(job, Step.Recover, "refrigerant handling licence");
        Says(
            job,
            Step.WeighIn,
            "Buying bulk refrigerant needs a refrigerant trading authorisation",
            "Topping up a leaking car is illegal"
        );
        Next(
            job,
            Step.WeighIn,
            "By law: Charging, New South Wales, Australia: Charging and any service needs a "
                + "refrigerant handling licence"
        );
        Assert.DoesNotContain(
            "307/2008",
            string.Join("\n", job.Find(Step.Recover).Table!.Rows.SelectMany(row => row)),
            StringComparison.Ordinal
        );
        Assert.DoesNotContain("burns", Said(job, Step.Recover), StringComparison.Ordinal);
        Books(
            Job("R-134a", "AU-NSW", works: Jobs.Kits.Kit.ForPay),
            "fourth assessment report, so counted by law: Australia",
            "Bought and sold; Recovered; Who received what was recovered, name and address"
        );
    }

    [Fact]
    public void R134a_in_Texas_for_an_owner_and_for_pay()
    {
        var owner = Job("R-134a", "Texas, USA", works: Jobs.Kits.Kit.OwnCars);
        Says(
            owner,
            Step.Recover,
            "Recovering, Texas, United States: Unpaid, on an own car: no certificate is asked",
            "Letting refrigerant out on purpose is forbidden, to owners too"
        );
        Next(owner, Step.Recover, null);
        Says(owner, Step.WeighIn, "Cans of 2 lb (907 g) or less with a self-sealing valve are sold to anyone");
        var paid = Job("R-134a", "US-TX", works: Jobs.Kits.Kit.ForPay);
        Says(paid, Step.Recover, "only who is trained and certified");
        Next(paid, Step.Recover, "By law");
        Says(paid, Step.Ledger, "Names and addresses of whoever received recovered refrigerant");
        Next(Kit(paid, ("qualification", "section 609, card in the folder")), Step.Recover, null);
        Books(owner, "fourth assessment report, so counted by law: United States", null);
        Books(
            paid,
            "fourth assessment report, so counted by law: United States",
            "Who received what was recovered, name and address; Certificate or licence, number and end"
        );
        var sheet = RecordSheet.Of(paid.Picture())!;
        Assert.Equal("section 609, card in the folder", sheet.Rows[1].Value.ToString());
        Assert.True(sheet.Rows[0].Value.IsEmpty);
        Assert.Equal(AJob.Morning.AddMinutes(50).AddYears(3), sheet.KeepUntil);
        Says(paid, Step.Ledger, "for the record that the place asks for: who received what was recovered");
    }

    [Fact]
    public void R134a_in_California()
    {
        var job = Job("R-134a", "USA, California", works: Jobs.Kits.Kit.OwnCars);
        Says(
            job,
            Step.WeighIn,
            "Buying, California, United States: Small cans are sold to anyone with a " + "self-sealing valve",
            "reclaimed gas from 2025 on"
        );
        Says(job, Step.Recover, "Letting refrigerant out on purpose is forbidden");
        Next(job, Step.Recover, null);
    }

    [Fact]
    public void R134a_in_Ontario()
    {
        var job = Job("R-134a", "Ontario, Canada", works: Jobs.Kits.Kit.OwnCars);
        Says(
            job,
            Step.LeakSearch,
            "only a holder of the ozone depletion prevention certificate",
            "A leak must be mended before refrigerant is added"
        );
        Says(job, Step.WeighIn, "HFC refrigerant comes into the country in refillable containers only");
        Next(job, Step.WeighIn, "By law: Charging, Ontario, Canada");
        Says(job, Step.Ledger, "The tester tags the car");
        Books(
            Job("R-134a", "CA-ON", works: Jobs.Kits.Kit.OwnCars),
            "so counted by law: Canada",
            "Date; Who did it; Certificate or licence, number and end; Leak check"
        );
    }

    [Fact]
    public void R134a_and_R1234yf_in_Lyon()
    {
        var old = Job("R-134a", "FR", "Lyon", Jobs.Kits.Kit.OwnCars);
        Says(
            old,
            Step.WeighIn,
            "Filling with HFC is for operators with the capacity certificate",
            "HFC are sold to operators with the capacity certificate",
            "Disposable containers of HFC for filling are banned"
        );
        Next(old, Step.WeighIn, "By law");
        var fresh = Job("R-1234yf", "Lyon, France", works: Jobs.Kits.Kit.OwnCars);
        Says(fresh, Step.WeighIn, "National law leaves HFO such as R-1234yf out", "R-1234yf burns");
        Next(fresh, Step.Recover, "training attestation");
        Books(
            Job("R-134a", "FR", "Lyon", Jobs.Kits.Kit.ForPay),
            "so counted by law: European Union",
            "Date; Who did it; Certificate or licence, number and end; Car; Owner, name and address; Refrigerant; "
                + "Recovered; Who received what was recovered, name and address; Charged"
        );
    }

    [Fact]
    public void R134a_in_Leeds_for_an_owner_and_for_pay()
    {
        var owner = Job("R-134a", "England, United Kingdom (GB-ENG)", "Leeds", Jobs.Kits.Kit.OwnCars);
        Says(owner, Step.LeakSearch, "Regulations 3 and 4 bind service providers, not an owner on an own car");
        Says(
            owner,
            Step.WeighIn,
            "Servicing without recovery asks for no qualification",
            "may be sold to persons without the recovery qualification",
            "Disposable containers are banned"
        );
        Next(owner, Step.Recover, "Only holders of a training attestation");
        var paid = Job("R-134a", "United Kingdom", "Leeds", Jobs.Kits.Kit.ForPay);
        Says(paid, Step.LeakSearch, "Service providers: no filling after an abnormal leak before it is mended");
        Books(owner, "fourth assessment report, so counted by law: Great Britain", null);
    }

    [Fact]
    public void R134a_in_Oslo()
    {
        var job = Job("R-134a", "Norge", "Oslo", Jobs.Kits.Kit.ForPay);
        Says(
            job,
            Step.Recover,
            "Recovering, Norway: Who draws gas from a car’s air conditioning holds a training "
                + "certificate (opplæringsbevis)"
        );
        Next(job, Step.Recover, "By law");
        Says(job, Step.WeighIn, "Disposable containers of HFC for filling are banned", "in December 2024 it was not");
        Books(job, "so counted by law: European Economic Area outside the Union", null);
    }

    [Fact]
    public void Somewhere_else_says_what_is_unknown_and_keeps_to_what_most_places_ask()
    {
        var job = Job("R-134a", "somewhere else");
        Says(
            job,
            Step.Recover,
            "“somewhere else” is no whole name or code",
            "choose one from the list",
            "Letting refrigerant out on purpose is forbidden in most places",
            "ask environment authority: who may recover from a car"
        );
        Next(job, Step.Recover, null);
        Says(Job("R-134a", null), Step.Recover, "No place is chosen");
        Says(Job("R-134a", "not said"), Step.Recover, "The place is not said");
        Books(
            Job("R-134a", "not said"),
            "fourth assessment report; no law of the place read",
            "Date; Who did it; Refrigerant; Recovered; Charged; Into which cylinder; "
                + "Who received what was recovered, name and address"
        );
        Says(Job("R-134a", "BY"), Step.Recover, "The book holds no rules of Belarus");
    }

    [Fact]
    public void A_mixture_found_by_an_identifier_is_treated_as_unknown_from_then_on()
    {
        var job = Job("R-1234yf", "DE")
            .At(
                30,
                "standing-reading",
                ("low-side", "2.0 bar"),
                ("high-side", "2.0 bar"),
                ("ambient-temperature", "25 °C"),
                ("identified", "mixed or unknown")
            );
        Says(
            job,
            Step.Recover,
            "stop and identify it with an instrument",
            "a cylinder of its own marked mixed or unknown"
        );
        Assert.StartsWith(
            "What is inside is not known",
            job.Find(Step.Recover).Cautions[0].ToString(),
            StringComparison.Ordinal
        );
    }

    [Fact]
    public void A_high_voltage_compressor_is_warned_of_where_hands_come_near_it()
    {
        var job = AJob.OnACar(("compressor", "electric"));
        Says(job, Step.Mend, "prove dead before touching", "Only its own insulating oil");
        Says(job, Step.WeighIn, "Only its own insulating oil");
        Says(job, Step.ProveCold, "orange cables");
        Assert.DoesNotContain(
            "orange cables",
            Said(AJob.OnACar(("compressor", "fixed, cycling")), Step.Mend),
            StringComparison.Ordinal
        );
    }
}
