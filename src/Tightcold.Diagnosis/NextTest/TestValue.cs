using System.Collections.Immutable;
using Tightcold.Diagnosis.NextTest.Tests;

namespace Tightcold.Diagnosis.NextTest;

/// <summary>What a test is worth before it is done.</summary>
/// <param name="Kind">Which test.</param>
/// <param name="Bits">Expected fall of the odds' entropy, bits.</param>
/// <param name="Minutes">Own time.</param>
/// <param name="Money">Outlay in the price of a can of refrigerant.</param>
/// <param name="Meanings">What each likely outcome would mean, likeliest explanation first.</param>
public sealed record TestValue(
    TestKind Kind,
    double Bits,
    double Minutes,
    double Money,
    ImmutableArray<TestMeaning> Meanings
)
{
    // A can's price is taken for about a quarter of an hour of one's own time.
    private const double MinutesPerMoney = 15;

    public double BitsPerMinute => Bits / Minutes;

    /// <summary>Bits for each minute of cost, outlay counted as time.</summary>
    public double BitsPerCost => Bits / (Minutes + (MinutesPerMoney * Money));
}
