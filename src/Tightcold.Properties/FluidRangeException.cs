using System.Globalization;

namespace Tightcold.Properties;

/// <summary>An input lies outside what a fluid's equation is valid for, or is not a number, or describes no state at
/// all.</summary>
public sealed class FluidRangeException : ArgumentOutOfRangeException
{
    public FluidRangeException(string fluid, string input, double value, string validRange)
        : base(
            input,
            value,
            string.Create(
                CultureInfo.InvariantCulture,
                $"{fluid}: {input} = {value:R} is outside the valid range: {validRange}."
            )
        )
    {
        Fluid = fluid;
        Value = value;
        ValidRange = validRange;
    }

    /// <summary>Name of the fluid.</summary>
    public string Fluid { get; }

    /// <summary>The refused value.</summary>
    public double Value { get; }

    /// <summary>What would have been accepted, in words with units.</summary>
    public string ValidRange { get; }
}
