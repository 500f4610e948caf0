using Tightcold.Numerics.Distributions;

namespace Tightcold.Procedures.Running;

/// <summary>A side against its expected band, as odds that sum to 1.</summary>
public readonly record struct SideState(double Below, double Within, double Above)
{
    public static SideState Of(double value, double sigma, double bandFrom, double bandTo)
    {
        var below = Normal.Cumulative((bandFrom - value) / sigma);
        var above = 1 - Normal.Cumulative((bandTo - value) / sigma);
        return new(below, Math.Max(0, 1 - below - above), above);
    }

    /// <summary>-1 below, 0 within, 1 above: the likeliest.</summary>
    public int Likeliest =>
        Within >= Below && Within >= Above ? 0
        : Below > Above ? -1
        : 1;

    public double LikeliestOdds => Math.Max(Within, Math.Max(Below, Above));
}
