using Tightcold.Jobs.Entries;
using Tightcold.Pages.Answering;
using Tightcold.Web.Tests.Bench;

namespace Tightcold.Web.Tests;

/// <summary>The ledger's lines are kept from question to question: they must say what lines drawn anew say.</summary>
public sealed class LedgerBooksTests
{
    private static CancellationToken Stop => TestContext.Current.CancellationToken;

    [Fact]
    public async Task Kept_books_say_what_books_drawn_anew_say_after_every_change()
    {
        await using var site = await RunningSite.WithDemoAsync();
        using var kept = new LedgerBooks(site.Desk, Hang.Limit);
        var first = (await kept.SoonAsync(Stop))!;
        var job = (await site.Desk.RecordAsync(1, Stop))!;
        var recovered = job.Journal.OfKind(EntryKinds.Recovery).First();
        foreach (
            var change in new Func<Task>[]
            {
                // A struck entry, a job more, another kit: each makes other lines, or none.
                async () =>
                    Assert.Empty((await site.Desk.StrikeAsync(1, recovered.Id, "Ada", "another car", Stop)).Problems),
                async () => await site.Desk.OpenJobAsync(job.Car.Id, "warm again", Stop),
                async () =>
                    await site.Desk.UpdateKitAsync(
                        new Dictionary<string, string> { ["altitude"] = "640 m" },
                        cancellation: Stop
                    ),
            }
        )
        {
            await change();
            using var anew = new LedgerBooks(site.Desk, Hang.Limit);
            var (wanted, years) = (await anew.SoonAsync(Stop))!.Of(null, TimeZoneInfo.Utc);
            var (there, yearsThere) = (await kept.SoonAsync(Stop))!.Of(null, TimeZoneInfo.Utc);
            Assert.Equal(wanted.Lines, there.Lines);
            Assert.Equal(years, yearsThere);
        }
        Assert.NotEqual(
            first.Of(null, TimeZoneInfo.Utc).Ledger.Lines,
            (await kept.SoonAsync(Stop))!.Of(null, TimeZoneInfo.Utc).Ledger.Lines
        );
    }

    [Fact]
    public async Task A_reader_without_patience_is_told_that_they_are_not_there_yet_and_loses_nothing()
    {
        await using var site = await RunningSite.WithDemoAsync();
        using var books = new LedgerBooks(site.Desk, TimeSpan.Zero);
        LedgerSight? sight = null;
        for (var asked = 0; sight is null; asked++)
        {
            Assert.True(asked < 6000, "the books never came");
            sight = await books.SoonAsync(Stop);
            await Task.Delay(10, Stop);
        }
        Assert.NotEmpty(sight.Of(null, TimeZoneInfo.Utc).Ledger.Lines);
    }
}
