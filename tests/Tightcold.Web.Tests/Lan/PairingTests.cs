using System.Net;
using System.Net.Sockets;
using Tightcold.Jobs.Journals;
using Tightcold.Pages.Styles;
using Tightcold.Web.Lan;
using Tightcold.Web.Tests.Bench;

namespace Tightcold.Web.Tests.Lan;

/// <summary>Who is let in from the network, tried as somebody who would like to be.</summary>
public sealed class PairingTests
{
    private static CancellationToken Cancellation => TestContext.Current.CancellationToken;

    private static readonly string[] Addresses =
    [
        "/",
        "/cars/new",
        "/kit",
        "/kit/containers/new",
        "/import",
        "/ledger",
        "/ledger.csv",
        "/jobs/1",
        "/jobs/1/card",
        "/jobs/1/export",
        "/jobs/1/news",
        "/jobs/1/timers",
        "/timers",
        "/devices",
        "/no/such/place",
    ];

    [Fact]
    public async Task A_phone_that_scans_the_code_and_presses_once_sees_the_jobs_and_can_write()
    {
        await using var site = await LanSite.StartAsync();
        using var phone = site.Visitor();
        var code = site.NewCode().Replace(" ", "", StringComparison.Ordinal);
        // The link in the QR code: the code stands in the form; only pressing spends it, a preview of the link does
        // not.
        var html = await phone.GetStringAsync(new Uri("/pair?code=" + code, UriKind.Relative), Cancellation);
        Assert.Contains($"value=\"{code}\"", html, StringComparison.Ordinal);
        using var paired = await phone.PairAsync(code);
        Assert.Equal("/", paired.Headers.Location!.ToString());
        var cookie = Assert.Single(paired.Headers.GetValues("Set-Cookie"), cookie =>
            cookie.StartsWith("tightcold-device=", StringComparison.Ordinal)
        );
        Assert.Contains("httponly", cookie, StringComparison.OrdinalIgnoreCase);
        Assert.Contains("samesite=strict", cookie, StringComparison.OrdinalIgnoreCase);
        Assert.Equal(HttpStatusCode.OK, await phone.LooksAtAsync("/"));

        var fields = new Dictionary<string, string> { ["f.label"] = "Grey estate", ["f.refrigerant"] = "R-134a" };
        using var written = await phone.SendAsync("/cars/new", fields.Concat(await phone.HiddenOfAsync("/cars/new")));
        Assert.Equal(HttpStatusCode.Found, written.StatusCode);
        Assert.Single(await site.Desk.CarsAsync(Cancellation));
        Assert.Equal("Ada's phone", Assert.Single(site.Book.List()).Name);
    }

    [Fact]
    public async Task An_unpaired_device_gets_403_at_every_address_and_learns_how_to_pair()
    {
        await using var site = await LanSite.StartAsync();
        using var stranger = site.Visitor();
        foreach (var address in Addresses)
        {
            using var answer = await stranger.GetAsync(new Uri(address, UriKind.Relative), Cancellation);
            Assert.True(answer.StatusCode == HttpStatusCode.Forbidden, $"{address}: {answer.StatusCode}");
            Assert.Contains(
                "Only paired devices see these jobs",
                await answer.Content.ReadAsStringAsync(Cancellation),
                StringComparison.Ordinal
            );
        }
        Assert.Equal(HttpStatusCode.OK, await stranger.LooksAtAsync("/pair"));
        Assert.Equal(HttpStatusCode.OK, await stranger.LooksAtAsync(Stylesheet.Look.Address));
    }

    [Fact]
    public async Task An_unpaired_device_writes_nothing_even_with_the_token_of_the_pairing_form()
    {
        await using var site = await LanSite.StartAsync();
        using var stranger = site.Visitor();
        var hidden = await stranger.HiddenOfAsync("/pair");
        foreach (var address in new[] { "/cars/new", "/units", "/import", "/devices/code", "/jobs/1/entries/new/note" })
        {
            using var answer = await stranger.SendAsync(
                address,
                hidden.Concat(
                    new Dictionary<string, string>
                    {
                        ["f.label"] = "Grey estate",
                        ["f.refrigerant"] = "R-134a",
                        ["system"] = "us",
                    }
                )
            );
            Assert.Equal(HttpStatusCode.Forbidden, answer.StatusCode);
        }
        Assert.Empty(await site.Desk.CarsAsync(Cancellation));
    }

    [Fact]
    public async Task A_code_serves_once()
    {
        await using var site = await LanSite.StartAsync();
        var code = site.NewCode();
        using var first = site.Visitor("127.0.0.20");
        using var second = site.Visitor("127.0.0.21");
        using var taken = await first.PairAsync(code);
        using var late = await second.PairAsync(code);
        Assert.Equal(HttpStatusCode.Found, taken.StatusCode);
        await RefusedAsync(late, second);
    }

    [Fact]
    public async Task Of_many_who_send_the_same_code_at_once_one_is_let_in()
    {
        await using var site = await LanSite.StartAsync();
        var code = site.NewCode();
        var crowd = Enumerable.Range(20, 8).Select(i => site.Visitor($"127.0.0.{i}")).ToList();
        var answers = await Task.WhenAll(crowd.Select(client => client.PairAsync(code)));
        Assert.Single(answers, answer => answer.StatusCode == HttpStatusCode.Found);
        Assert.Single(site.Book.List());
        foreach (var one in answers.Cast<IDisposable>().Concat(crowd))
            one.Dispose();
    }

    [Fact]
    public async Task A_code_ends_after_ten_minutes()
    {
        await using var site = await LanSite.StartAsync();
        var code = site.NewCode();
        using var phone = site.Visitor();
        site.Clock.Advance(TimeSpan.FromMinutes(10));
        using var late = await phone.PairAsync(code);
        await RefusedAsync(late, phone);
    }

    [Fact]
    public async Task A_new_code_ends_the_one_before()
    {
        await using var site = await LanSite.StartAsync();
        var old = site.NewCode();
        var young = site.NewCode();
        using var phone = site.Visitor();
        using var late = await phone.PairAsync(old);
        await RefusedAsync(late, phone);
        using var good = await phone.PairAsync(young);
        Assert.Equal(HttpStatusCode.Found, good.StatusCode);
    }

    [Fact]
    public async Task After_ten_wrong_guesses_from_wherever_even_the_right_code_opens_nothing()
    {
        await using var site = await LanSite.StartAsync();
        var code = site.NewCode();
        for (var guess = 0; guess < PairingCodes.MostTries; guess++)
        {
            // Each from an address of its own, so that the limit of one address does not hide this one.
            using var guesser = site.Visitor($"127.0.0.{100 + guess}");
            using var wrong = await guesser.PairAsync(Not(code, guess));
            await RefusedAsync(wrong, guesser);
        }
        using var phone = site.Visitor();
        using var right = await phone.PairAsync(code);
        await RefusedAsync(right, phone);
        Assert.Empty(site.Book.List());
    }

    [Fact]
    public async Task What_has_no_eight_digits_is_told_so_and_spends_no_try()
    {
        await using var site = await LanSite.StartAsync(lan => lan with { Limits = new() { Pairings = 100 } });
        var code = site.NewCode();
        using var phone = site.Visitor();
        foreach (
            var typed in Enumerable
                .Repeat("", PairingCodes.MostTries)
                .Concat(["1234567", "123456789", "12a45678", "1234\r\n5678", "１２３４５６７８", new string('9', 5000)])
        )
        {
            using var answer = await phone.PairAsync(typed);
            Assert.Equal(HttpStatusCode.UnprocessableEntity, answer.StatusCode);
            Assert.Contains(
                "eight digits",
                await answer.Content.ReadAsStringAsync(Cancellation),
                StringComparison.Ordinal
            );
        }
        using var good = await phone.PairAsync(code);
        Assert.Equal(HttpStatusCode.Found, good.StatusCode);
    }

    [Fact]
    public async Task One_address_that_guesses_fast_is_told_to_wait()
    {
        await using var site = await LanSite.StartAsync();
        using var guesser = site.Visitor();
        var hidden = await guesser.HiddenOfAsync("/pair");
        var answers = new List<HttpStatusCode>();
        for (var guess = 0; guess < 12; guess++)
        {
            using var answer = await guesser.SendAsync(
                "/pair",
                hidden.Concat(new Dictionary<string, string> { ["code"] = "00000000" })
            );
            answers.Add(answer.StatusCode);
            if (answer.StatusCode == HttpStatusCode.TooManyRequests)
                Assert.True(answer.Headers.RetryAfter!.Delta > TimeSpan.Zero);
        }
        Assert.Equal(HttpStatusCode.UnprocessableEntity, answers[0]);
        Assert.Contains(HttpStatusCode.TooManyRequests, answers);
    }

    [Fact]
    public async Task An_address_that_floods_the_site_is_told_to_wait_and_the_owner_is_not()
    {
        await using var site = await LanSite.StartAsync(lan =>
            lan with
            {
                Limits = new() { Burst = 10, EachSecond = 1 },
            }
        );
        using var flood = site.Visitor();
        using var owner = site.Owner();
        var answers = await Task.WhenAll(Enumerable.Range(0, 60).Select(_ => flood.LooksAtAsync("/icon.svg")));
        Assert.Contains(HttpStatusCode.TooManyRequests, answers);
        Assert.All(await Task.WhenAll(Enumerable.Range(0, 60).Select(_ => owner.LooksAtAsync("/icon.svg"))), status =>
            Assert.Equal(HttpStatusCode.OK, status)
        );
        using var other = site.Visitor("127.0.0.21");
        Assert.Equal(HttpStatusCode.OK, await other.LooksAtAsync("/pair"));
    }

    /// <summary>A phone and its neighbour may share what counts as one address: a network of IPv6, a router.</summary>
    [Fact]
    public async Task A_neighbour_who_floods_from_the_same_address_does_not_lock_a_paired_phone_out()
    {
        await using var site = await LanSite.StartAsync(lan =>
            lan with
            {
                Limits = new() { Burst = 10, EachSecond = 1 },
            }
        );
        using var phone = await site.PairedAsync();
        using var flood = site.Visitor();
        var answers = await Task.WhenAll(Enumerable.Range(0, 25).Select(_ => flood.LooksAtAsync("/icon.svg")));
        Assert.Contains(HttpStatusCode.TooManyRequests, answers);
        Assert.Equal(HttpStatusCode.OK, await phone.LooksAtAsync("/"));
        // Its own flood is held to the same.
        answers = await Task.WhenAll(Enumerable.Range(0, 25).Select(_ => phone.LooksAtAsync("/icon.svg")));
        Assert.Contains(HttpStatusCode.TooManyRequests, answers);
    }

    [Fact]
    public async Task Open_connections_are_bounded_and_those_who_say_nothing_make_room_for_a_phone()
    {
        var connections = new OpenConnections(most: 6, mostOfOne: 4);
        await using var site = await LanSite.StartAsync(lan => lan with { Connections = connections });
        using var phone = await site.PairedAsync();
        Assert.Equal(HttpStatusCode.OK, await phone.LooksAtAsync("/"));
        var silent = new List<Socket>();
        try
        {
            for (var i = 0; i < 30; i++)
            {
                var socket = new Socket(AddressFamily.InterNetwork, SocketType.Stream, ProtocolType.Tcp);
                socket.Bind(new IPEndPoint(IPAddress.Parse($"127.0.0.{30 + i % 10}"), 0));
                silent.Add(socket);
                await socket.ConnectAsync(IPAddress.Parse(site.Network.Host), site.Network.Port, Cancellation);
            }
            Assert.InRange(connections.Count, 1, 6);
            // The phone's own connection, and a new one of it.
            Assert.Equal(HttpStatusCode.OK, await phone.LooksAtAsync("/"));
            phone.DefaultRequestHeaders.ConnectionClose = true;
            Assert.Equal(HttpStatusCode.OK, await phone.LooksAtAsync("/"));
            Assert.Equal(HttpStatusCode.OK, await phone.LooksAtAsync("/"));
            Assert.InRange(connections.Count, 0, 6);
        }
        finally
        {
            silent.ForEach(socket => socket.Dispose());
        }
    }

    [Theory]
    [InlineData("")]
    [InlineData("x")]
    [InlineData("AAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAA")]
    [InlineData("%00%0d%0aSet-Cookie:a=b")]
    [InlineData("{\"keyHash\":\"\"}")]
    public async Task A_made_up_key_opens_nothing(string key)
    {
        await using var site = await LanSite.StartAsync();
        using var paired = await site.PairedAsync();
        using var forger = site.Visitor("127.0.0.21");
        forger.DefaultRequestHeaders.Add("Cookie", "tightcold-device=" + key);
        Assert.Equal(HttpStatusCode.Forbidden, await forger.LooksAtAsync("/"));
        Assert.Equal(HttpStatusCode.OK, await paired.LooksAtAsync("/"));
    }

    [Fact]
    public async Task The_file_of_devices_is_the_owners_only_and_what_stands_in_it_is_no_key()
    {
        await using var site = await LanSite.StartAsync();
        var cookies = new CookieContainer();
        using var phone = site.Visitor(cookies: cookies);
        using var paired = await phone.PairAsync(site.NewCode());
        var key = cookies.GetCookies(site.Network)["tightcold-device"]!.Value;
        // 256 bits in base64 without padding.
        Assert.Equal(43, key.Length);
        var path = Path.Combine(site.DataFolder, "devices.json");
        var text = await File.ReadAllTextAsync(path, Cancellation);
        Assert.DoesNotContain(key, text, StringComparison.Ordinal);
        if (!OperatingSystem.IsWindows())
            Assert.Equal(UnixFileMode.UserRead | UnixFileMode.UserWrite, File.GetUnixFileMode(path));
        var hash = text.Split("\"keyHash\": \"")[1].Split('"')[0];
        using var thief = site.Visitor("127.0.0.21");
        thief.DefaultRequestHeaders.Add("Cookie", "tightcold-device=" + hash);
        Assert.Equal(HttpStatusCode.Forbidden, await thief.LooksAtAsync("/"));
    }

    [Fact]
    public async Task A_revoked_device_is_out_at_its_next_request_whoever_revoked_it_and_the_others_stay()
    {
        await using var site = await LanSite.StartAsync();
        using var first = await site.PairedAsync("first");
        using var second = await site.PairedAsync("second", "127.0.0.21");
        using var owner = site.Owner();
        var id = site.Book.List().Single(device => device.Name == "first").Id;
        using var revoked = await owner.SendAsync($"/devices/{id}/revoke", await owner.HiddenOfAsync("/devices"));
        Assert.Equal(HttpStatusCode.Found, revoked.StatusCode);
        Assert.Equal(HttpStatusCode.Forbidden, await first.LooksAtAsync("/"));
        Assert.Equal(HttpStatusCode.OK, await second.LooksAtAsync("/"));
        // As the command line does it: another program on the same folder.
        Assert.True(new DeviceBook(site.DataFolder, site.Clock).Revoke(site.Book.List().Single().Id));
        Assert.Equal(HttpStatusCode.Forbidden, await second.LooksAtAsync("/"));
    }

    [Fact]
    public async Task A_paired_device_cannot_let_others_in_or_out()
    {
        await using var site = await LanSite.StartAsync();
        using var phone = await site.PairedAsync();
        var id = site.Book.List().Single().Id;
        var hidden = await phone.HiddenOfAsync("/cars/new");
        Assert.Equal(HttpStatusCode.Forbidden, await phone.LooksAtAsync("/devices"));
        foreach (var address in new[] { "/devices/code", $"/devices/{id}/revoke", "/Devices/code" })
        {
            using var answer = await phone.SendAsync(address, hidden);
            Assert.Equal(HttpStatusCode.Forbidden, answer.StatusCode);
        }
        Assert.Single(site.Book.List());
        Assert.DoesNotContain(
            "/devices",
            await phone.GetStringAsync(new Uri("/", UriKind.Relative), Cancellation),
            StringComparison.Ordinal
        );
    }

    [Fact]
    public async Task The_owner_sees_code_QR_picture_and_devices_with_when_they_were_last_here()
    {
        await using var site = await LanSite.StartAsync();
        using var owner = site.Owner();
        using var renewed = await owner.SendAsync("/devices/code", await owner.HiddenOfAsync("/devices"));
        Assert.Equal(HttpStatusCode.Found, renewed.StatusCode);
        var page = await owner.GetStringAsync(new Uri("/devices", UriKind.Relative), Cancellation);
        Assert.Contains("<svg class=\"qr\" role=\"img\"", page, StringComparison.Ordinal);
        Assert.Matches(">[0-9]{4} [0-9]{4}<", page);
        Assert.Contains(site.Network.Host, page, StringComparison.Ordinal);
        using var phone = await site.PairedAsync("Van <b>");
        site.Clock.Advance(TimeSpan.FromHours(3));
        Assert.Equal(HttpStatusCode.OK, await phone.LooksAtAsync("/"));
        Assert.Equal(site.Clock.GetUtcNow(), site.Book.List().Single().LastSeen);
        page = await owner.GetStringAsync(new Uri("/devices", UriKind.Relative), Cancellation);
        Assert.Contains("Van &lt;b&gt;", page, StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_damaged_list_of_devices_lets_nobody_in_and_says_so_to_the_owner()
    {
        await using var site = await LanSite.StartAsync();
        using var owner = site.Owner();
        using var phone = await site.PairedAsync();
        foreach (
            var damage in new[]
            {
                "",
                "{",
                "[]",
                "{\"format\":\"tightcold-devices 1\"}",
                "{\"format\":\"tightcold-devices 1\",\"devices\":[{}]}",
                "{\"format\":\"tightcold-devices 1\",\"devices\":[null]}",
            }
        )
        {
            await File.WriteAllTextAsync(Path.Combine(site.DataFolder, "devices.json"), damage, Cancellation);
            Assert.Equal(HttpStatusCode.Forbidden, await phone.LooksAtAsync("/"));
            Assert.Contains(
                "pair the devices again",
                Assert.Throws<StoreException>(() => site.Book.List()).Message,
                StringComparison.Ordinal
            );
            Assert.Contains(
                "pair the devices again",
                await owner.GetStringAsync(new Uri("/devices", UriKind.Relative), Cancellation),
                StringComparison.Ordinal
            );
        }
    }

    [Fact]
    public async Task Without_lan_there_is_no_pairing_and_the_owners_page_says_it_is_off()
    {
        await using var site = await RunningSite.StartAsync();
        using var owner = site.Client();
        Assert.Contains(
            "Off: this site answers on this machine only",
            await owner.GetStringAsync(new Uri("/devices", UriKind.Relative), Cancellation),
            StringComparison.Ordinal
        );
        Assert.Equal(HttpStatusCode.NotFound, await owner.LooksAtAsync("/pair"));
    }

    [Theory]
    [InlineData("127.0.0.1", nameof(Reach.ThisMachine))]
    [InlineData("127.3.2.1", nameof(Reach.ThisMachine))]
    [InlineData("::1", nameof(Reach.ThisMachine))]
    [InlineData("::ffff:127.0.0.1", nameof(Reach.ThisMachine))]
    [InlineData("10.0.0.1", nameof(Reach.LocalNetwork))]
    [InlineData("172.16.0.1", nameof(Reach.LocalNetwork))]
    [InlineData("172.31.255.255", nameof(Reach.LocalNetwork))]
    [InlineData("172.32.0.1", nameof(Reach.Elsewhere))]
    [InlineData("192.168.1.20", nameof(Reach.LocalNetwork))]
    [InlineData("::ffff:192.168.1.20", nameof(Reach.LocalNetwork))]
    [InlineData("192.169.1.20", nameof(Reach.Elsewhere))]
    [InlineData("203.0.113.7", nameof(Reach.Elsewhere))]
    [InlineData("::ffff:203.0.113.7", nameof(Reach.Elsewhere))]
    [InlineData("0.0.0.0", nameof(Reach.Elsewhere))]
    [InlineData("fd12:3456::1", nameof(Reach.LocalNetwork))]
    [InlineData("fe80::1", nameof(Reach.LocalNetwork))]
    [InlineData("2001:db8::1", nameof(Reach.Elsewhere))]
    [InlineData("::", nameof(Reach.Elsewhere))]
    public void Private_addresses_are_those_of_RFC_1918_and_RFC_4193(string address, string reach) =>
        Assert.Equal(reach, Reaches.Of(IPAddress.Parse(address)).ToString());

    [Theory]
    [InlineData("127.0.0.1", "127.0.0.1", nameof(Reach.ThisMachine))]
    [InlineData("127.0.0.1", "192.168.1.20", nameof(Reach.LocalNetwork))]
    [InlineData("192.168.1.20", "192.168.1.20", nameof(Reach.LocalNetwork))]
    [InlineData("192.168.1.9", "192.168.1.20", nameof(Reach.LocalNetwork))]
    [InlineData("203.0.113.7", "192.168.1.20", nameof(Reach.Elsewhere))]
    [InlineData("192.168.1.9", "203.0.113.7", nameof(Reach.Elsewhere))]
    [InlineData(null, "127.0.0.1", nameof(Reach.Elsewhere))]
    public void Only_loopback_at_both_ends_is_the_owner(string? from, string to, string reach) =>
        Assert.Equal(
            reach,
            Reaches.Of(from is null ? null : IPAddress.Parse(from), IPAddress.Parse(to), Reaches.Of).ToString()
        );

    private static string Not(string code, int guess) =>
        (
            (
                int.Parse(
                    code.Replace(" ", "", StringComparison.Ordinal),
                    System.Globalization.CultureInfo.InvariantCulture
                )
                + 1
                + guess
            ) % 100_000_000
        ).ToString("D8", System.Globalization.CultureInfo.InvariantCulture);

    private static async Task RefusedAsync(HttpResponseMessage answer, HttpClient client)
    {
        Assert.Equal(HttpStatusCode.UnprocessableEntity, answer.StatusCode);
        Assert.Contains(
            "does not serve",
            await answer.Content.ReadAsStringAsync(Cancellation),
            StringComparison.Ordinal
        );
        Assert.False(
            answer.Headers.TryGetValues("Set-Cookie", out var set)
                && set.Any(cookie => cookie.StartsWith("tightcold-device", StringComparison.Ordinal))
        );
        Assert.Equal(HttpStatusCode.Forbidden, await client.LooksAtAsync("/"));
    }
}
