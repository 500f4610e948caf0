using Tightcold.Pages.Asked;

namespace Tightcold.Pages.Hosted;

/// <summary>Where a device keeps its person's choices.</summary>
public interface IDeviceMemory
{
    /// <summary>What was kept; null where nothing was.</summary>
    string? Read(Choice choice);

    /// <summary>The languages that the device asks for, as a browser sends them; null where it says none.</summary>
    string? Wishes => null;

    void Write(Choice choice, string value);
}
