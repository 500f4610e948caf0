namespace Tightcold.Procedures.Tests.Reference;

public sealed class NormalTests
{
    // Abramowitz and Stegun, table 26.1.
    [Theory]
    [InlineData(0, 0.5)]
    [InlineData(1, 0.8413447461)]
    [InlineData(-1, 0.1586552539)]
    [InlineData(1.96, 0.9750021049)]
    [InlineData(3, 0.9986501020)]
    public void Cumulative_agrees_with_the_printed_table(double z, double expected) =>
        Assert.Equal(expected, Normal.Cumulative(z), 6);
}
