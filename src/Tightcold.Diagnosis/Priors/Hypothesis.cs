using System.Collections.Immutable;
using Tightcold.Diagnosis.Faults;

namespace Tightcold.Diagnosis.Priors;

/// <summary>One explanation of the readings.</summary>
/// <param name="Key">Stable name for machines, kebab-case.</param>
/// <param name="Faults">None, one, or a pair that occurs together in practice.</param>
/// <param name="Prior">Odds before any reading, 0 to 1; those of a set sum to 1.</param>
public sealed record Hypothesis(string Key, ImmutableArray<Fault> Faults, double Prior)
{
    /// <summary>Nothing that would be worth mending.</summary>
    public const string NothingWrong = "nothing-wrong";

    /// <summary>Something that is not on the list, or readings that belong to no car.</summary>
    public const string NoneOfThese = "none-of-these";

    public bool IsNothingWrong => Key == NothingWrong;

    public bool IsNoneOfThese => Key == NoneOfThese;

    public bool Has(Fault fault) => Faults.Contains(fault);

    public bool Equals(Hypothesis? other) => other is not null && Key == other.Key && Prior.Equals(other.Prior);

    public override int GetHashCode() => HashCode.Combine(Key, Prior);
}
