using System.Security.Cryptography;
using System.Text;
using Tightcold.App.Desk;

namespace Tightcold.App.Demo;

/// <summary>Ids made from names, so that the demo is the same everywhere and can be played again without
/// doubling.</summary>
internal sealed class DemoIds : IIdSource
{
    private int made;

    public static Guid Of(string name) =>
        new(SHA256.HashData(Encoding.UTF8.GetBytes("tightcold demo: " + name)).AsSpan(0, 16));

    public Guid NextId(DateTimeOffset now) => made++ == 0 ? DemoScenario.CarId : Of($"id {made}");

    public int NextSeed() => 20260718;
}
