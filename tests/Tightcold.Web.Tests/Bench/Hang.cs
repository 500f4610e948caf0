namespace Tightcold.Web.Tests.Bench;

/// <summary>A slow machine is no fault: a wait ends when what it waits for is there; a hang is given up.</summary>
public static class Hang
{
    /// <summary>Nothing that still moves takes this long, even on a third of a processor.</summary>
    public static readonly TimeSpan Limit = TimeSpan.FromMinutes(5);
}
