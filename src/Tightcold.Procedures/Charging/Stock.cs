namespace Tightcold.Procedures.Charging;

/// <summary>A can or cylinder at hand.</summary>
/// <param name="Name">As written on it.</param>
/// <param name="NetKg">Refrigerant inside now.</param>
/// <param name="NetSigmaKg">Standard deviation of that.</param>
/// <param name="GrossKg">What the scale shows with it, or null when it was not weighed.</param>
/// <param name="InnerVolumeM3">Inner volume, for the heel that stays behind.</param>
/// <param name="KeepsRemainder">Self-sealing can or cylinder: what stays inside is not wasted.</param>
/// <param name="HoseFilled">It hangs on a hose that is purged and full already: going on with it costs no hose.</param>
public readonly record struct Stock(
    string Name,
    double NetKg,
    double NetSigmaKg,
    double? GrossKg,
    double InnerVolumeM3,
    bool KeepsRemainder,
    bool HoseFilled = false
);
