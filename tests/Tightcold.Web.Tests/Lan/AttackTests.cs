using System.Net;
using System.Security.Cryptography;
using System.Security.Cryptography.X509Certificates;
using Tightcold.Web.Tests.Bench;

namespace Tightcold.Web.Tests.Lan;

/// <summary>What other sites, proxies and odd requests may try.</summary>
public sealed class AttackTests
{
    private static CancellationToken Cancellation => TestContext.Current.CancellationToken;

    private static readonly Dictionary<string, string> ACar = new()
    {
        ["f.label"] = "Grey estate",
        ["f.refrigerant"] = "R-134a",
    };

    [Theory]
    [InlineData("Origin", "http://shop.example")]
    [InlineData("Origin", "null")]
    [InlineData("Origin", "http://127.0.0.3:1")]
    [InlineData("Sec-Fetch-Site", "cross-site")]
    [InlineData("Sec-Fetch-Site", "same-site")]
    public async Task A_form_that_another_site_sends_is_not_taken_even_with_key_and_token(string header, string value)
    {
        await using var site = await LanSite.StartAsync();
        using var phone = await site.PairedAsync();
        var hidden = await phone.HiddenOfAsync("/cars/new");
        phone.DefaultRequestHeaders.TryAddWithoutValidation(header, value);
        using var foreign = await phone.SendAsync("/cars/new", ACar.Concat(hidden));
        Assert.Equal(HttpStatusCode.BadRequest, foreign.StatusCode);
        Assert.Empty(await site.Desk.CarsAsync(Cancellation));
        phone.DefaultRequestHeaders.Remove(header);
        phone.DefaultRequestHeaders.TryAddWithoutValidation("Origin", site.Network.GetLeftPart(UriPartial.Authority));
        phone.DefaultRequestHeaders.TryAddWithoutValidation("Sec-Fetch-Site", "same-origin");
        using var own = await phone.SendAsync("/cars/new", ACar.Concat(hidden));
        Assert.Equal(HttpStatusCode.Found, own.StatusCode);
    }

    [Fact]
    public async Task Pairing_without_the_token_of_its_form_is_refused_and_spends_no_code()
    {
        await using var site = await LanSite.StartAsync();
        using var phone = site.Visitor();
        var code = site.NewCode();
        using var without = await phone.SendAsync("/pair", new Dictionary<string, string> { ["code"] = code });
        Assert.Equal(HttpStatusCode.BadRequest, without.StatusCode);
        using var with = await phone.PairAsync(code);
        Assert.Equal(HttpStatusCode.Found, with.StatusCode);
    }

    [Theory]
    [InlineData("shop.example")]
    [InlineData("127.0.0.1")]
    [InlineData("localhost")]
    [InlineData("127.0.0.4")]
    [InlineData("127.0.0.3.shop.example")]
    [InlineData("127.3")]
    [InlineData("0x7f000003")]
    [InlineData("2130706435")]
    [InlineData("[::ffff:127.0.0.3]")]
    public async Task A_name_that_is_not_the_address_reached_gets_no_page_even_with_a_key(string host)
    {
        await using var site = await LanSite.StartAsync();
        using var phone = await site.PairedAsync();
        phone.DefaultRequestHeaders.Host = host;
        Assert.Equal(HttpStatusCode.MisdirectedRequest, await phone.LooksAtAsync("/"));
        Assert.Equal(HttpStatusCode.MisdirectedRequest, await phone.LooksAtAsync("/pair"));
    }

    [Fact]
    public async Task A_name_that_the_owner_gave_is_taken_and_stands_in_the_link()
    {
        await using var site = await LanSite.StartAsync(lan => lan with { Name = "garage.local" });
        Assert.Equal("garage.local", site.Network.Host);
        var port = site.Network.Port;
        foreach (
            var (host, status) in new[]
            {
                ("garage.local", "200"),
                ("GARAGE.local", "200"),
                ("127.0.0.3", "200"),
                ("garage.local.shop.example", "421"),
            }
        )
            Assert.StartsWith(
                $"HTTP/1.1 {status}",
                await LanSite.RawAsync(
                    new Uri($"http://127.0.0.3:{port}"),
                    $"GET /pair HTTP/1.1\r\nHost: {host}:{port}\r\nConnection: close\r\n\r\n",
                    "127.0.0.20"
                ),
                StringComparison.Ordinal
            );
        // The owner's own door does not know the name.
        Assert.StartsWith(
            "HTTP/1.1 421",
            await LanSite.RawAsync(site.Own, $"GET / HTTP/1.1\r\nHost: garage.local\r\nConnection: close\r\n\r\n"),
            StringComparison.Ordinal
        );
    }

    [Fact]
    public async Task From_outside_the_local_network_nobody_comes_in()
    {
        await using var site = await LanSite.StartAsync();
        using var outside = site.Visitor(LanSite.Outside);
        Assert.Equal(HttpStatusCode.MisdirectedRequest, await outside.LooksAtAsync("/"));
        Assert.Equal(HttpStatusCode.MisdirectedRequest, await outside.LooksAtAsync("/pair"));
    }

    [Theory]
    [InlineData("X-Forwarded-For", "203.0.113.7")]
    [InlineData("Forwarded", "for=203.0.113.7")]
    [InlineData("X-Real-IP", "203.0.113.7")]
    [InlineData("X-Forwarded-Host", "garage.example")]
    [InlineData("X-Forwarded-Proto", "https")]
    [InlineData("Via", "1.1 tunnel")]
    [InlineData("True-Client-IP", "203.0.113.7")]
    [InlineData("CF-Connecting-IP", "203.0.113.7")]
    [InlineData("X-Client-IP", "203.0.113.7")]
    [InlineData("X-Original-URL", "/devices")]
    [InlineData("x-forwarded", "203.0.113.7")]
    [InlineData("X_Forwarded_For", "203.0.113.7")]
    [InlineData("X-Original-Forwarded-For", "203.0.113.7")]
    [InlineData("X-Envoy-External-Address", "203.0.113.7")]
    [InlineData("Forwarded-For", "203.0.113.7")]
    [InlineData("Proxy-Client-IP", "203.0.113.7")]
    public async Task Behind_a_proxy_nobody_passes_for_the_owner_and_no_header_makes_a_visitor_one(
        string header,
        string value
    )
    {
        await using var site = await LanSite.StartAsync();
        using var proxied = site.Owner();
        proxied.DefaultRequestHeaders.Add(header, value);
        Assert.Equal(HttpStatusCode.MisdirectedRequest, await proxied.LooksAtAsync("/"));
        using var visitor = site.Visitor();
        visitor.DefaultRequestHeaders.Add(header, value.Replace("203.0.113.7", "127.0.0.1", StringComparison.Ordinal));
        Assert.Equal(HttpStatusCode.Forbidden, await visitor.LooksAtAsync("/"));
    }

    [Fact]
    public async Task A_pairing_form_larger_than_a_pairing_is_cut_off_and_so_is_any_larger_than_a_job()
    {
        await using var site = await LanSite.StartAsync();
        var code = site.NewCode();
        using var stranger = site.Visitor();
        stranger.DefaultRequestHeaders.ExpectContinue = true;
        using var large = await stranger.PairAsync(code, new string('x', 17 << 10));
        Assert.True(
            large.StatusCode is HttpStatusCode.RequestEntityTooLarge or HttpStatusCode.BadRequest,
            large.StatusCode.ToString()
        );
        Assert.Empty(site.Book.List());
        using var phone = await site.PairedAsync();
        phone.DefaultRequestHeaders.ExpectContinue = true;
        var hidden = await phone.HiddenOfAsync("/cars/new");
        using var job = await phone.SendAsync("/cars/new", hidden.Append(new("f.label", new string('x', 5 << 20))));
        Assert.True(
            job.StatusCode is HttpStatusCode.RequestEntityTooLarge or HttpStatusCode.BadRequest,
            job.StatusCode.ToString()
        );
        Assert.Empty(site.Failures);
    }

    [Theory]
    [InlineData("/../../etc/passwd")]
    [InlineData("/%2e%2e/%2e%2e/etc/passwd")]
    [InlineData("/..%2f..%2fetc%2fpasswd")]
    [InlineData("/%252e%252e/etc/passwd")]
    [InlineData("/..%5c..%5cdevices.json")]
    [InlineData("/devices.json")]
    [InlineData("/keys/../devices.json")]
    [InlineData("/tightcold.db")]
    [InlineData("/kit/containers/..%2f..%2fdevices.json")]
    [InlineData("/jobs/1%00/card")]
    [InlineData("/%00")]
    [InlineData("/jobs/%2e%2e/devices")]
    [InlineData("//devices")]
    [InlineData("/%c0%ae%c0%ae/devices.json")]
    public async Task No_way_of_writing_a_path_leads_to_a_file_or_past_the_door(string path)
    {
        await using var site = await LanSite.StartAsync();
        using var paired = await site.PairedAsync();
        // Raw, because a client of ours would tidy the path first.
        foreach (var (at, from) in new[] { (site.Own, "127.0.0.1"), (site.Network, "127.0.0.30") })
        {
            var answer = await LanSite.RawAsync(
                at,
                $"GET {path} HTTP/1.1\r\nHost: {at.Authority}\r\nCookie: {site.OwnerCookie}\r\nConnection: close\r\n\r\n",
                from
            );
            Assert.Matches(from == "127.0.0.1" ? "^HTTP/1.1 (400|404|200)" : "^HTTP/1.1 (400|403)", answer);
            Assert.DoesNotContain("keyHash", answer, StringComparison.Ordinal);
            Assert.DoesNotContain("SQLite format", answer, StringComparison.Ordinal);
            Assert.DoesNotContain("root:", answer, StringComparison.Ordinal);
        }
        Assert.Empty(site.Failures);
    }

    [Theory]
    [InlineData("/Pair/../")]
    [InlineData("/pair/../jobs/1")]
    [InlineData("/pair/x")]
    [InlineData("/pair%2f..%2f")]
    [InlineData("/icon.svg/..")]
    [InlineData("/icon.svg%00")]
    public async Task An_address_beside_the_public_ones_is_not_public(string path)
    {
        await using var site = await LanSite.StartAsync();
        Assert.Matches(
            "^HTTP/1.1 (400|403)",
            await LanSite.RawAsync(
                site.Network,
                $"GET {path} HTTP/1.1\r\nHost: {site.Network.Authority}\r\nConnection: close\r\n\r\n",
                "127.0.0.30"
            )
        );
    }

    [Theory]
    [InlineData("POST / HTTP/1.1\r\nHost: {0}\r\nContent-Length: 4\r\nTransfer-Encoding: chunked\r\n\r\n0\r\n\r\n")]
    [InlineData("GET / HTTP/1.1\r\nHost: {0}\r\nHost: shop.example\r\nConnection: close\r\n\r\n")]
    [InlineData("GET / HTTP/1.1\r\nConnection: close\r\n\r\n")]
    [InlineData("GET http://shop.example/ HTTP/1.1\r\nHost: {0}\r\nConnection: close\r\n\r\n")]
    [InlineData("GET / HTTP/1.1\r\nHost: {0}\r\nX: a\nb\r\nConnection: close\r\n\r\n")]
    public async Task A_request_that_says_two_things_gets_no_page(string request)
    {
        await using var site = await LanSite.StartAsync();
        var answer = await LanSite.RawAsync(
            site.Own,
            request.Replace("{0}", site.Own.Authority, StringComparison.Ordinal)
        );
        Assert.Matches("^HTTP/1.1 4", answer);
        Assert.DoesNotContain("Cars and jobs", answer, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Line_ends_in_what_a_person_types_reach_no_header()
    {
        await using var site = await LanSite.StartAsync();
        using var owner = site.Owner();
        const string Break = "\r\nSet-Cookie: stolen=1\r\n\r\n";
        var hidden = await owner.HiddenOfAsync("/cars/new");
        using var units = await owner.SendAsync(
            "/units",
            hidden.Concat(new Dictionary<string, string> { ["system"] = "us" + Break, ["back"] = "/jobs/1" + Break })
        );
        Assert.Equal("/", units.Headers.Location!.ToString());
        var car = (
            await site.Desk.AddCarAsync(ACar.ToDictionary(field => field.Key[2..], field => field.Value), Cancellation)
        ).Value!;
        await site.Desk.OpenJobAsync(car.Id, "Warm" + Break, Cancellation);
        using var container = await owner.SendAsync(
            "/kit/containers/new",
            (await owner.HiddenOfAsync("/kit/containers/new")).Concat(
                new Dictionary<string, string>
                {
                    ["f.name"] = "A" + Break,
                    ["f.kind"] = "can",
                    ["f.refrigerant"] = "R-134a",
                }
            )
        );
        foreach (
            var path in new[]
            {
                "/",
                "/jobs/1",
                "/jobs/1/export",
                "/jobs/1/card",
                "/ledger.csv",
                "/jobs/1?step=%0d%0aSet-Cookie:%20stolen=1",
                "/pair?code=%0d%0aSet-Cookie:%20stolen=1",
                "/kit/containers/A%0d%0aSet-Cookie:%20stolen=1",
            }
        )
        {
            using var answer = await owner.GetAsync(new Uri(path, UriKind.Relative), Cancellation);
            Assert.True((int)answer.StatusCode is 200 or 404, $"{path}: {answer.StatusCode}");
            Assert.All(new[] { answer, units, container }, one =>
                Assert.DoesNotContain(
                    one.Headers.Concat(one.Content.Headers).SelectMany(header => header.Value),
                    value => value.Contains("stolen", StringComparison.Ordinal)
                )
            );
        }
        Assert.Empty(site.Failures);
    }

    [Fact]
    public async Task Pages_for_strangers_forbid_scripts_frames_and_foreign_places_too()
    {
        await using var site = await LanSite.StartAsync();
        using var stranger = site.Visitor();
        foreach (var path in new[] { "/pair", "/" })
        {
            using var answer = await stranger.GetAsync(new Uri(path, UriKind.Relative), Cancellation);
            Assert.Equal(
                Tightcold.Pages.Files.SafePolicy.OfPages("'none'"),
                Assert.Single(answer.Headers.GetValues("Content-Security-Policy"))
            );
            var html = await answer.Content.ReadAsStringAsync(Cancellation);
            Assert.DoesNotContain("<script", html, StringComparison.OrdinalIgnoreCase);
            Assert.DoesNotContain("://", html, StringComparison.Ordinal);
            Assert.All(answer.Headers.TryGetValues("Set-Cookie", out var set) ? set : [], cookie =>
                Assert.Matches("(?i)httponly.*|samesite=strict", cookie)
            );
        }
    }

    [Fact]
    public async Task With_a_certificate_the_network_is_encrypted_and_every_cookie_is_for_encrypted_use_only()
    {
        using var key = ECDsa.Create(ECCurve.NamedCurves.nistP256);
        using var made = new CertificateRequest("CN=garage.local", key, HashAlgorithmName.SHA256).CreateSelfSigned(
            DateTimeOffset.UnixEpoch,
            new DateTimeOffset(2099, 1, 1, 0, 0, 0, TimeSpan.Zero)
        );
        using var certificate = X509CertificateLoader.LoadPkcs12(made.Export(X509ContentType.Pkcs12), null);
        await using var site = await LanSite.StartAsync(lan => lan with { Certificate = certificate });
        Assert.Equal("https", site.Network.Scheme);
        Assert.Equal("http", site.Own.Scheme);
        using var phone = site.Visitor();
        using var asked = await phone.GetAsync(new Uri("/pair", UriKind.Relative), Cancellation);
        using var paired = await phone.PairAsync(site.NewCode());
        using var units = await phone.SendAsync(
            "/units",
            (await phone.HiddenOfAsync("/cars/new")).Append(new("system", "us"))
        );
        var cookies = new[] { asked, paired, units }
            .SelectMany(answer => answer.Headers.TryGetValues("Set-Cookie", out var set) ? set : [])
            .ToList();
        Assert.True(cookies.Count >= 3);
        Assert.All(cookies, cookie => Assert.Contains("; secure", cookie, StringComparison.OrdinalIgnoreCase));
        // Spoken to without encryption, that address says nothing of ours.
        var plain = await Record.ExceptionAsync(async () =>
            Assert.DoesNotContain(
                "Tightcold",
                await LanSite.RawAsync(
                    site.Network,
                    $"GET / HTTP/1.1\r\nHost: {site.Network.Authority}\r\nConnection: close\r\n\r\n",
                    "127.0.0.30"
                ),
                StringComparison.Ordinal
            )
        );
        Assert.True(plain is null or IOException, plain?.ToString());
    }
}
