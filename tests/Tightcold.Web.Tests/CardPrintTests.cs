using System.Diagnostics;
using System.Text.RegularExpressions;
using Tightcold.Jobs.Entries;
using Tightcold.Web.Tests.Bench;

namespace Tightcold.Web.Tests;

/// <summary>The card on paper, as a browser prints it: nothing cut off, no word lost, no more pages than said, and
/// nothing that only colour would tell.</summary>
public sealed partial class CardPrintTests(Chromium chromium, DemoSite demo)
{
    private static CancellationToken Cancellation => TestContext.Current.CancellationToken;

    /// <summary>Printable width: the paper (ISO 216: 210 mm; Letter: 8.5 in = 215.9 mm) less twice the card's margin of
    /// 11 mm, at 96 px to the inch.</summary>
    public static readonly TheoryData<string, int> Papers = new()
    {
        { "A4", (int)((210 - 22) / 25.4 * 96) },
        { "Letter", (int)((215.9 - 22) / 25.4 * 96) },
    };

    [Theory]
    [MemberData(nameof(Papers))]
    public async Task The_demos_card_cuts_nothing_off_and_keeps_every_word_on_two_pages(string paper, int width)
    {
        var site = await demo.SiteAsync();
        await using var person = await chromium.PersonAsync(site, width);
        Assert.InRange(await PrintAsync(person, $"card-{paper}", paper), 1, 2);
    }

    [Theory]
    [MemberData(nameof(Papers))]
    public async Task A_long_job_gets_a_third_page_for_what_the_card_rests_on_and_the_first_two_stay_the_story(
        string paper,
        int width
    )
    {
        await using var site = await RunningSite.WithDemoAsync();
        for (var i = 0; i < 24; i++)
            Assert.True(
                (
                    await site.Desk.AddEntryAsync(
                        1,
                        EntryKinds.Note,
                        new Dictionary<string, string>
                        {
                            ["text"] =
                                $"Looked again at the hose from the compressor, part {i}: dry, and the clip sits where it should.",
                        },
                        null,
                        "",
                        cancellation: Cancellation
                    )
                ).Taken
            );
        await using var person = await chromium.PersonAsync(site, width);
        Assert.Equal(3, await PrintAsync(person, $"card-long-{paper}", paper));
        var pages = await TextAsync($"card-long-{paper}");
        Assert.Contains("Signature", pages[1], StringComparison.Ordinal);
        Assert.Contains("What this card rests on", pages[2], StringComparison.Ordinal);
        // Nothing is left to be careful of: the job is closed.
        Assert.DoesNotContain("Cautions", pages[2], StringComparison.Ordinal);
    }

    private static async Task<int> PrintAsync(Person person, string name, string paper)
    {
        await person.OpenAsync("/jobs/1/card");
        await person.Page.EmulateMediaAsync(new() { Media = Microsoft.Playwright.Media.Print });
        var cut = await person.Page.EvaluateAsync<string[]>(
            """
            [...document.querySelectorAll('main, main *')].filter(e => !(e instanceof SVGElement) && getComputedStyle(e).display !== 'inline' && (e.scrollWidth > e.clientWidth + 1 || e.scrollHeight > e.clientHeight + 2) && e.clientWidth > 0)
              .map(e => `${e.tagName}.${e.className} ${e.scrollWidth}>${e.clientWidth} ${e.scrollHeight}>${e.clientHeight}: ${e.textContent.trim().slice(0, 50)}`)
            """
        );
        Assert.Empty(cut);
        // Black and white: words and marks are grey to black, 7 : 1 on paper at the least (luminance of #595959 and
        // darker).
        var coloured = await person.Page.EvaluateAsync<string[]>(
            """
            [...document.querySelectorAll('main, main *')].flatMap(e => { const s = getComputedStyle(e); return [s.color, s.fill, s.stroke, s.borderTopColor].filter(c => c.startsWith('rgb')).map(c => [e, c.match(/[\d.]+/g).map(Number), c === s.color]); })
              .filter(([e, [r, g, b, a], text]) => a !== 0 && (r !== g || g !== b || (text && e.textContent.trim() && r > 0x59)))
              .map(([e, c]) => `${e.tagName} ${c}`)
            """
        );
        Assert.Empty(coloured);
        var words = await person.Page.EvaluateAsync<string>("document.querySelector('main').innerText");
        var pages = await person.PrintAsync(name, paper);
        var printed = string.Concat((await TextAsync(name)).Select(Plain));
        foreach (var word in Word().Matches(words).Select(match => match.Value).Distinct())
            Assert.True(
                printed.Contains(Plain(word), StringComparison.Ordinal),
                $"“{word}” is on the page and not on the paper"
            );
        return pages;
    }

    /// <summary>The text of each page, as poppler reads it out of the file.</summary>
    private static async Task<string[]> TextAsync(string name)
    {
        using var reader = Process.Start(
            new ProcessStartInfo("pdftotext", ["-layout", Person.PictureFile(name + ".pdf"), "-"])
            {
                RedirectStandardOutput = true,
            }
        )!;
        var text = await reader.StandardOutput.ReadToEndAsync(Cancellation);
        await reader.WaitForExitAsync(Cancellation);
        Assert.Equal(0, reader.ExitCode);
        return text.Split('\f');
    }

    private static string Plain(string text) => Blank().Replace(text, "").Replace("­", "", StringComparison.Ordinal);

    [GeneratedRegex(@"[\p{L}\d]{3,}")]
    private static partial Regex Word();

    [GeneratedRegex(@"[\s\u00a0]+")]
    private static partial Regex Blank();
}
