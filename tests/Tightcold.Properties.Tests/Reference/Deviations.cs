using System.Globalization;

namespace Tightcold.Properties.Tests.Reference;

/// <summary>Collects the worst relative deviation of each quantity over a table, with the row it happened in.</summary>
internal sealed class Deviations
{
    private readonly Dictionary<string, (double Excess, string Where)> _worst = [];

    public int Count { get; private set; }

    /// <param name="quantity">Name for the message.</param>
    /// <param name="actual">What we compute.</param>
    /// <param name="expected">What the table says.</param>
    /// <param name="tolerance">Allowed relative deviation.</param>
    /// <param name="where">The point.</param>
    public void Relative(string quantity, double actual, double expected, double tolerance, string where) =>
        Add(quantity, Math.Abs(actual - expected) / Math.Abs(expected), tolerance, where);

    public void Absolute(string quantity, double actual, double expected, double tolerance, string where) =>
        Add(quantity, Math.Abs(actual - expected), tolerance, where);

    public void AssertNone(int expectedCount)
    {
        Assert.Equal(expectedCount, Count);
        var over = _worst.Where(entry => !(entry.Value.Excess <= 1)).ToList();
        Assert.True(
            over.Count == 0,
            string.Join(
                Environment.NewLine,
                over.Select(entry =>
                    string.Create(
                        CultureInfo.InvariantCulture,
                        $"{entry.Key}: {entry.Value.Excess:G3} times the tolerance at {entry.Value.Where}"
                    )
                )
            )
        );
    }

    private void Add(string quantity, double deviation, double tolerance, string where)
    {
        Count++;
        var excess = deviation / tolerance;
        if (!_worst.TryGetValue(quantity, out var worst) || !(excess <= worst.Excess))
            _worst[quantity] = (excess, where);
    }
}
