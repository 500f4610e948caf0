using Tightcold.Diagnosis.Faults;
using Tightcold.Loop.Faults;
using Tightcold.Numerics.Distributions;

namespace Tightcold.Diagnosis.Priors;

/// <summary>Charge and faults of one point of one explanation, from its standard normal coordinates.</summary>
internal static class FaultPrior
{
    /// <summary>Charge over the label's, and the model's faults, of one point of one explanation.</summary>
    public static (double ChargeShare, LoopFaults Faults) Of(
        IReadOnlyList<Fault> faults,
        ReadOnlySpan<double> z,
        bool hidden = false
    )
    {
        var model = LoopFaults.None;
        for (var i = 0; i < faults.Count; i++)
            model = faults[i].Apply(model, faults[i].Severities.At(z[Place(i)]), z[Coordinate.Form]);
        return (ChargeShare(faults, z[Coordinate.Charge], hidden), model);
    }

    /// <summary>The coordinate that tells how bad the fault at a place of the list is.</summary>
    public static int Place(int i) => i == 0 ? Coordinate.Severity : Coordinate.SecondSeverity;

    // A sound car may lack charge that its receiver or accumulator covers: one in four, down to where it must show.
    // Assumed.
    private const double HiddenShare = 0.25,
        LeastHidden = 0.35;

    /// <summary>Charge over the label's. Charge that is neither short nor over is anywhere from 0.80 to 1.12.</summary>
    /// <param name="hidden">Whether a shortage that does not show counts as sound: as long as no scale spoke.</param>
    public static double ChargeShare(IReadOnlyList<Fault> faults, double z, bool hidden = false)
    {
        var u = Normal.Cumulative(z);
        for (var i = 0; i < faults.Count; i++)
            if (faults[i].Charge is { } charge)
                return charge(u, faults.Count == 1);
        if (!hidden || faults.Count > 0)
            return 0.80 + (0.32 * u);
        return u < HiddenShare
            ? LeastHidden + ((0.80 - LeastHidden) * u / HiddenShare)
            : 0.80 + (0.32 * (u - HiddenShare) / (1 - HiddenShare));
    }

    /// <summary>The same car in the attack of a fault that comes and goes; null where there is none.</summary>
    public static LoopFaults? Attacked(IReadOnlyList<Fault> faults, LoopFaults clear, ReadOnlySpan<double> z)
    {
        for (var i = 0; i < faults.Count; i++)
            if (faults[i].Attack is { } attack)
                return attack(clear, faults[i].Severities.At(z[Place(i)]));
        return null;
    }
}
