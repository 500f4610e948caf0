using Microsoft.AspNetCore.Http;
using Microsoft.Extensions.DependencyInjection;
using Tightcold.App.Units;
using Tightcold.Pages.Asked;
using Tightcold.Tongues;
using Tightcold.Web.Lan;

namespace Tightcold.Web.Http;

/// <summary>Who looks: a request's choices from its cookies, its path, and whether it is the owner.</summary>
internal static class Visits
{
    /// <summary>A choice that was made while this request was answered.</summary>
    private static readonly object Chosen = new();

    public static Visit Of(HttpContext http)
    {
        ArgumentNullException.ThrowIfNull(http);
        var (system, since) = Choices.Units(Kept(http, Choice.Units));
        return Visit.Of(
            // Without a choice of the device that of this machine, which the command line keeps too.
            system ?? RememberedUnits.Read(Folder(http)),
            Say.Tongue,
            http.RequestServices.GetRequiredService<TimeProvider>(),
            http.Request.Path + http.Request.QueryString,
            Door.IsOwner(http),
            LightWords.Named(Kept(http, Choice.Light)),
            Choices.Voice(Kept(http, Choice.Voice))
        ) with
        {
            UnitsSince = since,
            HandsPhone = http.RequestServices.GetRequiredService<SiteOptions>().PhoneFolder is not null,
        };
    }

    /// <summary>What this device chose by hand, else what its browser wishes.</summary>
    public static Tongue Spoken(HttpContext http)
    {
        ArgumentNullException.ThrowIfNull(http);
        return AllTongues.Named(Kept(http, Choice.Language)) ?? AllTongues.Wished(http.Request.Headers.AcceptLanguage);
    }

    public static string? Kept(HttpContext http, Choice choice) =>
        http.Items.TryGetValue((Chosen, choice), out var now)
            ? (string?)now
            : http.Request.Cookies[Choices.Name(choice)];

    /// <summary>The device remembers it, in a cookie; the owner's units are this machine's.</summary>
    public static void Remember(HttpContext http, Choice choice, string value)
    {
        http.Items[(Chosen, choice)] = value;
        http.Response.Cookies.Append(
            Choices.Name(choice),
            value,
            new CookieOptions
            {
                HttpOnly = true,
                Secure = http.Request.IsHttps,
                SameSite = SameSiteMode.Strict,
                IsEssential = true,
                MaxAge = TimeSpan.FromDays(730),
            }
        );
        if (choice == Choice.Units && Door.IsOwner(http) && Choices.Units(value).System is { } system)
            Write(Folder(http), system);
    }

    private static string Folder(HttpContext http) => http.RequestServices.GetRequiredService<SiteOptions>().DataFolder;

    /// <summary>A full disk is no reason to refuse a switch that the cookie holds already.</summary>
    private static void Write(string folder, UnitSystem system)
    {
        try
        {
            RememberedUnits.Write(folder, system);
        }
        catch (Exception trouble) when (trouble is IOException or UnauthorizedAccessException)
        {
            // The next start asks the file again and finds the old choice.
        }
    }
}
