using System.Globalization;
using Microsoft.AspNetCore.Http;
using Microsoft.Extensions.DependencyInjection;
using Tightcold.App.Units;
using Tightcold.Web.Lan;
using Tightcold.Web.Words;

namespace Tightcold.Web.Http;

/// <summary>One request as the pages see it: the reader, the chosen units, and where to return to.</summary>
/// <param name="IsOwner">Asked on the machine that runs the site, which alone may let devices in.</param>
public sealed record Visit(Reader Reader, ReaderUnits Units, string Path, bool IsOwner, Light Light, bool Voice)
{
    public UnitSystem System => Units.System;

    /// <summary>When this device last switched its units; null where it never did.</summary>
    public DateTimeOffset? UnitsSince { get; init; }

    public static Visit Of(HttpContext http)
    {
        ArgumentNullException.ThrowIfNull(http);
        var clock = http.RequestServices.GetRequiredService<TimeProvider>();
        var system = UnitChoice.Of(http.Request);
        // The words are English and so is the decimal point; what is typed may carry a comma.
        var units = new ReaderUnits(system, CultureInfo.InvariantCulture);
        return new(
            new Reader(units, clock.LocalTimeZone, clock.GetUtcNow()),
            units,
            http.Request.Path + http.Request.QueryString,
            Door.IsOwner(http),
            LightChoice.Of(http.Request),
            VoiceChoice.IsOn(http.Request)
        )
        {
            UnitsSince = UnitChoice.Since(http.Request),
        };
    }
}
