using System.Globalization;

namespace Tightcold.Properties;

/// <summary>A state was asked for that lies in the valid range, yet the iteration found no answer it could vouch
/// for.</summary>
public sealed class FlashDidNotConvergeException : InvalidOperationException
{
    public FlashDidNotConvergeException(string fluid, string inputs, double residual, string reason)
        : base(
            string.Create(
                CultureInfo.InvariantCulture,
                $"{fluid}: no state found for {inputs}: {reason} (relative residual {residual:E2})."
            )
        )
    {
        Fluid = fluid;
        Residual = residual;
        Reason = reason;
    }

    /// <summary>Name of the fluid.</summary>
    public string Fluid { get; }

    /// <summary>Relative residual where the iteration stopped.</summary>
    public double Residual { get; }

    /// <summary>Why it stopped.</summary>
    public string Reason { get; }
}
