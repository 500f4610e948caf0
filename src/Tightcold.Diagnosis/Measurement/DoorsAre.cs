namespace Tightcold.Diagnosis.Measurement;

/// <summary>How the cabin was kept while reading: on recirculation it decides how far its air is cooled and
/// dried.</summary>
public enum DoorsAre
{
    NotSaid,
    Open,

    /// <summary>Doors shut, a window or more open.</summary>
    WindowsOpen,
    Closed,
}
