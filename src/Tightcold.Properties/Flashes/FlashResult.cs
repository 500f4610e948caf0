namespace Tightcold.Properties.Flashes;

/// <summary>A state, or why there is none. Range errors are thrown instead: they are the caller's.</summary>
internal readonly record struct FlashResult(
    bool Found,
    FluidState State,
    int Iterations,
    double Residual,
    string Reason
)
{
    public static FlashResult Of(in FluidState state, int iterations = 1, double residual = 0) =>
        new(true, state, iterations, residual, string.Empty);

    public static FlashResult Stalled(double residual, string reason) => new(false, default, 0, residual, reason);
}
