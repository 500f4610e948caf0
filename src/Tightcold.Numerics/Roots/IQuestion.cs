namespace Tightcold.Numerics.Roots;

/// <summary>A question that is answered no below some number and yes above it; a struct, so that it is asked without a
/// delegate.</summary>
public interface IQuestion
{
    /// <summary>The answer at <paramref name="x"/>.</summary>
    bool Says(double x);
}
