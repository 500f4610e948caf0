using Tightcold.Quantities;

namespace Tightcold.Jobs.Fields;

/// <summary>What may stand in a field. The single description from which forms, command line, files and checks
/// are made, so that they cannot disagree.</summary>
public abstract record FieldType
{
    private FieldType() { }

    /// <summary>A quantity with its allowed range in SI; outside is refused.</summary>
    public sealed record Quantity(QuantityKind Kind, double MinSi, double MaxSi) : FieldType;

    /// <summary>A plain number without a unit, such as a model year.</summary>
    public sealed record Number(double Min, double Max) : FieldType;

    /// <summary>One of a few words.</summary>
    public sealed record Choice(params Option[] Options) : FieldType
    {
        /// <summary>As they are stored.</summary>
        public string[] Words { get; } = [.. Options.Select(option => option.Key)];

        /// <summary>What a person reads for a stored word.</summary>
        public string LabelOf(string word) =>
            Array.Find(Options, option => option.Key == word) is { Key: not null } known ? known.Label : word;

        public bool Equals(Choice? other) => other is not null && Options.SequenceEqual(other.Options);

        public override int GetHashCode() => Words.Length == 0 ? 0 : Words[0].GetHashCode(StringComparison.Ordinal);
    }

    /// <summary>A word of a choice.</summary>
    /// <param name="Key">Stored; stays what it is for ever.</param>
    /// <param name="Label">Read; may be said better one day.</param>
    public readonly record struct Option(string Key, string Label)
    {
        public static implicit operator Option(string word) => new(word, word);

        public static implicit operator Option((string Key, string Label) word) => new(word.Key, word.Label);
    }

    /// <summary>Free text of limited length.</summary>
    public sealed record Text(int MaxLength) : FieldType;

    /// <summary>The name of a spot on this car's circuit map.</summary>
    public sealed record Spot : FieldType;

    /// <summary>Several spots of this car's circuit map, a comma between two.</summary>
    public sealed record Spots : FieldType
    {
        public static string[] Of(string? list) =>
            list?.Split(',', StringSplitOptions.TrimEntries | StringSplitOptions.RemoveEmptyEntries) ?? [];
    }

    /// <summary>The name of a can or cylinder in the kit.</summary>
    public sealed record Container : FieldType;
}
