using Microsoft.Extensions.Logging;

namespace Tightcold.Web.Lan;

/// <summary>The paired devices of this data folder, in <c>devices.json</c>.</summary>
public sealed class DeviceBook(string folder, TimeProvider clock, ILogger? log = null)
    : KeyBook(
        folder,
        new("devices.json", "tightcold-devices 1", "paired devices", "pair the devices again", Idle),
        clock,
        log
    )
{
    /// <summary>A season between two uses is usual; a phone that was given away is not to open the book for
    /// years.</summary>
    public static readonly TimeSpan Idle = TimeSpan.FromDays(180);
}
