namespace Tightcold.Quantities;

/// <summary>A number with its meaning, for places that handle any quantity: entries, estimates, sentences.
/// The value is in the SI unit of the kind and finite.</summary>
public readonly record struct Measure
{
    public Measure(QuantityKind kind, double si)
    {
        Kind = kind;
        Si = Check.Finite(si, nameof(si));
    }

    public QuantityKind Kind { get; }
    public double Si { get; }

    public static Measure Of<T>(T quantity)
        where T : struct, IQuantity<T> => new(T.Kind, quantity.Si);

    /// <summary>Back to the typed quantity. Throws when the kind is another one.</summary>
    public T As<T>()
        where T : struct, IQuantity<T> =>
        T.Kind == Kind ? T.FromSi(Si) : throw new InvalidOperationException($"a {Kind} was asked for as a {T.Kind}");

    public static Measure Number(double value) => new(QuantityKind.Number, value);

    public static Measure Ratio(double value) => new(QuantityKind.Ratio, value);

    public static Measure Kelvins(double value) => new(QuantityKind.TemperatureDifference, value);

    public static Measure AbsoluteTemperature(double kelvins) => new(QuantityKind.Temperature, kelvins);

    public static Measure Kilograms(double value) => new(QuantityKind.Mass, value);

    public static Measure Seconds(double value) => new(QuantityKind.Duration, value);
}
