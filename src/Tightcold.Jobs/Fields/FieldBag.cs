using System.Collections;
using System.Collections.Immutable;
using Tightcold.Quantities;

namespace Tightcold.Jobs.Fields;

/// <summary>The filled fields of an entry, car, kit or container, by name. Immutable; equal when the content is.
/// Typed getters return null when the field was not filled.</summary>
public sealed class FieldBag : IEquatable<FieldBag>, IEnumerable<KeyValuePair<string, FieldValue>>
{
    public static readonly FieldBag Empty = new(
        ImmutableSortedDictionary<string, FieldValue>.Empty.WithComparers(StringComparer.Ordinal)
    );

    private readonly ImmutableSortedDictionary<string, FieldValue> values;

    private FieldBag(ImmutableSortedDictionary<string, FieldValue> values) => this.values = values;

    public int Count => values.Count;
    public FieldValue? this[string name] => values.GetValueOrDefault(name);

    public FieldBag With(string name, FieldValue value) => new(values.SetItem(name, value));

    public FieldBag Without(string name) => new(values.Remove(name));

    public T? Get<T>(string name)
        where T : struct, IQuantity<T> => this[name] is FieldValue.Quantity quantity ? quantity.Value.As<T>() : null;

    /// <summary>Value in SI, of any kind but a gauge pressure: that means nothing without the barometer and the gauge's
    /// zero, and is turned into an absolute pressure in one place.</summary>
    /// <exception cref="InvalidOperationException">The field holds a gauge pressure.</exception>
    public double? Si(string name) =>
        this[name] is not FieldValue.Quantity quantity ? null
        : quantity.Value.Kind == QuantityKind.GaugePressure
            ? throw new InvalidOperationException($"{name} is a gauge pressure and no bare number")
        : quantity.Value.Si;

    public double? PlusMinusSi(string name) => this[name] is FieldValue.Quantity quantity ? quantity.PlusMinusSi : null;

    public double? Number(string name) => this[name] is FieldValue.Number number ? number.Value : null;

    public string? Text(string name) => this[name] is FieldValue.Text text ? text.Value : null;

    public IEnumerator<KeyValuePair<string, FieldValue>> GetEnumerator() => values.GetEnumerator();

    IEnumerator IEnumerable.GetEnumerator() => GetEnumerator();

    public bool Equals(FieldBag? other) => other is not null && values.SequenceEqual(other.values);

    public override bool Equals(object? obj) => Equals(obj as FieldBag);

    public override int GetHashCode() =>
        values.Aggregate(values.Count, (hash, pair) => HashCode.Combine(hash, pair.Key, pair.Value));
}
