namespace Tightcold.Diagnosis.Measurement;

/// <summary>Where frost was seen.</summary>
public enum FrostSeen
{
    NotLooked,
    Nowhere,
    AtThrottle,
    OnSuctionLine,
    OnDrier,
}
