namespace Tightcold.Numerics;

/// <summary>
/// The outcome of an iterative calculation: a value with how it was reached, or the reason why there is none.
/// Never both, so a value that did not converge cannot be used by mistake.
/// </summary>
/// <typeparam name="T">What was sought.</typeparam>
public abstract record Solved<T>
{
    private Solved() { }

    /// <summary>The calculation converged.</summary>
    /// <param name="Value">The value found.</param>
    /// <param name="Iterations">How many steps it took.</param>
    /// <param name="Residual">The largest relative residual left.</param>
    public sealed record Converged(T Value, int Iterations, double Residual) : Solved<T>;

    /// <summary>The calculation stopped without a value.</summary>
    /// <param name="Iterations">How many steps were taken.</param>
    /// <param name="Residual">The relative residual at the end.</param>
    /// <param name="Reason">Why it stopped, in words.</param>
    public sealed record Stalled(int Iterations, double Residual, string Reason) : Solved<T>;
}
