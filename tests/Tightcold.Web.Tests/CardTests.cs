using System.Globalization;
using System.Net;
using System.Security.Cryptography;
using System.Text;
using System.Text.RegularExpressions;
using Tightcold.App.Demo;
using Tightcold.App.Units;
using Tightcold.Findings;
using Tightcold.Findings.Now;
using Tightcold.Jobs.Entries;
using Tightcold.Jobs.Journals;
using Tightcold.Jobs.Photos;
using Tightcold.Pages.Card;
using Tightcold.Pages.Words;
using Tightcold.Picture;
using Tightcold.Picture.Cold;
using Tightcold.Picture.Tight;
using Tightcold.Procedures.Substances;
using Tightcold.Quantities;
using Tightcold.Web.Tests.Bench;

namespace Tightcold.Web.Tests;

/// <summary>The job card as a file of its own: what it says, and that it needs nothing else.</summary>
public sealed partial class CardTests(DemoSite demo)
{
    private static CancellationToken Cancellation => TestContext.Current.CancellationToken;

    [Fact]
    public async Task The_card_says_all_that_the_findings_say_in_the_readers_units()
    {
        var site = await demo.SiteAsync();
        var record = (await site.Desk.RecordAsync(1, Cancellation))!;
        foreach (var system in Enum.GetValues<UnitSystem>())
        {
            var units = new ReaderUnits(system, CultureInfo.InvariantCulture);
            var text = Text(
                await CardPage.RenderAsync(new JobPicture(record), units, DemoScenario.Start.AddHours(9), Cancellation)
            );
            var findings = Walk.Of(record);
            Assert.Contains(record.Car.Label, text, StringComparison.Ordinal);
            Assert.Contains(record.Job.Complaint, text, StringComparison.Ordinal);
            foreach (var finding in findings)
            {
                Assert.Contains(finding.Verdict.Render(units), text, StringComparison.Ordinal);
                Assert.All(finding.Estimates, estimate =>
                    Assert.Contains(
                        EstimateWords.Big(estimate, units).Replace('\u00a0', ' '),
                        text,
                        StringComparison.Ordinal
                    )
                );
                // A caution stands at the act; on the card of a closed job nothing is left to be done.
                Assert.All(finding.Cautions, caution =>
                    Assert.DoesNotContain(caution.Render(units), text, StringComparison.Ordinal)
                );
                Assert.All(finding.Missing, missing =>
                    Assert.Contains(missing.Render(units), text, StringComparison.Ordinal)
                );
                Assert.All(finding.Assumptions, assumption =>
                    Assert.Contains(assumption.What.Render(units), text, StringComparison.Ordinal)
                );
            }
            Assert.Contains(
                $"Made by Tightcold {CardPage.ProgramVersion} on 18 Jul 2026 16:40",
                text,
                StringComparison.Ordinal
            );
            Assert.Contains("Signature", text, StringComparison.Ordinal);
        }
    }

    [Fact]
    public async Task The_card_carries_everything_inside_and_is_the_same_each_time()
    {
        var site = await demo.SiteAsync();
        var record = (await site.Desk.RecordAsync(1, Cancellation))!;
        var units = new ReaderUnits(UnitSystem.Metric, CultureInfo.InvariantCulture);
        var html = await CardPage.RenderAsync(new JobPicture(record), units, DemoScenario.Start, Cancellation);
        Assert.StartsWith("<!DOCTYPE html>", html, StringComparison.Ordinal);
        Assert.DoesNotMatch("<script|<link|<img|src=|href=|@import|url\\(", html);
        Assert.Equal(html, await CardPage.RenderAsync(new JobPicture(record), units, DemoScenario.Start, Cancellation));
    }

    [Fact]
    public async Task The_sites_card_allows_its_own_styles_by_their_hash_and_no_others()
    {
        var site = await demo.SiteAsync();
        using var client = site.Client();
        using var answer = await client.GetAsync(new Uri("/jobs/1/card", UriKind.Relative), Cancellation);
        var style = Style().Match(await answer.Content.ReadAsStringAsync(Cancellation)).Groups[1].Value;
        var hash = Convert.ToBase64String(SHA256.HashData(Encoding.UTF8.GetBytes(style)));
        Assert.Contains(
            $"style-src 'sha256-{hash}'",
            Assert.Single(answer.Headers.GetValues("Content-Security-Policy")),
            StringComparison.Ordinal
        );
    }

    [Fact]
    public void Only_what_is_proven_is_called_a_proof_and_only_what_was_shown_not_to_be_so_a_no()
    {
        Assert.Equal(
            ["not proven", "no", "not proven", "likely, not proven", "yes"],
            Enum.GetValues<TightOutcome>().Select(ProofWords.Of)
        );
        Assert.Equal(
            ["yes", "no", "no", "not proven", "not proven"],
            Enum.GetValues<ColdOutcome>().Select(outcome => ProofWords.Of(outcome))
        );
        Assert.Equal("not proven", ProofWords.Of((ColdOutcome?)null));
    }

    [Fact]
    public async Task A_card_of_a_job_without_entries_proves_nothing_and_says_so()
    {
        await using var site = await RunningSite.StartAsync();
        var car = (
            await site.Desk.AddCarAsync(
                new Dictionary<string, string> { ["label"] = "Grey estate", ["refrigerant"] = "R-134a" },
                Cancellation
            )
        ).Value!;
        await site.Desk.OpenJobAsync(car.Id, "Warm", Cancellation);
        var record = (await site.Desk.RecordAsync(1, Cancellation))!;
        var text = Text(
            await CardPage.RenderAsync(
                new JobPicture(record),
                new ReaderUnits(UnitSystem.Us, CultureInfo.InvariantCulture),
                RunningSite.Noon,
                Cancellation
            )
        );
        Assert.Contains("Proven tight: not proven", text, StringComparison.Ordinal);
        Assert.Contains("Proven cold: not proven", text, StringComparison.Ordinal);
        Assert.Contains("No recovery, part, seal or oil was written down", text, StringComparison.Ordinal);
    }

    /// <summary>A job with a running reading before and one after the circuit was opened.</summary>
    private static async Task<RunningSite> OpenedSiteAsync()
    {
        var site = await RunningSite.StartAsync();
        var car = (
            await site.Desk.AddCarAsync(
                new Dictionary<string, string> { ["label"] = "Grey estate", ["refrigerant"] = "R-1234yf" },
                Cancellation
            )
        ).Value!;
        await site.Desk.OpenJobAsync(car.Id, "Warm", Cancellation);
        foreach (
            var (minute, kind, name, text) in new[]
            {
                (0, EntryKinds.RunningReading, "vent-temperature", "14 °C"),
                (10, EntryKinds.Opened, "spot", "condenser"),
                (20, EntryKinds.RunningReading, "vent-temperature", "6 °C"),
            }
        )
        {
            site.Clock.Advance(TimeSpan.FromMinutes(minute));
            var written = await site.Desk.AddEntryAsync(
                1,
                kind,
                new Dictionary<string, string> { [name] = text },
                null,
                "Ada",
                cancellation: Cancellation
            );
            Assert.True(written.Taken, string.Join(' ', written.Problems.Select(problem => problem.Sentence)));
        }
        return site;
    }

    [Fact]
    public async Task What_was_read_before_the_work_stands_before_and_what_was_read_behind_it_after()
    {
        await using var site = await OpenedSiteAsync();
        var record = (await site.Desk.RecordAsync(1, Cancellation))!;
        var units = new ReaderUnits(UnitSystem.Metric, CultureInfo.InvariantCulture);
        var vent = Assert.Single(BeforeAfter.Of(new JobPicture(record), units).Rows, row =>
            row.What.Contains("vent", StringComparison.Ordinal)
        );
        Assert.StartsWith("14", vent.Before, StringComparison.Ordinal);
        Assert.StartsWith("6", vent.After, StringComparison.Ordinal);
    }

    [Fact]
    public async Task The_card_of_a_job_under_way_carries_the_cautions_of_what_comes_next()
    {
        await using var site = await OpenedSiteAsync();
        var picture = new JobPicture((await site.Desk.RecordAsync(1, Cancellation))!);
        var next = Walk.Of(picture.Record).Last(finding => finding.Step == NowWords.Of(picture).Step);
        var cautions = next.Hazards.Where(hazard => hazard.Danger <= Danger.Life).ToArray();
        Assert.NotEmpty(cautions);
        var units = new ReaderUnits(UnitSystem.Metric, CultureInfo.InvariantCulture);
        var text = Text(await CardPage.RenderAsync(picture, units, RunningSite.Noon, Cancellation));
        Assert.All(cautions, caution =>
            Assert.Contains(Spaces().Replace(caution.Says.Render(units), " "), text, StringComparison.Ordinal)
        );
    }

    [Fact]
    public async Task A_photo_of_what_was_struck_is_not_on_the_card()
    {
        await using var site = await OpenedSiteAsync();
        var opened = (await site.Desk.RecordAsync(1, Cancellation))!.Journal.OfKind(EntryKinds.Opened).Single();
        var photo = new Photo(new Guid(7, 7, 7, new byte[8]), opened.Id, RunningSite.Noon, [0xFF, 0xD8, 0xFF, 0xD9]);
        async Task<CardFacts> FactsAsync()
        {
            var record = (await site.Desk.RecordAsync(1, Cancellation))!;
            return new CardFacts(
                new(new JobPicture(record), Walk.Of(record), IsWhole: true),
                SiFormat.Instance,
                [photo]
            );
        }
        Assert.Single((await FactsAsync()).Photos);
        await site.Desk.StrikeAsync(1, opened.Id, "Ada", "another car", Cancellation);
        Assert.Empty((await FactsAsync()).Photos);
    }

    [Fact]
    public void A_bound_says_that_it_is_one()
    {
        string Shown(Estimate estimate) => EstimateWords.Big(estimate, SiFormat.Instance);
        Assert.StartsWith("at least 2", Shown(Estimate.AtLeast("left", "left", QuantityKind.Mass, 2)));
        Assert.StartsWith("at most 2", Shown(Estimate.AtMost("left", "left", QuantityKind.Mass, 2)));
    }

    [Fact]
    public async Task A_spot_that_leaks_stands_above_those_where_nothing_was_found()
    {
        await using var site = await RunningSite.StartAsync();
        var car = (
            await site.Desk.AddCarAsync(
                new Dictionary<string, string> { ["label"] = "Grey estate", ["refrigerant"] = "R-134a" },
                Cancellation
            )
        ).Value!;
        await site.Desk.OpenJobAsync(car.Id, "Warm", Cancellation);
        JobRecord record = (await site.Desk.RecordAsync(1, Cancellation))!;
        var facts = new CardFacts(
            new(new JobPicture(record), InventedFindings.Of(record, Step.Ledger), IsWhole: true),
            SiFormat.Instance
        );
        Assert.Equal("condenser", facts.Spots[0].Spots);
        Assert.Contains("UV lamp, clear leak", facts.Spots[0].Outcome, StringComparison.Ordinal);
    }

    /// <summary>What a reader sees: without markup and styles, spaces as one.</summary>
    private static string Text(string html) =>
        Spaces().Replace(WebUtility.HtmlDecode(Markup().Replace(Style().Replace(html, ""), "")), " ");

    [GeneratedRegex("<style>(.*?)</style>", RegexOptions.Singleline)]
    private static partial Regex Style();

    [GeneratedRegex("<[^>]+>")]
    private static partial Regex Markup();

    [GeneratedRegex(@"[\s\u00a0]+")]
    private static partial Regex Spaces();
}
