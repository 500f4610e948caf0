using Deque.AxeCore.Playwright;
using Microsoft.Playwright;

namespace Tightcold.Web.Tests.Bench;

/// <summary>What a person does on the site, as verbs; selectors stay in here.</summary>
public sealed class Person(IBrowserContext context, IPage page, List<string> strangers) : IAsyncDisposable
{
    /// <summary>Pictures of what was seen; not kept in the repository.</summary>
    private static readonly string Pictures = Path.Combine(Root(), "test-output", "web");

    public IPage Page => page;

    public Task<IResponse?> OpenAsync(string path) => page.GotoAsync(path);

    public async Task AddCarAsync(string label, string refrigerant, params (string Field, string Value)[] more)
    {
        await OpenAsync("/cars/new");
        await TypeAsync("label", label);
        await ChooseAsync("refrigerant", refrigerant);
        foreach (var (field, value) in more) await FillAsync(field, value);
        await PressAsync("Keep this car");
    }

    public async Task OpenJobAsync(string complaint)
    {
        await FollowAsync("Open a job");
        await page.Locator("#complaint").FillAsync(complaint);
        await PressAsync("Open the job");
    }

    /// <summary>Opens the step, chooses the entry there, fills it and sends it.</summary>
    public async Task WriteDownAsync(string kind, params (string Field, string Value)[] fields)
    {
        await OpenFormAsync(kind);
        foreach (var (field, value) in fields) await FillAsync(field, value);
        await PressAsync("Write it down");
    }

    public async Task OpenFormAsync(string kind)
    {
        var job = page.Url.Split('?')[0].Split("/entries")[0];
        await page.GotoAsync($"{job}/entries/new/{kind}");
    }

    /// <summary>Types a text, a number with its unit (<c>68 psig</c>), or picks a word or a spot.</summary>
    public async Task FillAsync(string field, string value)
    {
        if (await page.Locator($"input[type=radio][name='f.{field}']").CountAsync() > 0) await ChooseAsync(field, value);
        else if (await page.Locator($"select[name='f.{field}']").CountAsync() > 0) await page.Locator($"select[name='f.{field}']").SelectOptionAsync(value);
        else if (await page.Locator($"select[name='u.{field}']").CountAsync() > 0 && value.Split(' ', 2) is [var number, var unit])
        {
            await TypeAsync(field, number);
            await page.Locator($"select[name='u.{field}']").SelectOptionAsync(unit);
        }
        else await TypeAsync(field, value);
    }

    public async Task TypeAsync(string field, string text)
    {
        await UnfoldAsync(field);
        await Input(field).FillAsync(text);
    }

    public async Task ChooseAsync(string field, string word)
    {
        await UnfoldAsync(field);
        await page.Locator($"input[type=radio][name='f.{field}'][value='{word}']").CheckAsync();
    }

    public async Task<string> StandsInAsync(string field) => await Input(field).InputValueAsync();

    public async Task<string?> GhostOfAsync(string field) => await Input(field).GetAttributeAsync("placeholder");

    /// <summary>The sentences beside a field.</summary>
    public async Task<string> ProblemOfAsync(string field) =>
        string.Join(" ", await page.Locator($"#f-{field}-problem .problem").AllInnerTextsAsync()).Trim();

    public async Task PressAsync(string button) => await page.GetByRole(AriaRole.Button, new() { Name = button, Exact = true }).ClickAsync();

    public async Task FollowAsync(string link, bool exact = true) => await page.GetByRole(AriaRole.Link, new() { Name = link, Exact = exact }).First.ClickAsync();

    /// <summary>The step as its line says it, opened by a tap when it is closed.</summary>
    public async Task<ILocator> StepAsync(string title)
    {
        var step = page.Locator(".walk > li").Filter(new() { Has = page.GetByRole(AriaRole.Heading, new() { Name = title, Exact = true, Level = 2 }) });
        if (await step.Locator("details").First.GetAttributeAsync("open") is null) await step.Locator("summary").First.ClickAsync();
        return step;
    }

    public ILocator Journal => page.Locator("ol.journal > li");

    public async Task<string> SeesAsync() => await page.Locator("main").InnerTextAsync();

    /// <summary>Fails with everything that is on the page, so that a miss can be understood.</summary>
    public async Task SeesAsync(string words)
    {
        var seen = await SeesAsync();
        Assert.True(seen.Contains(words, StringComparison.Ordinal), $"“{words}” is not on {page.Url}:\n{seen}");
    }

    public async Task<bool> ScrollsSidewaysAsync() =>
        await page.EvaluateAsync<bool>("document.documentElement.scrollWidth > document.documentElement.clientWidth + 1");

    /// <summary>Controls of the page that a gloved finger would miss: smaller than 56 px in height.</summary>
    public async Task<string[]> TooSmallAsync() => await page.EvaluateAsync<string[]>("""
        [...document.querySelectorAll('a, button, select, summary, input:not([type=hidden]), textarea')]
          .filter(e => e.offsetParent !== null && !e.classList.contains('away') && e.getBoundingClientRect().height < 55.5)
          .map(e => e.tagName + ' ' + (e.textContent || e.name).trim().slice(0, 40) + ' ' + Math.round(e.getBoundingClientRect().height))
        """);

    public async Task<IReadOnlyList<string>> RulesBrokenAsync()
    {
        var result = await page.RunAxe();
        return [.. result.Violations.SelectMany(rule => rule.Nodes.Select(node => $"{rule.Id}: {node.Html}"))];
    }

    public async Task PictureAsync(string name)
    {
        Directory.CreateDirectory(Pictures);
        await page.ScreenshotAsync(new() { Path = Path.Combine(Pictures, name + ".png"), FullPage = true });
    }

    /// <summary>Prints the page as the browser would, keeps the file, and counts its pages.</summary>
    public async Task<int> PrintAsync(string name, string paper)
    {
        Directory.CreateDirectory(Pictures);
        var bytes = await page.PdfAsync(new() { Format = paper, PreferCSSPageSize = false, Path = Path.Combine(Pictures, name + ".pdf") });
        return System.Text.RegularExpressions.Regex.Count(System.Text.Encoding.Latin1.GetString(bytes), @"/Type\s*/Page\b(?!s)");
    }

    public async ValueTask DisposeAsync()
    {
        await context.DisposeAsync();
        Assert.Empty(strangers);
    }

    private ILocator Input(string field) => page.Locator($"input[name='f.{field}'], textarea[name='f.{field}']").First;

    /// <summary>Opens the fold in which a field lies.</summary>
    private async Task UnfoldAsync(string field)
    {
        var fold = page.Locator("details.more").Filter(new() { Has = page.Locator($"[name='f.{field}']") });
        if (await fold.CountAsync() > 0 && await fold.First.GetAttributeAsync("open") is null) await fold.First.Locator("summary").First.ClickAsync();
    }

    private static string Root()
    {
        var folder = new DirectoryInfo(AppContext.BaseDirectory);
        while (folder is not null && !File.Exists(Path.Combine(folder.FullName, "Tightcold.slnx"))) folder = folder.Parent;
        return folder?.FullName ?? AppContext.BaseDirectory;
    }
}
