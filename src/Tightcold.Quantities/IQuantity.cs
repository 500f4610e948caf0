namespace Tightcold.Quantities;

/// <summary>A number that knows what it means. One SI double inside, made only by named factories.</summary>
public interface IQuantity<TSelf>
    where TSelf : struct, IQuantity<TSelf>
{
    static abstract QuantityKind Kind { get; }

    /// <summary>The value in the SI unit of <see cref="Kind"/>.</summary>
    double Si { get; }

    /// <summary>From the SI unit. Throws <see cref="ArgumentOutOfRangeException"/> on NaN, infinity or what the
    /// kind cannot be (a temperature below 0 K).</summary>
    static abstract TSelf FromSi(double si);
}
