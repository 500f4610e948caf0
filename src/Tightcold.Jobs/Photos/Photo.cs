using System.Collections.Immutable;
using System.Security.Cryptography;

namespace Tightcold.Jobs.Photos;

/// <summary>A photo kept with an entry: of a spot, a gauge, a label. It stands and falls with that entry; a photo is
/// never taken away.</summary>
/// <param name="Id">The writer's own id, so that sending again adds nothing.</param>
/// <param name="Entry">The entry it belongs to.</param>
/// <param name="KeptAt">When it came in.</param>
/// <param name="Body">A JPEG without anything a camera writes beside the picture (<see cref="Jpeg"/>).</param>
public sealed record Photo(Guid Id, Guid Entry, DateTimeOffset KeptAt, ImmutableArray<byte> Body)
{
    /// <summary>As large as a shrunk photo needs to be, bytes.</summary>
    public const int MostBytes = 400_000;

    /// <summary>Longest side, pixels.</summary>
    public const int MostPixels = 2_000;

    public const int MostOfAnEntry = 4,
        MostOfAJob = 40;

    /// <summary>Of a job that several devices took photos of, each as many as it may, and that came together.</summary>
    public const int MostOfAFile = 10 * MostOfAJob;

    public const string MediaType = "image/jpeg";

    /// <summary>SHA-256 of the body: a changed byte shows.</summary>
    public string Digest => Convert.ToHexStringLower(SHA256.HashData(Body.AsSpan()));

    public bool Equals(Photo? other) =>
        other is not null
        && Id == other.Id
        && Entry == other.Entry
        && KeptAt == other.KeptAt
        && Body.AsSpan().SequenceEqual(other.Body.AsSpan());

    public override int GetHashCode() => Id.GetHashCode();
}
