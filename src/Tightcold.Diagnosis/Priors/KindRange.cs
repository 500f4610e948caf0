using Tightcold.Numerics.Distributions;

namespace Tightcold.Diagnosis.Priors;

/// <summary>A range of <see cref="Coordinate.Kind"/>, as shares of its distribution, within which the circuit is of one
/// kind and the coordinate has no further effect.</summary>
internal readonly record struct KindRange(double From, double To)
{
    public bool Holds(double z) => HoldsShare(Share(z));

    public bool HoldsShare(double share) => share > From && share <= To;

    public static double Share(double z) => Normal.Cumulative(z);

    /// <summary>A standard normal number pressed into the range.</summary>
    public double Press(double z) => Normal.Quantile(From + ((To - From) * Share(z)));
}
