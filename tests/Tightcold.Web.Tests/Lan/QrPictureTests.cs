using System.Globalization;
using System.Text.RegularExpressions;
using Tightcold.Pages.Parts;

namespace Tightcold.Web.Tests.Lan;

/// <summary>A QR code that a phone can read: ISO/IEC 18004 asks for three finder patterns (7 by 7, a ring and a core of
/// 3 by 3) and a light border of four squares.</summary>
public sealed partial class QrPictureTests
{
    private const string Link = "http://192.168.100.200:5217/pair?code=12345678";

    [Fact]
    public void A_pairing_link_has_its_three_finders_inside_a_light_border()
    {
        var picture = QrPicture.Of(Link);
        for (var i = 0; i < picture.Size; i++)
        for (var border = 0; border < 4; border++)
            Assert.False(
                picture.IsDark(i, border)
                    || picture.IsDark(border, i)
                    || picture.IsDark(i, picture.Size - 1 - border)
                    || picture.IsDark(picture.Size - 1 - border, i)
            );
        foreach (var (left, top) in new[] { (4, 4), (picture.Size - 11, 4), (4, picture.Size - 11) })
            for (var y = 0; y < 7; y++)
            for (var x = 0; x < 7; x++)
                Assert.Equal(
                    x is 0 or 6 || y is 0 or 6 || (x is >= 2 and <= 4 && y is >= 2 and <= 4),
                    picture.IsDark(left + x, top + y)
                );
    }

    [Fact]
    public void The_drawing_for_a_page_and_the_one_for_a_terminal_show_the_same_squares()
    {
        var picture = QrPicture.Of(Link);
        var drawn = new bool[picture.Size, picture.Size];
        foreach (Match run in Run().Matches(picture.Path()))
        {
            int Number(string name) => int.Parse(run.Groups[name].Value, CultureInfo.InvariantCulture);
            for (var i = 0; i < Number("long"); i++)
                drawn[Number("y"), Number("x") + i] = true;
        }
        var lines = picture.Lines().ToList();
        for (var y = 0; y < picture.Size; y++)
        for (var x = 0; x < picture.Size; x++)
        {
            Assert.Equal(picture.IsDark(x, y), drawn[y, x]);
            Assert.Equal(picture.IsDark(x, y), lines[y / 2][x] is ' ' || lines[y / 2][x] == (y % 2 == 0 ? '▄' : '▀'));
        }
    }

    [GeneratedRegex("M(?<x>[0-9]+) (?<y>[0-9]+)h(?<long>[0-9]+)v1h-[0-9]+z")]
    private static partial Regex Run();
}
