using Tightcold.Diagnosis.Leaks;

namespace Tightcold.Diagnosis.Priors;

/// <summary>The last filling that is known, with nothing done to the circuit since as far as anybody wrote
/// down.</summary>
/// <param name="How">How it was filled.</param>
/// <param name="Seconds">How long ago, more than 0.</param>
/// <param name="SecondsSpread">Standard deviation of ln(time): 0 when the date is written down.</param>
/// <param name="Remembered">From memory, and not from a journal of its own.</param>
public sealed record ChargeHistory(FilledHow How, double Seconds, double SecondsSpread, bool Remembered)
{
    /// <summary>Charge after filling over the label's, with its standard deviation; null for what such a filling
    /// usually is.</summary>
    public (double Share, double Sigma)? Left { get; init; }

    /// <summary>It was proven tight after that filling.</summary>
    public bool ProvenTight { get; init; }

    /// <summary>What it lost before that filling while its leaks were the same as now; null when nothing
    /// tells.</summary>
    public LossObservation? LostBefore { get; init; }
}
