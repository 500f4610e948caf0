namespace Tightcold.Numerics.Roots;

/// <summary>A function of one number; a struct, so that solvers call it without a delegate.</summary>
public interface IScalarFunction
{
    /// <summary>Value at <paramref name="x"/>.</summary>
    double Evaluate(double x);
}
