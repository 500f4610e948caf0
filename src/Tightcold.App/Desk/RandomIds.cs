using System.Security.Cryptography;

namespace Tightcold.App.Desk;

/// <summary>Ids that begin with the time, so that entries of equal times keep the order in which one device wrote
/// them.</summary>
public sealed class RandomIds : IIdSource
{
    public Guid NextId(DateTimeOffset now) => Guid.CreateVersion7(now);

    public int NextSeed() => RandomNumberGenerator.GetInt32(1, int.MaxValue);
}
