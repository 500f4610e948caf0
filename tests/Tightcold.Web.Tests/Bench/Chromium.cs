using System.Globalization;
using Microsoft.Playwright;
using Tightcold.Web.Lan;

[assembly: AssemblyFixture(typeof(Tightcold.Web.Tests.Bench.Chromium))]

namespace Tightcold.Web.Tests.Bench;

/// <summary>The distribution's browser, started once for all tests: the one without windows where there is one, because
/// the whole browser spends more on its own unseen frame than on the pages.</summary>
public sealed class Chromium : IAsyncLifetime
{
    private static readonly string[] Places =
    [
        "/usr/bin/chromium-headless-shell",
        "/usr/bin/chromium",
        "/usr/bin/chromium-browser",
        "/usr/bin/google-chrome",
    ];

    private IPlaywright? playwright;
    private IBrowser? browser;

    public async ValueTask InitializeAsync()
    {
        playwright = await Playwright.CreateAsync();
        browser = await playwright.Chromium.LaunchAsync(
            new()
            {
                ExecutablePath = Places.FirstOrDefault(File.Exists),
                Args =
                [
                    "--no-sandbox",
                    "--disable-gpu",
                    "--disable-quic",
                    "--no-first-run",
                    "--disable-background-networking",
                    "--disable-component-update",
                    "--disable-sync",
                ],
            }
        );
    }

    public async ValueTask DisposeAsync()
    {
        if (browser is not null)
            await browser.DisposeAsync();
        playwright?.Dispose();
    }

    /// <summary>A person at a phone (390 px, touch) or a laptop (1280 px). Anything asked from another machine is
    /// refused and remembered.</summary>
    public Task<Person> PersonAsync(RunningSite site, int width, bool scripts = true) =>
        PersonAsync(site.Address, width, scripts, site.OwnerKey);

    public Task<Person> PersonAsync(Uri site, int width, bool scripts = true, string? ownerKey = null) =>
        PersonAsync(site, width, scripts, ownerKey, inShell: false, "America/Denver");

    /// <summary>The same where the pages stand in the frame of a shell, which is opened.</summary>
    /// <param name="site">Where the shell is handed out.</param>
    /// <param name="width">Of the screen, px.</param>
    /// <param name="hoursEast">Of Greenwich: the time zone of the browser, which is that of the program in it.</param>
    /// <param name="ownerKey">Of the site that hands it out, where the browser has one.</param>
    public Task<Person> InShellAsync(Uri site, int width, int hoursEast, string? ownerKey = null) =>
        PersonAsync(
            site,
            width,
            scripts: true,
            ownerKey,
            inShell: true,
            string.Create(CultureInfo.InvariantCulture, $"Etc/GMT{-hoursEast:+0;-0}")
        );

    private async Task<Person> PersonAsync(
        Uri site,
        int width,
        bool scripts,
        string? ownerKey,
        bool inShell,
        string zone
    )
    {
        var phone = width < 600;
        var context = await browser!.NewContextAsync(
            new()
            {
                BaseURL = site.ToString(),
                ViewportSize = new() { Width = width, Height = phone ? 844 : 800 },
                HasTouch = phone,
                IsMobile = phone,
                JavaScriptEnabled = scripts,
                TimezoneId = zone,
            }
        );
        if (ownerKey is not null)
            await context.AddCookiesAsync([
                new()
                {
                    Name = DeviceCookie.OwnerName,
                    Value = ownerKey,
                    Url = new Uri(site, "/").ToString(),
                    HttpOnly = true,
                    SameSite = SameSiteAttribute.Strict,
                },
            ]);
        context.SetDefaultTimeout((float)Hang.Limit.TotalMilliseconds);
        var strangers = new List<string>();
        await context.RouteAsync(
            url => new Uri(url).Host != site.Host,
            route =>
            {
                strangers.Add(route.Request.Url);
                return route.AbortAsync();
            }
        );
        var page = await context.NewPageAsync();
        if (inShell)
            await page.GotoAsync(site.ToString());
        return new Person(context, page, strangers, scripts, inShell);
    }
}
