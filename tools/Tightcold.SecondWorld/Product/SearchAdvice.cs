using Tightcold.Jobs.Journals;
using Tightcold.Picture;

namespace Tightcold.SecondWorld.Product;

/// <summary>What the product advises in a leak search, and what it believes of each place.</summary>
internal sealed record SearchAdvice
{
    public required double AnotherRemains { get; init; }
    public required IReadOnlyDictionary<string, double> Leaking { get; init; }

    /// <summary>The best next checks: place, name of the test as an entry has it.</summary>
    public required IReadOnlyList<(string Spot, string Test)> Next { get; init; }

    public static SearchAdvice Of(JobRecord record)
    {
        var view = new JobPicture(record).Leaks;
        return new()
        {
            AnotherRemains = view.Belief.AnotherRemains,
            Leaking = view.OnTheMap.ToDictionary(spot => spot.Spot.Name, spot => spot.Leaking),
            Next = [.. view.Checks.Select(check => (check.Spot, check.Kind.Key))],
        };
    }
}
