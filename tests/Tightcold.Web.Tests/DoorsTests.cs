using System.Net;
using System.Net.Sockets;
using Tightcold.Pages.Asked;
using Tightcold.Web.Tests.Bench;

namespace Tightcold.Web.Tests;

/// <summary>What the site refuses, and what it tells browsers to refuse.</summary>
public sealed class DoorsTests
{
    private static CancellationToken Cancellation => TestContext.Current.CancellationToken;

    private static readonly Dictionary<string, string> ACar = new()
    {
        ["f.label"] = "Grey estate",
        ["f.refrigerant"] = "R-134a",
    };

    [Fact]
    public async Task On_a_fresh_machine_the_folder_for_keys_is_made_wherever_the_data_are()
    {
        var fresh = Directory.CreateTempSubdirectory("tightcold-fresh-").FullName;
        try
        {
            var folder = Path.Combine(fresh, "share", "tightcold");
            await using var site = Site.Build(
                new SiteOptions(folder, 0, TimeProvider.System)
                {
                    Store = () => Tightcold.Storage.JobStore.OpenAsync(Path.Combine(fresh, "elsewhere")),
                }
            );
            await site.StartAsync(Cancellation);
            using var client = RunningSite.Client(Site.Address(site), RunningSite.KeyOf(site));
            using var answer = await client.GetAsync(new Uri("/", UriKind.Relative), Cancellation);
            Assert.Equal(HttpStatusCode.OK, answer.StatusCode);
        }
        finally
        {
            Directory.Delete(fresh, recursive: true);
        }
    }

    [Fact]
    public async Task A_program_that_watches_is_told_whether_the_data_answer()
    {
        await using var site = await RunningSite.StartAsync();
        using var client = site.Client();
        Assert.Equal("well\n", await client.GetStringAsync(new Uri("/health", UriKind.Relative), Cancellation));
    }

    [Fact]
    public async Task A_form_without_its_token_or_with_another_browsers_token_writes_nothing()
    {
        await using var site = await RunningSite.StartAsync();
        using var client = site.Client();
        using var other = site.Client();
        using var without = await client.SendAsync("/cars/new", ACar);
        Assert.Equal(HttpStatusCode.BadRequest, without.StatusCode);
        Assert.Contains(
            "Nothing was written down",
            await without.Content.ReadAsStringAsync(Cancellation),
            StringComparison.Ordinal
        );

        var stolen = await other.HiddenOfAsync("/cars/new");
        using var forged = await client.SendAsync("/cars/new", ACar.Concat(stolen));
        Assert.Equal(HttpStatusCode.BadRequest, forged.StatusCode);
        Assert.Empty(await site.Desk.CarsAsync(Cancellation));

        var own = await client.HiddenOfAsync("/cars/new");
        using var taken = await client.SendAsync("/cars/new", ACar.Concat(own));
        Assert.Equal(HttpStatusCode.Found, taken.StatusCode);
        Assert.Single(await site.Desk.CarsAsync(Cancellation));
    }

    [Theory]
    [InlineData("/cars/new")]
    [InlineData("/kit")]
    [InlineData("/kit/containers/new")]
    [InlineData("/units")]
    [InlineData("/import")]
    [InlineData("/jobs/1/entries/new/note")]
    [InlineData("/no/such/place")]
    public async Task Every_address_that_takes_something_asks_for_the_token_first(string path)
    {
        await using var site = await RunningSite.StartAsync();
        using var client = site.Client();
        using var answer = await client.SendAsync(path, ACar);
        Assert.Equal(HttpStatusCode.BadRequest, answer.StatusCode);
    }

    [Theory]
    [InlineData("shop.example")]
    [InlineData("shop.example:80")]
    [InlineData("127.0.0.1.shop.example")]
    [InlineData("localhost.shop.example")]
    [InlineData("192.168.0.4")]
    public async Task A_foreign_host_name_gets_no_page(string host)
    {
        await using var site = await RunningSite.StartAsync();
        using var client = site.Client();
        client.DefaultRequestHeaders.Host = host;
        using var answer = await client.GetAsync(new Uri("/", UriKind.Relative), Cancellation);
        Assert.Equal(HttpStatusCode.MisdirectedRequest, answer.StatusCode);
        Assert.DoesNotContain(
            "<html",
            await answer.Content.ReadAsStringAsync(Cancellation),
            StringComparison.OrdinalIgnoreCase
        );
    }

    [Fact]
    public async Task The_listener_is_bound_to_loopback_and_to_no_other_address_of_the_machine()
    {
        await using var site = await RunningSite.StartAsync();
        Assert.Equal("127.0.0.1", site.Address.Host);
        var others = System
            .Net.NetworkInformation.NetworkInterface.GetAllNetworkInterfaces()
            .SelectMany(card => card.GetIPProperties().UnicastAddresses)
            .Select(address => address.Address)
            .Where(address => !IPAddress.IsLoopback(address) && address.AddressFamily == AddressFamily.InterNetwork)
            .Take(3);
        foreach (var address in others)
        {
            using var socket = new Socket(SocketType.Stream, ProtocolType.Tcp);
            await Assert.ThrowsAsync<SocketException>(async () =>
                await socket.ConnectAsync(address, site.Address.Port, Cancellation)
            );
        }
    }

    [Theory]
    [InlineData("/")]
    [InlineData("/cars/new")]
    [InlineData("/no/such/place")]
    public async Task Pages_run_scripts_of_this_sites_own_files_only_and_forbid_frames_and_strangers(string path)
    {
        await using var site = await RunningSite.StartAsync();
        using var client = site.Client();
        using var answer = await client.GetAsync(new Uri(path, UriKind.Relative), Cancellation);
        Assert.Equal(
            Tightcold.Pages.Files.SafePolicy.OfPages("'none'"),
            Assert.Single(answer.Headers.GetValues("Content-Security-Policy"))
        );
        Assert.StartsWith(
            "default-src 'none'",
            Tightcold.Pages.Files.SafePolicy.OfPages("'none'"),
            StringComparison.Ordinal
        );
        Assert.Contains(
            "script-src 'self';",
            Tightcold.Pages.Files.SafePolicy.OfPages("'none'"),
            StringComparison.Ordinal
        );
        Assert.DoesNotContain("unsafe", Tightcold.Pages.Files.SafePolicy.OfPages("'none'"), StringComparison.Ordinal);
        Assert.Equal("nosniff", Assert.Single(answer.Headers.GetValues("X-Content-Type-Options")));
        Assert.False(answer.Headers.Contains("Server"));
        var html = await answer.Content.ReadAsStringAsync(Cancellation);
        // Each script is a file; none stands inside a page, and no attribute holds one.
        Assert.DoesNotMatch("<script(?! src=\"/[a-z.0-9]+\\.js\" defer></script>)", html);
        Assert.DoesNotMatch(" on[a-z]+=", html);
        Assert.DoesNotContain(" style=", html, StringComparison.OrdinalIgnoreCase);
        Assert.DoesNotContain("http://", html, StringComparison.OrdinalIgnoreCase);
        Assert.DoesNotContain("https://", html, StringComparison.OrdinalIgnoreCase);
        var cookies = answer.Headers.TryGetValues("Set-Cookie", out var set) ? set.ToArray() : [];
        Assert.All(cookies, cookie =>
        {
            Assert.Contains("httponly", cookie, StringComparison.OrdinalIgnoreCase);
            Assert.Contains("samesite=strict", cookie, StringComparison.OrdinalIgnoreCase);
        });
    }

    [Fact]
    public async Task What_a_person_types_is_shown_as_text_never_as_markup()
    {
        await using var site = await RunningSite.StartAsync();
        const string Nasty = "<img src=x onerror=alert(1)>\"'&";
        var car = (
            await site.Desk.AddCarAsync(
                new Dictionary<string, string> { ["label"] = Nasty, ["refrigerant"] = "R-134a" },
                Cancellation
            )
        ).Value!;
        await site.Desk.OpenJobAsync(car.Id, Nasty, Cancellation);
        using var client = site.Client();
        foreach (
            var path in new[]
            {
                "/",
                $"/cars/{car.Id}",
                $"/cars/{car.Id}/edit",
                "/jobs/1",
                "/jobs/1/card",
                "/jobs/1/entries/new/note",
            }
        )
            Assert.DoesNotContain(
                "<img",
                await client.GetStringAsync(new Uri(path, UriKind.Relative), Cancellation),
                StringComparison.Ordinal
            );
    }

    [Theory]
    [InlineData("//shop.example/", "/")]
    [InlineData("/\\shop.example", "/")]
    [InlineData("https://shop.example/", "/")]
    [InlineData("/jobs/1\r\nSet-Cookie: a=b", "/")]
    [InlineData("", "/")]
    [InlineData("/jobs/1?step=hold", "/jobs/1?step=hold")]
    public void The_unit_switch_returns_to_a_page_of_this_site_only(string asked, string goes) =>
        Assert.Equal(goes, Choices.LocalPath(asked));

    [Fact]
    public async Task A_request_larger_than_a_job_file_is_cut_off_with_a_page_that_says_so()
    {
        await using var site = await RunningSite.StartAsync();
        using var client = site.Client();
        client.DefaultRequestHeaders.ExpectContinue = true;
        using var answer = await client.SendAsync("/cars/new", [new("f.label", new string('x', 5 << 20))]);
        Assert.True(
            answer.StatusCode is HttpStatusCode.RequestEntityTooLarge or HttpStatusCode.BadRequest,
            answer.StatusCode.ToString()
        );
        Assert.Contains(
            "Nothing was written down",
            await answer.Content.ReadAsStringAsync(Cancellation),
            StringComparison.Ordinal
        );
    }

    [Theory]
    [InlineData("/jobs/7")]
    [InlineData("/jobs/7/card")]
    [InlineData("/jobs/7/export")]
    [InlineData("/jobs/99999999999")]
    [InlineData("/jobs/1/entries/new/no-such-kind")]
    [InlineData("/cars/00000000-0000-0000-0000-000000000001")]
    [InlineData("/../../etc/passwd")]
    public async Task What_is_not_there_is_told_in_words(string path)
    {
        await using var site = await RunningSite.StartAsync();
        using var client = site.Client();
        using var answer = await client.GetAsync(new Uri(path, UriKind.Relative), Cancellation);
        Assert.Equal(HttpStatusCode.NotFound, answer.StatusCode);
        Assert.Contains(
            "There is no such page",
            await answer.Content.ReadAsStringAsync(Cancellation),
            StringComparison.Ordinal
        );
        Assert.Empty(site.Failures);
    }

    [Fact]
    public async Task A_failure_inside_becomes_a_page_of_our_words_and_a_line_in_the_log()
    {
        await using var site = await RunningSite.StartAsync(_ =>
            throw new InvalidOperationException("a finding that breaks")
        );
        var car = (
            await site.Desk.AddCarAsync(
                new Dictionary<string, string> { ["label"] = "Grey estate", ["refrigerant"] = "R-134a" },
                Cancellation
            )
        ).Value!;
        await site.Desk.OpenJobAsync(car.Id, "Warm", Cancellation);
        using var client = site.Client();
        using var answer = await client.GetAsync(new Uri("/jobs/1", UriKind.Relative), Cancellation);
        Assert.Equal(HttpStatusCode.InternalServerError, answer.StatusCode);
        var html = await answer.Content.ReadAsStringAsync(Cancellation);
        Assert.Contains("What was written down before is safe", html, StringComparison.Ordinal);
        Assert.DoesNotContain("a finding that breaks", html, StringComparison.Ordinal);
        Assert.Contains("a finding that breaks", Assert.Single(site.Failures), StringComparison.Ordinal);
    }

    [Fact]
    public async Task The_keys_that_keep_forms_good_are_readable_by_their_owner_only()
    {
        if (OperatingSystem.IsWindows())
            return;
        await using var site = await RunningSite.StartAsync();
        using var client = site.Client();
        await client.HiddenOfAsync("/cars/new");
        var folder = Path.Combine(site.DataFolder, "keys");
        Assert.NotEmpty(Directory.GetFiles(folder));
        Assert.Equal(
            UnixFileMode.UserRead | UnixFileMode.UserWrite | UnixFileMode.UserExecute,
            File.GetUnixFileMode(folder)
        );
    }
}
