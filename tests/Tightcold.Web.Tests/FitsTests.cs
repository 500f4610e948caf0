using Tightcold.Pages.Asked;
using Tightcold.Web.Tests.Bench;

namespace Tightcold.Web.Tests;

/// <summary>Every page at five sizes and three sizes of letters, with long names: nothing wider than the screen, nothing
/// cut, nothing under a bar that stays, and in drawings no words over other words.</summary>
public sealed class FitsTests(Chromium chromium, FitsTests.LadenSite laden) : IClassFixture<FitsTests.LadenSite>
{
    private const string LongName = "Donaudampfschifffahrtsgesellschaftskapitaen, Kombi 2009 XL";

    /// <summary>The demo and a car whose name has no end, on one site for all sizes; and every kind of page it has,
    /// found once.</summary>
    public sealed class LadenSite : IAsyncLifetime
    {
        private static CancellationToken Cancellation => TestContext.Current.CancellationToken;

        public RunningSite Site { get; private set; } = null!;
        public IReadOnlyList<string> Pages { get; private set; } = [];

        public async ValueTask InitializeAsync()
        {
            Site = await RunningSite.WithDemoAsync();
            var car = await Site.Desk.AddCarAsync(
                new Dictionary<string, string>
                {
                    ["label"] = LongName,
                    ["refrigerant"] = "R-134a",
                    ["label-charge"] = "550 g",
                    ["extra-spots"] = "Unterbodenverbindungsrohrleitungsverschraubung",
                },
                Cancellation
            );
            Assert.True(car.Taken, string.Join(" ", car.Problems.Select(problem => problem.Sentence)));
            await Site.Desk.OpenJobAsync(car.Value.Id, LongName + " " + LongName, Cancellation);
            using var client = Site.Client();
            var found = await Crawl.PagesAsync(client, Cancellation);
            Assert.True(found.Count >= 30, $"only {found.Count} kinds of pages were found");
            Pages = [.. found.Append("/jobs/2").Append($"/cars/{car.Value.Id}").Distinct()];
        }

        public ValueTask DisposeAsync() => Site.DisposeAsync();
    }

    /// <summary>What is wrong with the page as it stands, in words; run at one size of letters.</summary>
    private const string Wrong = """
        letters => {
          const root = document.documentElement;
          root.style.fontSize = letters + 'px';
          for (const fold of document.querySelectorAll('details')) fold.open = true;
          const found = [], wide = root.clientWidth;
          const name = e => (e.tagName.toLowerCase() + (e.id ? '#' + e.id : '') + '.' + (e.getAttribute('class') ?? '') + ' “' + (e.textContent ?? '').trim().replace(/\s+/g, ' ').slice(0, 40) + '”');
          if (root.scrollWidth > wide + 1) found.push(`sideways: ${root.scrollWidth} on ${wide}`);
          const hides = e => { const s = getComputedStyle(e); return s.clipPath !== 'none' || s.visibility === 'hidden' || s.opacity === '0'; };
          const words = document.createTreeWalker(document.body, NodeFilter.SHOW_TEXT);
          while (words.nextNode()) {
            const node = words.currentNode, home = node.parentElement;
            if (!node.nodeValue.trim() || home.closest('script, style, svg, option, textarea, [hidden]')) continue;
            let scrolls = false, unseen = false;
            for (let e = home; e && e !== document.body; e = e.parentElement) {
              if (hides(e) || e.classList.contains('away')) unseen = true;
              if (/auto|scroll/.test(getComputedStyle(e).overflowX)) scrolls = true;
            }
            if (unseen) continue;
            const range = document.createRange();
            range.selectNodeContents(node);
            for (const box of range.getClientRects()) {
              if (box.width < 1 || box.height < 1) continue;
              if (!scrolls && (box.right > wide + 1 || box.left < -1)) { found.push(`beyond the edge: ${name(home)}`); break; }
              let cut = false;
              for (let e = home; e && e !== document.body; e = e.parentElement) {
                const style = getComputedStyle(e);
                // A line that ends in dots by intent says so.
                if (style.webkitLineClamp !== 'none') break;
                if (!/hidden|clip/.test(style.overflowX + style.overflowY)) continue;
                const frame = e.getBoundingClientRect();
                if (box.right > frame.right + 1 || box.left < frame.left - 1 || box.bottom > frame.bottom + 1) { cut = true; break; }
              }
              if (cut) { found.push(`cut: ${name(home)}`); break; }
            }
          }
          for (const e of document.querySelectorAll('button, a.press, select, .choices span, label, summary'))
            if (e.checkVisibility() && e.tagName !== 'SELECT' && e.scrollWidth > e.clientWidth + 2 && e.clientWidth > 1 && !hides(e)) found.push(`wider than its box: ${name(e)}`);
          // What stays at the lower edge may cover nothing once the page is at its end.
          scrollTo({ top: root.scrollHeight, behavior: 'instant' });
          for (const bar of document.querySelectorAll('body *')) {
            const style = getComputedStyle(bar);
            if (!/fixed|sticky/.test(style.position) || !bar.checkVisibility()) continue;
            const edge = bar.getBoundingClientRect();
            // A column beside the text is no bar over it.
            if (edge.height < 1 || edge.width < innerWidth / 2) continue;
            if (edge.height > innerHeight / 2) found.push(`a bar over half of the screen: ${name(bar)}`);
            for (const e of document.querySelectorAll('main a, main button, main input, main select, main p, main h2, main li')) {
              if (bar.contains(e) || e.contains(bar) || !e.checkVisibility() || hides(e) || e.closest('aside, [hidden]')) continue;
              const box = e.getBoundingClientRect();
              if (box.height < 1 || box.width < 1 || style.position === 'sticky' && edge.bottom < innerHeight - 1 && edge.top > 1) continue;
              if (box.top < edge.bottom - 1 && box.bottom > edge.top + 1 && box.left < edge.right && box.right > edge.left && box.bottom > edge.bottom - 1 && style.position === 'fixed') found.push(`under a bar: ${name(e)}`);
            }
          }
          scrollTo({ top: 0, behavior: 'instant' });
          for (const drawing of document.querySelectorAll('main svg')) {
            if (!drawing.checkVisibility()) continue;
            const frame = drawing.getBoundingClientRect();
            const texts = [...drawing.querySelectorAll('text')].map(e => [e, e.getBoundingClientRect()]).filter(([, box]) => box.width > 0);
            for (const [e, box] of texts)
              if (box.left < frame.left - 1 || box.right > frame.right + 1 || box.top < frame.top - 2 || box.bottom > frame.bottom + 2) found.push(`outside its drawing: ${name(e)}`);
            for (let i = 0; i < texts.length; i++) for (let j = i + 1; j < texts.length; j++) {
              const [a, b] = [texts[i][1], texts[j][1]];
              // A line's box is a little higher than its letters.
              const air = Math.min(a.height, b.height) * .2;
              if (a.left < b.right - 1 && b.left < a.right - 1 && a.top < b.bottom - air && b.top < a.bottom - air) found.push(`words over words: ${name(texts[i][0])} and ${name(texts[j][0])}`);
            }
          }
          return [...new Set(found)].slice(0, 12);
        }
        """;

    [Theory]
    [InlineData(320, 640)]
    [InlineData(390, 844)]
    [InlineData(844, 390)]
    [InlineData(768, 1024)]
    [InlineData(1280, 800)]
    public async Task Every_page_fits_with_letters_as_large_as_a_person_wants_them(int width, int height)
    {
        await using var person = await chromium.PersonAsync(laden.Site, width);
        await person.Page.SetViewportSizeAsync(width, height);
        var wrong = new List<string>();
        foreach (var path in laden.Pages)
        {
            await person.OpenAsync(path);
            foreach (var letters in (int[])[16, 24, 32])
                wrong.AddRange(
                    (await person.Page.EvaluateAsync<string[]>(Wrong, letters)).Select(what =>
                        $"{path} at {width} px, letters {100 * letters / 16} %: {what}"
                    )
                );
        }
        Assert.True(wrong.Count == 0, string.Join("\n", wrong.Distinct()));
    }

    /// <summary>In each language, and in one that nobody speaks, with every message two fifths longer.</summary>
    [Theory]
    [InlineData("de")]
    [InlineData("es")]
    [InlineData("fr")]
    [InlineData("pl")]
    [InlineData("qps")]
    public async Task Every_page_fits_on_the_narrowest_phone_in_every_language(string language)
    {
        await using var person = await chromium.PersonAsync(laden.Site, 320);
        await person.Page.SetViewportSizeAsync(320, 640);
        await person.Page.Context.AddCookiesAsync([
            new()
            {
                Name = Choices.Name(Choice.Language),
                Value = language,
                Url = laden.Site.Address.ToString(),
            },
        ]);
        var wrong = new List<string>();
        foreach (var path in laden.Pages)
        {
            await person.OpenAsync(path);
            wrong.AddRange((await person.Page.EvaluateAsync<string[]>(Wrong, 16)).Select(what => $"{path} in {language}: {what}"));
            if (path is "/" or "/jobs/1" or "/kit" || path.EndsWith("/leak-search", StringComparison.Ordinal))
                await person.PictureAsync($"{language}{path.Replace('/', '-')}");
        }
        Assert.Equal(language, await person.Page.Locator("html").GetAttributeAsync("lang"));
        Assert.True(wrong.Count == 0, string.Join("\n", wrong.Distinct()));
    }

    [Fact]
    public async Task In_the_dark_the_page_is_dark_and_one_tap_brings_the_day_back()
    {
        await using var site = await RunningSite.WithDemoAsync();
        await using var person = await chromium.PersonAsync(site, 390);
        await person.OpenAsync("/jobs/1");
        await person.PressAsync("Pale on dark");
        Assert.Equal("dark", await person.Page.Locator("html").GetAttributeAsync("class"));
        Assert.Equal(
            "rgb(18, 22, 26)",
            await person.Page.EvaluateAsync<string>("getComputedStyle(document.body).backgroundColor")
        );
        Assert.Empty(await person.RulesBrokenAsync());
        await person.OpenAsync("/jobs/1/entries/new/running-reading");
        Assert.Empty(await person.RulesBrokenAsync());
        // The lamp takes its place, and gives it back to the day.
        await person.PressAsync("Red on black, for the UV lamp");
        Assert.Equal("night", await person.Page.Locator("html").GetAttributeAsync("class"));
        await person.PressAsync("Red on black, for the UV lamp");
        Assert.Null(await person.Page.Locator("html").GetAttributeAsync("class"));
    }
}
