namespace Tightcold.App.Desk;

/// <summary>Where ids and seeds come from: chance in the program, a sequence in tests.</summary>
public interface IIdSource
{
    /// <summary>An id that no other device makes.</summary>
    Guid NextId(DateTimeOffset now);

    /// <summary>The seed of a new job.</summary>
    int NextSeed();
}
