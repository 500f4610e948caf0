using System.Text.RegularExpressions;

namespace Tightcold.House.Tests;

public sealed partial class NumericsTests
{
    /// <summary>By what a copy is known, and what is called instead.</summary>
    private static readonly (Regex Copy, string Instead)[] Copies =
    [
        (Halves(), "BracketedRoot or Halving"),
        (Draws(), "SeededChance.Normal"),
        (Mixes(), "SeededChance"),
        (Random(), "SeededChance"),
        (Factors(), "Cholesky"),
    ];

    [Fact]
    public void What_the_numerics_do_is_called_and_not_copied()
    {
        var found =
            from file in House.Files()
            where
                Path.GetExtension(file) == ".cs"
                && (
                    file.StartsWith("src/", StringComparison.Ordinal)
                    || file.StartsWith("tools/Tightcold.SecondWorld/", StringComparison.Ordinal)
                    || file.StartsWith("tools/Tightcold.Studies/", StringComparison.Ordinal)
                    || file.StartsWith("tools/Tightcold.Published/", StringComparison.Ordinal)
                )
                && !file.StartsWith("src/Tightcold.Numerics/", StringComparison.Ordinal)
            let text = House.Read(file)
            from one in Copies
            where one.Copy.IsMatch(text)
            select $"{file}: {one.Instead}";
        Assert.Empty(found);
    }

    [Theory]
    [InlineData("var middle = 0.5 * (low + high);")]
    [InlineData("Math.Sqrt(-2 * Math.Log(s) / s)")]
    [InlineData("var random = new Random(7);")]
    [InlineData("sum -= l[(i * d) + k] * l[(j * d) + k];")]
    public void A_copy_is_seen(string line) => Assert.Contains(Copies, one => one.Copy.IsMatch(line));

    /// <summary>A bisection's middle, as all of them were written. Newton in a bracket names it otherwise.</summary>
    [GeneratedRegex(@"var (middle|mid) = (0\.5 \* \(low \+ (high|top)\)|\(low \+ (high|top)\) / 2\.0)")]
    private static partial Regex Halves();

    [GeneratedRegex(@"Math\.Sqrt\(-2(\.0)? \* Math\.Log\(")]
    private static partial Regex Draws();

    [GeneratedRegex("0x9E3779B97F4A7C15|0xBF58476D1CE4E5B9|0x2545F4914F6CDD1D", RegexOptions.IgnoreCase)]
    private static partial Regex Mixes();

    [GeneratedRegex(@"new Random\(")]
    private static partial Regex Random();

    [GeneratedRegex(@"-= (\w+)\[\(?i \* \w+\)? \+ k\] \* \1\[\(?j \* \w+\)? \+ k\]|-= (\w+)\[i, k\] \* \2\[j, k\]")]
    private static partial Regex Factors();
}
