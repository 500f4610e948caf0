using Tightcold.App.Units;
using Tightcold.Pages.Words;
using Tightcold.Tongues;

namespace Tightcold.Pages.Asked;

/// <summary>One request as the pages see it: the reader, the chosen units, and where to return to.</summary>
/// <param name="IsOwner">Asked on the machine that runs the site, which alone may let devices in.</param>
public sealed record Visit(Reader Reader, ReaderUnits Units, string Path, bool IsOwner, Light Light, bool Voice)
{
    public UnitSystem System => Units.System;

    /// <summary>When this device last switched its units; null where it never did.</summary>
    public DateTimeOffset? UnitsSince { get; init; }

    /// <summary>The phone itself answers: there is no network to wait for, and no other machine.</summary>
    public bool InPhone { get; init; }

    /// <summary>The site hands out the program for the phone itself.</summary>
    public bool HandsPhone { get; init; }

    /// <summary>The folder of a site under which all addresses are; empty for a site of its own.</summary>
    public string Under { get; init; } = "";

    /// <summary>In a phone, the last copy of everything: when, and of which version of the data; null where none was
    /// taken.</summary>
    public (DateTimeOffset At, string Version)? Copied { get; init; }

    /// <summary>The language the page is written in.</summary>
    public Tongue Tongue => Units.Language;

    /// <summary>Numbers are written as the language writes them; what is typed may carry a comma in any.</summary>
    public static Visit Of(
        UnitSystem system,
        Tongue tongue,
        TimeProvider clock,
        string path,
        bool isOwner,
        Light light,
        bool voice
    )
    {
        ArgumentNullException.ThrowIfNull(clock);
        var units = new ReaderUnits(system, tongue);
        return new(new Reader(units, clock.LocalTimeZone, clock.GetUtcNow()), units, path, isOwner, light, voice);
    }
}
