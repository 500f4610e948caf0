using Tightcold.Diagnosis.Measurement;

namespace Tightcold.Diagnosis.Inference;

/// <summary>One reading against what a sound car and what the leading explanation would show.</summary>
/// <param name="Point">Index of the operating point.</param>
/// <param name="Observed">SI, pressures absolute.</param>
/// <param name="SigmaInstrument">Standard deviation of the instrument.</param>
/// <param name="Healthy">Where 9 in 10 sound cars of this kind would show it.</param>
/// <param name="Leading">Where the leading explanation, fitted to all readings, shows it.</param>
/// <param name="MisreadOdds">Odds that the number is a gross error, if the list of faults is complete.</param>
public sealed record ReadingCheck(
    int Point,
    Channel Channel,
    double Observed,
    double SigmaInstrument,
    Interval Healthy,
    Interval Leading,
    double MisreadOdds
)
{
    /// <summary>Odds that it would lie this far out if the leading explanation holds and every other reading is right;
    /// the reading with the least of them is the one that does not fit.</summary>
    public double Tail { get; init; } = 1;
}
