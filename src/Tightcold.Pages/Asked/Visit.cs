using System.Globalization;
using Tightcold.App.Units;
using Tightcold.Pages.Words;

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

    /// <summary>The folder of a site under which all addresses are; empty for a site of its own.</summary>
    public string Under { get; init; } = "";

    /// <summary>In a phone, the last copy of everything: when, and of which version of the data; null where none was
    /// taken.</summary>
    public (DateTimeOffset At, string Version)? Copied { get; init; }

    /// <summary>The words are English and so is the decimal point; what is typed may carry a comma.</summary>
    public static Visit Of(UnitSystem system, TimeProvider clock, string path, bool isOwner, Light light, bool voice)
    {
        ArgumentNullException.ThrowIfNull(clock);
        var units = new ReaderUnits(system, CultureInfo.InvariantCulture);
        return new(new Reader(units, clock.LocalTimeZone, clock.GetUtcNow()), units, path, isOwner, light, voice);
    }
}
