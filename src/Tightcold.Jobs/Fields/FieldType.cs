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
    public sealed record Choice(params string[] Words) : FieldType
    {
        public bool Equals(Choice? other) => other is not null && Words.SequenceEqual(other.Words);

        public override int GetHashCode() => Words.Length == 0 ? 0 : Words[0].GetHashCode(StringComparison.Ordinal);
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
