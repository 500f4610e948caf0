using System.Net;
using Tightcold.Pages.Styles;
using Tightcold.Web.Lan;
using Tightcold.Web.Tests.Bench;

namespace Tightcold.Web.Tests.Lan;

/// <summary>Who is the owner on the machine that runs the site: who opened a link of its terminal, and nobody else who
/// has an account there.</summary>
public sealed class OwnerTests
{
    private static CancellationToken Cancellation => TestContext.Current.CancellationToken;

    [Fact]
    public async Task Another_account_of_the_machine_gets_403_everywhere_and_learns_how_the_owner_comes_in()
    {
        await using var site = await LanSite.StartAsync();
        using var other = site.Owner(withKey: false);
        foreach (
            var path in new[] { "/", "/jobs/1", "/jobs/1/export", "/devices", "/ledger.csv", "/import", "/nowhere" }
        )
        {
            using var answer = await other.GetAsync(new Uri(path, UriKind.Relative), Cancellation);
            Assert.True(answer.StatusCode == HttpStatusCode.Forbidden, $"{path}: {answer.StatusCode}");
            var html = await answer.Content.ReadAsStringAsync(Cancellation);
            Assert.Contains("tightcold owner", html, StringComparison.Ordinal);
            Assert.DoesNotContain(site.DataFolder, html, StringComparison.Ordinal);
        }
        foreach (var path in new[] { "/cars/new", "/devices/code", "/units", "/owner" })
        {
            using var answer = await other.SendAsync(path, new Dictionary<string, string> { ["f.label"] = "estate" });
            Assert.Equal(HttpStatusCode.Forbidden, answer.StatusCode);
        }
        Assert.Empty(await site.Desk.CarsAsync(Cancellation));
        // What that page needs to be shown, and a program that watches.
        Assert.Equal(HttpStatusCode.OK, await other.LooksAtAsync(Stylesheet.Look.Address));
        Assert.Equal(HttpStatusCode.OK, await other.LooksAtAsync("/health"));
    }

    [Fact]
    public async Task The_link_of_the_terminal_lets_one_browser_in_once()
    {
        await using var site = await LanSite.StartAsync();
        var link = site.NewOwnerLink().PathAndQuery;
        using var first = site.Owner(withKey: false);
        using var second = site.Owner(withKey: false);
        // A look ahead of a browser spends nothing.
        using (var head = new HttpRequestMessage(HttpMethod.Head, new Uri(link, UriKind.Relative)))
        using (await first.SendAsync(head, Cancellation)) { }
        using (var came = await first.GetAsync(new Uri(link, UriKind.Relative), Cancellation))
        {
            Assert.Equal(HttpStatusCode.Found, came.StatusCode);
            var cookie = Assert.Single(came.Headers.GetValues("Set-Cookie"));
            Assert.Contains("httponly", cookie, StringComparison.OrdinalIgnoreCase);
            Assert.Contains("samesite=strict", cookie, StringComparison.OrdinalIgnoreCase);
            Assert.True(came.Headers.CacheControl!.NoStore);
        }
        Assert.Equal(HttpStatusCode.OK, await first.LooksAtAsync("/"));
        Assert.Equal(HttpStatusCode.OK, await first.LooksAtAsync("/devices"));
        Assert.Equal(HttpStatusCode.Forbidden, await second.LooksAtAsync(link));
        Assert.Equal(HttpStatusCode.Forbidden, await second.LooksAtAsync("/"));
        // Pressed again where the key is already, it leads to the jobs.
        Assert.Equal(HttpStatusCode.Found, await first.LooksAtAsync(link));
    }

    [Fact]
    public async Task Of_many_who_open_the_same_link_at_once_one_is_let_in()
    {
        await using var site = await LanSite.StartAsync();
        var link = site.NewOwnerLink().PathAndQuery;
        var crowd = Enumerable.Range(0, 8).Select(_ => site.Owner(withKey: false)).ToList();
        var answers = await Task.WhenAll(crowd.Select(client => client.LooksAtAsync(link)));
        Assert.Single(answers, status => status == HttpStatusCode.Found);
        crowd.ForEach(client => client.Dispose());
    }

    [Fact]
    public async Task A_link_ends_after_an_hour_and_when_a_newer_one_is_made_by_whatever_program()
    {
        await using var site = await LanSite.StartAsync();
        using var browser = site.Owner(withKey: false);
        var old = site.NewOwnerLink().PathAndQuery;
        // As the command does it: another program on the same folder, which knows where the site is.
        var (made, _) = new OwnerBook(site.DataFolder, site.Clock).NewLink(null);
        Assert.Equal(site.Own.Authority, made.Authority);
        Assert.Equal(HttpStatusCode.Forbidden, await browser.LooksAtAsync(old));
        site.Clock.Advance(OwnerBook.LinkLifetime);
        Assert.Equal(HttpStatusCode.Forbidden, await browser.LooksAtAsync(made.PathAndQuery));
        Assert.Equal(
            HttpStatusCode.Found,
            await browser.LooksAtAsync(new OwnerBook(site.DataFolder, site.Clock).NewLink(null).Link.PathAndQuery)
        );
    }

    [Theory]
    [InlineData("")]
    [InlineData("x")]
    [InlineData("AAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAA")]
    [InlineData("%00%0d%0aSet-Cookie:a=b")]
    public async Task A_made_up_link_or_key_opens_nothing_and_spends_nothing(string key)
    {
        await using var site = await LanSite.StartAsync();
        var link = site.NewOwnerLink().PathAndQuery;
        using var forger = site.Owner(withKey: false);
        Assert.Equal(HttpStatusCode.Forbidden, await forger.LooksAtAsync("/owner?key=" + key));
        using var other = site.Owner(withKey: false);
        other.DefaultRequestHeaders.Add("Cookie", "tightcold-owner=" + key);
        Assert.Equal(HttpStatusCode.Forbidden, await other.LooksAtAsync("/"));
        Assert.Equal(HttpStatusCode.Found, await forger.LooksAtAsync(link));
    }

    [Fact]
    public async Task A_phones_key_is_not_the_owners_nor_the_other_way_round_and_no_link_serves_from_the_network()
    {
        await using var site = await LanSite.StartAsync();
        var cookies = new CookieContainer();
        using var phone = site.Visitor(cookies: cookies);
        using (await phone.PairAsync(site.NewCode())) { }
        var phonesKey = cookies.GetCookies(site.Network)["tightcold-device"]!.Value;
        using var here = site.Owner(withKey: false);
        here.DefaultRequestHeaders.Add("Cookie", $"tightcold-owner={phonesKey}; tightcold-device={phonesKey}");
        Assert.Equal(HttpStatusCode.Forbidden, await here.LooksAtAsync("/"));
        using var there = site.Visitor("127.0.0.21");
        var ownersKey = new OwnerBook(site.DataFolder, site.Clock).Add("test").Key;
        there.DefaultRequestHeaders.Add("Cookie", $"tightcold-owner={ownersKey}; tightcold-device={ownersKey}");
        Assert.Equal(HttpStatusCode.Forbidden, await there.LooksAtAsync("/"));
        Assert.Equal(HttpStatusCode.Forbidden, await there.LooksAtAsync(site.NewOwnerLink().PathAndQuery));
    }

    [Fact]
    public async Task A_key_that_rested_for_too_long_opens_nothing_and_one_that_is_used_goes_on()
    {
        await using var site = await LanSite.StartAsync();
        using var owner = site.Owner();
        using var phone = await site.PairedAsync();
        using var silent = await site.PairedAsync("silent", "127.0.0.21");
        for (var day = 0; day < DeviceBook.Idle.TotalDays; day += 50)
        {
            Assert.Equal(HttpStatusCode.OK, await owner.LooksAtAsync("/"));
            Assert.Equal(HttpStatusCode.OK, await phone.LooksAtAsync("/"));
            site.Clock.Advance(TimeSpan.FromDays(50));
        }
        Assert.Equal(HttpStatusCode.Forbidden, await silent.LooksAtAsync("/"));
        Assert.Equal("Ada's phone", Assert.Single(site.Book.List()).Name);
        site.Clock.Advance(OwnerBook.Idle - TimeSpan.FromDays(50));
        Assert.Equal(HttpStatusCode.Forbidden, await owner.LooksAtAsync("/"));
    }

    [Fact]
    public async Task The_owner_sees_the_browsers_of_this_machine_and_strikes_one()
    {
        await using var site = await LanSite.StartAsync();
        using var owner = site.Owner();
        using var lost = site.Owner(withKey: false);
        Assert.Equal(HttpStatusCode.Found, await lost.LooksAtAsync(site.NewOwnerLink().PathAndQuery));
        var id = new OwnerBook(site.DataFolder, site.Clock).List()[^1].Id;
        using var struck = await owner.SendAsync($"/devices/{id}/revoke", await owner.HiddenOfAsync("/devices"));
        Assert.Equal(HttpStatusCode.Found, struck.StatusCode);
        Assert.Equal(HttpStatusCode.Forbidden, await lost.LooksAtAsync("/"));
        Assert.Equal(HttpStatusCode.OK, await owner.LooksAtAsync("/"));
    }

    [Fact]
    public async Task A_damaged_list_of_browsers_lets_nobody_in_until_it_is_moved_away()
    {
        await using var site = await LanSite.StartAsync();
        using var owner = site.Owner();
        var file = Path.Combine(site.DataFolder, "owner.json");
        await File.WriteAllTextAsync(file, "{", Cancellation);
        Assert.Equal(HttpStatusCode.Forbidden, await owner.LooksAtAsync("/"));
        Assert.Equal(HttpStatusCode.Forbidden, await owner.LooksAtAsync(site.NewOwnerLink().PathAndQuery));
        File.Delete(file);
        Assert.Equal(HttpStatusCode.Found, await owner.LooksAtAsync(site.NewOwnerLink().PathAndQuery));
        Assert.Equal(HttpStatusCode.OK, await owner.LooksAtAsync("/"));
    }

    [Fact]
    public async Task Where_nothing_can_be_written_the_owner_comes_in_for_as_long_as_the_site_runs()
    {
        var folder = Directory.CreateTempSubdirectory("tightcold-lan-").FullName;
        try
        {
            // A file where the folder should be, as a disk that takes nothing (root writes past modes).
            var nowhere = Path.Combine(folder, "file");
            await File.WriteAllTextAsync(nowhere, "", Cancellation);
            var book = new OwnerBook(nowhere, TimeProvider.System);
            var key = book.NewLink(new Uri("http://127.0.0.1:1/")).Link.Query.Split('=')[1];
            Assert.True(book.Redeem(key));
            Assert.False(book.Redeem(key));
            Assert.NotNull(book.FindOwner(book.Add("browser").Key));
        }
        finally
        {
            Directory.Delete(folder, recursive: true);
        }
    }

    [Fact]
    public async Task The_log_tells_of_pairings_that_failed_and_of_keys_taken_back_and_of_no_code_or_key()
    {
        var secrets = new List<string>();
        await using (var site = await LanSite.StartAsync())
        {
            var cookies = new CookieContainer();
            using var phone = site.Visitor(cookies: cookies);
            var code = site.NewCode();
            secrets.Add(code.Replace(" ", "", StringComparison.Ordinal));
            secrets.Add(code);
            using (await phone.PairAsync("00000000")) { }
            await phone.LooksAtAsync("/pair?code=" + secrets[0]);
            using (await phone.PairAsync(code)) { }
            secrets.Add(cookies.GetCookies(site.Network)["tightcold-device"]!.Value);
            var link = site.NewOwnerLink();
            secrets.Add(link.Query.Split('=')[1]);
            using var owner = site.Owner(withKey: false);
            await owner.LooksAtAsync(link.PathAndQuery);
            using (var other = site.Owner(withKey: false))
                await other.LooksAtAsync(link.PathAndQuery);
            using (
                await owner.SendAsync(
                    $"/devices/{site.Book.List().Single().Id}/revoke",
                    await owner.HiddenOfAsync("/devices")
                )
            ) { }
            await site.StopAsync();
            var file = Assert.Single(Directory.GetFiles(site.LogFolder));
            if (!OperatingSystem.IsWindows())
                Assert.Equal(UnixFileMode.UserRead | UnixFileMode.UserWrite, File.GetUnixFileMode(file));
            var text = await File.ReadAllTextAsync(file, Cancellation);
            var told = text.Replace("\\u0027", "'", StringComparison.Ordinal)
                .Replace("\\\"", "", StringComparison.Ordinal);
            foreach (
                var said in new[]
                {
                    "A pairing at 127.0.0.20 failed",
                    "Paired Ada's phone",
                    "is let in no longer",
                    "became the owner's",
                    "A link for the owner was tried",
                }
            )
                Assert.Contains(said, told, StringComparison.Ordinal);
            Assert.All(secrets, secret => Assert.DoesNotContain(secret, text, StringComparison.Ordinal));
            Assert.All(text.Trim().Split('\n'), line => System.Text.Json.JsonDocument.Parse(line).Dispose());
        }
    }

    [Fact]
    public async Task A_log_that_cannot_be_written_keeps_nobody_out()
    {
        await using var site = await LanSite.StartAsync();
        // The log's own thread may make the folder anew between the two.
        while (!File.Exists(site.LogFolder))
            try
            {
                if (Directory.Exists(site.LogFolder))
                    Directory.Delete(site.LogFolder, recursive: true);
                await File.WriteAllTextAsync(site.LogFolder, "a file in the folder's place", Cancellation);
            }
            catch (Exception busy) when (busy is IOException or UnauthorizedAccessException)
            {
                await Task.Delay(10, Cancellation);
            }
        using var phone = await site.PairedAsync();
        Assert.Equal(HttpStatusCode.OK, await phone.LooksAtAsync("/"));
        Assert.Empty(site.Failures);
    }
}
