namespace Tightcold.Numerics.Sampling;

/// <summary>The logarithm of a likelihood over parameters whose prior is standard normal each; a struct, so that the
/// sampler calls it without a delegate.</summary>
public interface ILogLikelihood
{
    /// <summary>Number of parameters, 1 to 6.</summary>
    int Dimensions { get; }

    /// <summary>ln L at a point; negative infinity where the data cannot be.</summary>
    double Evaluate(ReadOnlySpan<double> standardNormal);
}
