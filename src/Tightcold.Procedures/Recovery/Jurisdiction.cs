using System.Collections.Immutable;

namespace Tightcold.Procedures.Recovery;

/// <summary>A place with rules of its own.</summary>
/// <param name="Key">Stable name.</param>
/// <param name="Name">What a person reads.</param>
/// <param name="Words">Names under which a person may have entered it, lower case.</param>
/// <param name="Rules">Most important first.</param>
public sealed record Jurisdiction(string Key, string Name, ImmutableArray<string> Words, ImmutableArray<RecoveryRule> Rules);
