using System.Collections.Immutable;
using Tightcold.Quantities;

namespace Tightcold.Procedures.Places;

/// <summary>What was typed for a place, and the place it is; never guessed from a part of a name.</summary>
/// <param name="Typed">As typed.</param>
/// <param name="Place">Null while it is not known.</param>
/// <param name="Sentence">What is unknown and what to do, or a doubt worth a look; empty when all is plain.</param>
/// <param name="Offered">Places to choose from, never chosen for anyone.</param>
public sealed record PlaceReading(string Typed, Place? Place, Phrase Sentence, ImmutableArray<Place> Offered)
{
    public bool IsKnown => Place is not null;
}
