using System.Globalization;
using System.Text.RegularExpressions;
using Tightcold.Pages.Styles;

namespace Tightcold.Web.Tests;

/// <summary>The palette of docs/look.md against the contrast formula of WCAG 2.2 (relative luminance and contrast
/// ratio, w3.org/TR/WCAG22/#dfn-contrast-ratio); 7 : 1 is its enhanced level, and ours for everything that is
/// read.</summary>
public sealed partial class LookTests
{
    [Theory]
    [InlineData("ink", "ground", 7)]
    [InlineData("ink", "panel", 7)]
    [InlineData("ink", "service", 7)]
    [InlineData("quiet", "ground", 7)]
    [InlineData("quiet", "panel", 7)]
    [InlineData("low", "ground", 7)]
    [InlineData("high", "ground", 7)]
    [InlineData("low", "panel", 7)]
    [InlineData("high", "panel", 7)]
    [InlineData("good", "ground", 7)]
    [InlineData("mind", "ground", 7)]
    [InlineData("mind", "panel", 7)]
    [InlineData("ground", "ink", 7)]
    // Lines and frames are no text: 3 : 1 by the same rules (non-text contrast).
    [InlineData("line", "ground", 3)]
    [InlineData("line", "panel", 3)]
    public void Colours_that_meet_keep_their_contrast_in_sunlight(string front, string back, double least)
    {
        var contrast = Contrast(Colour(front), Colour(back));
        Assert.True(
            contrast >= least,
            string.Create(CultureInfo.InvariantCulture, $"{front} on {back}: {contrast:F1} : 1")
        );
    }

    /// <summary>In the dark eyes see more with less light: 4.5 : 1 for what is read (level AA), 3 : 1 for lines, and no
    /// blue.</summary>
    [Theory]
    [InlineData("ink", "ground", 4.5)]
    [InlineData("quiet", "ground", 4.5)]
    [InlineData("quiet", "panel", 4.5)]
    [InlineData("ink", "service", 4.5)]
    [InlineData("mind", "panel", 4.5)]
    [InlineData("line", "ground", 3)]
    public void Night_colours_keep_their_contrast_without_blue_and_with_little_green(
        string front,
        string back,
        double least
    )
    {
        var (one, other) = (NightColour(front), NightColour(back));
        Assert.True(
            Contrast(one, other) >= least,
            string.Create(CultureInfo.InvariantCulture, $"{front} on {back} at night: {Contrast(one, other):F1} : 1")
        );
        Assert.Equal((0, 0), (one.B, other.B));
        Assert.True(one.G < 64 && other.G < 64, "green outshines the glow of the dye");
    }

    /// <summary>Pale on dark is read in a garage, not under a lamp: as readable as the day.</summary>
    [Theory]
    [InlineData("ink", "ground", 7)]
    [InlineData("ink", "panel", 7)]
    [InlineData("ink", "service", 7)]
    [InlineData("quiet", "ground", 7)]
    [InlineData("quiet", "panel", 7)]
    [InlineData("low", "ground", 7)]
    [InlineData("high", "ground", 7)]
    [InlineData("low", "panel", 7)]
    [InlineData("high", "panel", 7)]
    [InlineData("good", "ground", 7)]
    [InlineData("mind", "ground", 7)]
    [InlineData("mind", "panel", 7)]
    [InlineData("ground", "ink", 7)]
    [InlineData("line", "ground", 3)]
    [InlineData("line", "panel", 3)]
    public void Dark_colours_keep_the_contrast_of_the_day(string front, string back, double least)
    {
        var contrast = Contrast(In(".dark", front), In(".dark", back));
        Assert.True(
            contrast >= least,
            string.Create(CultureInfo.InvariantCulture, $"{front} on {back} in the dark: {contrast:F1} : 1")
        );
    }

    [Fact]
    public void Docs_look_states_the_dark_as_it_is()
    {
        var page = File.ReadAllText(Path.Combine(Root(), "docs", "look.md"));
        var rows = DarkRow().Matches(page);
        Assert.True(rows.Count >= 9, "docs/look.md has lost its table of dark colours");
        foreach (Match row in rows)
        {
            var colour = In(".dark", row.Groups["name"].Value);
            Assert.Equal(Parse(row.Groups["hex"].Value), colour);
            Assert.Equal(
                double.Parse(row.Groups["contrast"].Value, CultureInfo.InvariantCulture),
                Contrast(colour, In(".dark", row.Groups["on"].Value)),
                1
            );
        }
    }

    [Fact]
    public void Docs_look_states_the_palette_and_the_contrast_as_they_are()
    {
        var page = File.ReadAllText(Path.Combine(Root(), "docs", "look.md"));
        foreach (Match row in Row().Matches(page))
        {
            var (name, hex, stated) = (
                row.Groups["name"].Value,
                row.Groups["hex"].Value,
                double.Parse(row.Groups["contrast"].Value, CultureInfo.InvariantCulture)
            );
            Assert.Equal(hex, Hex(name));
            Assert.Equal(stated, Contrast(Colour(name), Colour(row.Groups["on"].Value)), 1);
        }
        Assert.True(Row().Count(page) >= 8, "docs/look.md has lost its table of colours");
    }

    [Fact]
    public void Sizes_are_those_of_a_gloved_hand_at_arms_length()
    {
        Assert.Contains("font: 1.125rem/", Stylesheet.Look.Text, StringComparison.Ordinal);
        Assert.Contains("--touch: 56px", Stylesheet.Look.Text, StringComparison.Ordinal);
        Assert.Contains("dd.big { font-size: 1.75rem", Stylesheet.Look.Text, StringComparison.Ordinal);
        Assert.Contains("tabular-nums", Stylesheet.Look.Text, StringComparison.Ordinal);
        Assert.DoesNotContain("url(", Stylesheet.Look.Text + Stylesheet.Card.Text, StringComparison.Ordinal);
        Assert.DoesNotContain("@import", Stylesheet.Look.Text + Stylesheet.Card.Text, StringComparison.Ordinal);
    }

    [Fact]
    public void The_contrast_formula_gives_21_for_black_on_white_and_4_48_for_the_grey_777777()
    {
        // Both figures are the ones commonly printed with the WCAG formula.
        Assert.Equal(21, Contrast((0, 0, 0), (255, 255, 255)), 6);
        Assert.Equal(4.48, Contrast((0x77, 0x77, 0x77), (255, 255, 255)), 2);
    }

    private static (int R, int G, int B) NightColour(string name) => In(".night", name);

    /// <summary>A colour of one light.</summary>
    private static (int R, int G, int B) In(string light, string name) =>
        Parse(
            Regex
                .Match(
                    Stylesheet.Look.Text[Stylesheet.Look.Text.IndexOf(":root" + light, StringComparison.Ordinal)..],
                    $"--{name}: (#[0-9a-f]{{6}});"
                )
                .Groups[1]
                .Value
        );

    private static string Hex(string name) =>
        Regex.Match(Stylesheet.Look.Text, $"--{name}: (#[0-9a-f]{{6}});").Groups[1].Value;

    private static (int R, int G, int B) Colour(string name) => Parse(Hex(name));

    private static (int R, int G, int B) Parse(string hex)
    {
        var value = int.Parse(hex.AsSpan(1), NumberStyles.HexNumber, CultureInfo.InvariantCulture);
        return (value >> 16, (value >> 8) & 255, value & 255);
    }

    private static double Contrast((int, int, int) one, (int, int, int) other)
    {
        var (a, b) = (Luminance(one), Luminance(other));
        return (Math.Max(a, b) + 0.05) / (Math.Min(a, b) + 0.05);
    }

    private static double Luminance((int R, int G, int B) colour)
    {
        static double Linear(int channel) =>
            channel / 255.0 is var c && c <= 0.04045 ? c / 12.92 : Math.Pow((c + 0.055) / 1.055, 2.4);
        return 0.2126 * Linear(colour.R) + 0.7152 * Linear(colour.G) + 0.0722 * Linear(colour.B);
    }

    private static string Root()
    {
        var folder = new DirectoryInfo(AppContext.BaseDirectory);
        while (folder is not null && !File.Exists(Path.Combine(folder.FullName, "Tightcold.slnx")))
            folder = folder.Parent;
        return folder?.FullName ?? throw new InvalidOperationException("the repository root was not found");
    }

    /// <summary>| `low` | `#003f91` | … | 9.9 on `ground` |</summary>
    [GeneratedRegex(
        @"^\| `(?<name>[a-z]+)` \| `(?<hex>#[0-9a-f]{6})` \|.*\| (?<contrast>[\d.]+) on `(?<on>[a-z]+)` \|$",
        RegexOptions.Multiline
    )]
    private static partial Regex Row();

    /// <summary>| dark `low` | `#9ec5ff` | … | 9.9 on `ground` |</summary>
    [GeneratedRegex(
        @"^\| dark `(?<name>[a-z]+)` \| `(?<hex>#[0-9a-f]{6})` \|.*\| (?<contrast>[\d.]+) on `(?<on>[a-z]+)` \|$",
        RegexOptions.Multiline
    )]
    private static partial Regex DarkRow();
}
