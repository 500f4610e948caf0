using System.Diagnostics;
using System.Text.Json;
using System.Text.RegularExpressions;
using Deque.AxeCore.Commons;
using Microsoft.Playwright;

namespace Tightcold.Web.Tests.Bench;

/// <summary>What a person does on the site, as verbs; selectors stay in here.</summary>
public sealed partial class Person(
    IBrowserContext context,
    IPage page,
    List<string> strangers,
    bool scripts = true,
    bool inShell = false
) : IAsyncDisposable
{
    /// <summary>Pictures of what was seen; not kept in the repository.</summary>
    private static readonly string Pictures = Path.Combine(Root(), "test-output", "web");

    /// <summary>What a page says of itself once everything it is made of is there and its scripts have run.</summary>
    private const string Whole = "document.readyState === 'complete'";

    /// <summary>All rules are asked; places are told only of those that are broken: nobody reads the rest.</summary>
    private const string BrokenRules =
        "axe.run(document, { resultTypes: ['violations'] })"
        + ".then(all => all.violations.flatMap(rule => rule.nodes.map(node => `${rule.id}: ${node.html}`)))";

    /// <summary>Run in the page itself: the kept library's own driver opens a second page for each page it looks at, and
    /// brings the rules into both.</summary>
    private static readonly string Axe = new BundledAxeScriptProvider().GetScript();

    private int pages;

    public IPage Page => page;

    /// <summary>Where the pages of the program are: in a phone they stand within a shell.</summary>
    public IFrame Frame => inShell ? page.Frames.First(frame => frame.ParentFrame is not null) : page.MainFrame;

    /// <summary>Where the page is, by its own word: what the driver knows of it comes later on a busy machine.</summary>
    public Task<string> AddressAsync() => Frame.EvaluateAsync<string>("location.href");

    /// <summary>Where a picture or a print of that name is kept.</summary>
    public static string PictureFile(string name) => Path.Combine(Pictures, name);

    public async Task<IResponse?> OpenAsync(string path)
    {
        for (var i = 0; ; i++)
        {
            try
            {
                var answer = await Frame.GotoAsync(path, new() { WaitUntil = WaitUntilState.Commit });
                await UntilAsync(Whole);
                return answer;
            }
            catch (PlaywrightException) when (i < 3)
            {
                // The page was just going somewhere by itself, and that came between.
                await UntilAsync(Whole);
            }
        }
    }

    /// <summary>Loads the page again.</summary>
    public Task ReloadAsync() => NextPageAsync(() => Frame.EvaluateAsync("setTimeout(() => location.reload())"));

    public Task BackAsync() => NextPageAsync(() => Frame.EvaluateAsync("setTimeout(() => history.back())"));

    /// <summary>Until the page has this address; <c>*</c> stands for anything.</summary>
    public Task ArrivesAsync(string path)
    {
        var pattern = Regex.Escape(path).Replace("\\*", ".*", StringComparison.Ordinal);
        var there = $"new RegExp({Script('^' + pattern + '$')}).test(location.pathname + location.search)";
        return UntilAsync($"{there} && {Whole}");
    }

    public Task AddCarAsync(string label, string refrigerant, params (string Field, string Value)[] more) =>
        AddCarAsync(label, refrigerant, "", more);

    /// <param name="label">What it is called.</param>
    /// <param name="refrigerant">By its label.</param>
    /// <param name="under">The folder of a site in which the program lies.</param>
    /// <param name="more">Further fields.</param>
    public async Task AddCarAsync(
        string label,
        string refrigerant,
        string under,
        params (string Field, string Value)[] more
    )
    {
        await OpenAsync(under + "/cars/new");
        await TypeAsync("label", label);
        await ChooseAsync("refrigerant", refrigerant);
        foreach (var (field, value) in more)
            await FillAsync(field, value);
        await PressAsync("Keep this car");
    }

    public async Task OpenJobAsync(string complaint)
    {
        await FollowAsync("Open a job");
        await Frame.Locator("#complaint").FillAsync(complaint);
        await PressAsync("Open the job");
    }

    /// <summary>Opens the step, chooses the entry there, fills it and sends it.</summary>
    public async Task WriteDownAsync(string kind, params (string Field, string Value)[] fields)
    {
        await OpenFormAsync(kind);
        foreach (var (field, value) in fields)
            await FillAsync(field, value);
        await PressAsync("Write it down");
    }

    public async Task OpenFormAsync(string kind)
    {
        await OpenAsync($"{JobUnder().Match(await AddressAsync()).Value}/entries/new/{kind}");
    }

    /// <summary>Types a text, a number with its unit (<c>68 psig</c>), or picks a word or a spot.</summary>
    public async Task FillAsync(string field, string value)
    {
        if (await Frame.Locator($"input[type=radio][name='f.{field}']").CountAsync() > 0)
            await ChooseAsync(field, value);
        else if (await Frame.Locator($"select[name='f.{field}']").CountAsync() > 0)
            await Frame.Locator($"select[name='f.{field}']").SelectOptionAsync(value);
        else if (
            await Frame.Locator($"select[name='u.{field}']").CountAsync() > 0
            && value.Split(' ', 2) is [var number, var unit]
        )
        {
            await TypeAsync(field, number);
            await Frame.Locator($"select[name='u.{field}']").SelectOptionAsync(unit);
        }
        else
            await TypeAsync(field, value);
    }

    public async Task TypeAsync(string field, string text)
    {
        await UnfoldAsync(field);
        await Input(field).FillAsync(text);
    }

    public async Task ChooseAsync(string field, string word)
    {
        await UnfoldAsync(field);
        await Frame.Locator($"input[type=radio][name='f.{field}'][value='{word}']").CheckAsync();
    }

    /// <summary>Chooses a file of jobs, or a tally, on the page that asks for one.</summary>
    public Task ChooseFileAsync(string text) =>
        Frame
            .Locator("#file")
            .SetInputFilesAsync(
                new FilePayload
                {
                    Name = "jobs.json",
                    MimeType = "application/json",
                    Buffer = System.Text.Encoding.UTF8.GetBytes(text),
                }
            );

    public async Task<string> StandsInAsync(string field) => await Input(field).InputValueAsync();

    public async Task<string?> GhostOfAsync(string field) => await Input(field).GetAttributeAsync("placeholder");

    /// <summary>The sentences beside a field.</summary>
    public async Task<string> ProblemOfAsync(string field) =>
        string.Join(" ", await Frame.Locator($"#f-{field}-problem .problem").AllInnerTextsAsync()).Trim();

    /// <summary>Presses a button; where that sends a form, waits for the page that comes of it.</summary>
    public async Task PressAsync(string button)
    {
        var press = Frame.GetByRole(AriaRole.Button, new() { Name = button, Exact = true });
        if (await press.EvaluateAsync<bool>("e => e.type === 'submit' && !!e.form"))
            await NextPageAsync(() => press.ClickAsync());
        else
            await press.ClickAsync();
    }

    public Task FollowAsync(string link, bool exact = true) =>
        NextPageAsync(() => Frame.GetByRole(AriaRole.Link, new() { Name = link, Exact = exact }).First.ClickAsync());

    /// <summary>Does what leads to another page, and waits until that page is there and whole: by what the page itself
    /// says. A page that asks for news every few seconds is never silent, and the driver's own word of a loaded page is
    /// lost at times when a page goes on by itself.</summary>
    public async Task NextPageAsync(Func<Task> go)
    {
        // A page that comes back by the back button may be the very document that was left; it has an older mark.
        var mark = ++pages;
        await MarkAsync(mark);
        await go();
        await UntilAsync($"window.pageBefore !== {mark} && {Whole}");
    }

    /// <summary>Marks the page that is there; one that goes on by itself just then is marked where it arrives.</summary>
    private async Task MarkAsync(int mark)
    {
        const int Most = 20;
        for (var tried = 1; ; tried++)
            try
            {
                await Frame.EvaluateAsync($"window.pageBefore = {mark}");
                return;
            }
            catch (PlaywrightException moved)
                when (tried < Most && moved.Message.Contains("context was destroyed", StringComparison.Ordinal))
            {
                await UntilAsync(Whole);
            }
    }

    /// <summary>The page of a step.</summary>
    public async Task<ILocator> StepAsync(string title)
    {
        var job = JobUnder().Match(await AddressAsync()).Value;
        await OpenAsync($"{job}/steps/{title.ToLowerInvariant().Replace(' ', '-')}");
        return Frame.Locator("main");
    }

    /// <summary>How many lines the journal has, looked up and left again.</summary>
    public async Task<int> JournalCountAsync()
    {
        var was = new Uri(await AddressAsync()).PathAndQuery;
        await OpenJournalAsync();
        var count = await Journal.CountAsync();
        await OpenAsync(was);
        return count;
    }

    public async Task OpenJournalAsync() => await OpenAsync(JobUnder().Match(await AddressAsync()).Value + "/journal");

    /// <summary>Presses Tab until the control with these words has the keyboard; fails when the page ends
    /// before.</summary>
    public Task TabToAsync(string words, bool starts = false)
    {
        var fits = starts ? ".startsWith" : " === ";
        return TabAsync($"e => (e.getAttribute('aria-label') ?? e.textContent).trim(){fits}({Script(words)})", words);
    }

    /// <summary>The same for a field by its name.</summary>
    public Task TabToFieldAsync(string name) => TabAsync($"e => e.name === {Script(name)}", name);

    /// <summary>Presses Enter and waits for the page that comes of it: a key that falls between two pages is
    /// lost.</summary>
    public async Task EnterAsync(string thereIs)
    {
        await page.Keyboard.PressAsync("Enter");
        await Frame.Locator(thereIs).First.WaitForAsync(new() { State = WaitForSelectorState.Attached });
        await UntilAsync(Whole);
    }

    private async Task TabAsync(string isIt, string words)
    {
        for (var i = 0; i < 250; i++)
        {
            if (
                await Frame.EvaluateAsync<bool>(
                    $"() => {{ const e = document.activeElement; return e !== document.body && ({isIt})(e); }}"
                )
            )
                return;
            await page.Keyboard.PressAsync("Tab");
        }
        Assert.Fail($"“{words}” is not reached by Tab on {await AddressAsync()}:\n{await SeesAsync()}");
    }

    /// <summary>The brightest blue and green of a picture, 0 to 255.</summary>
    public async Task<(int Blue, int Green)> BrightestAsync(byte[] png)
    {
        var found = await page.Context.Browser!.NewPageAsync();
        try
        {
            var both = await found.EvaluateAsync<int[]>(
                """
                async data => {
                  const image = new Image();
                  image.src = 'data:image/png;base64,' + data;
                  await image.decode();
                  const canvas = document.createElement('canvas');
                  [canvas.width, canvas.height] = [image.width, image.height];
                  const pen = canvas.getContext('2d');
                  pen.drawImage(image, 0, 0);
                  const pixels = pen.getImageData(0, 0, canvas.width, canvas.height).data;
                  let blue = 0, green = 0;
                  for (let i = 0; i < pixels.length; i += 4) { green = Math.max(green, pixels[i + 1]); blue = Math.max(blue, pixels[i + 2]); }
                  return [blue, green];
                }
                """,
                Convert.ToBase64String(png)
            );
            return (both[0], both[1]);
        }
        finally
        {
            await found.CloseAsync();
        }
    }

    public Task<bool> IsOfflineAsync() => Frame.EvaluateAsync<bool>("!navigator.onLine");

    /// <summary>A picture of what the screen shows, for docs/tutorial.md: into the documents when TIGHTCOLD_TUTORIAL is
    /// "write", else among the pictures of the tests.</summary>
    public async Task TutorialAsync(string name)
    {
        var folder =
            Environment.GetEnvironmentVariable("TIGHTCOLD_TUTORIAL") == "write"
                ? Path.Combine(Root(), "docs", "tutorial")
                : Path.Combine(Pictures, "tutorial");
        Directory.CreateDirectory(folder);
        await page.ScreenshotAsync(new() { Path = Path.Combine(folder, name + ".png"), Scale = ScreenshotScale.Css });
    }

    /// <summary>Scrolls until this stands at the top of the screen.</summary>
    public Task ShowAsync(string what) =>
        Frame
            .Locator(what)
            .First.EvaluateAsync(
                "e => { document.documentElement.style.scrollBehavior = 'auto'; e.scrollIntoView({ block: 'start' }); }"
            );

    public Task UnfoldAllAsync() =>
        Frame.EvaluateAsync("document.querySelectorAll('details').forEach(fold => fold.open = true)");

    /// <summary>Takes out what stands in a field already.</summary>
    public async Task EmptyAsync(string field)
    {
        var none = Frame.Locator($"input[type=radio][name='f.{field}'][value='']");
        var input = Frame.Locator($"input[type=text][name='f.{field}'], textarea[name='f.{field}']");
        if (await none.CountAsync() > 0)
        {
            if (!await none.IsCheckedAsync())
            {
                await UnfoldAsync(field);
                await none.CheckAsync();
            }
        }
        else if (await input.CountAsync() > 0 && (await input.First.InputValueAsync()).Length > 0)
        {
            await UnfoldAsync(field);
            await input.First.FillAsync("");
        }
    }

    /// <summary>Takes the network away from page and worker, or gives it back.</summary>
    public Task OfflineAsync(bool offline) => context.SetOfflineAsync(offline);

    /// <summary>Waits until the browser keeps a page for a time without network.</summary>
    public Task KeptPageAsync(string path) =>
        UntilAsync(
            $$"""
            (async () => {
              const kept = await caches.open('tightcold-pages-1');
              return !!(await kept.match(new URL({{Script(path)}}, location.origin).href));
            })()
            """
        );

    /// <summary>Waits until nothing waits in the browser any more. A page that is loaded anew meanwhile hides its list
    /// for a moment, so the browser's own store is asked.</summary>
    public Task NothingWaitsAsync() =>
        UntilAsync("JSON.parse(localStorage.getItem('tightcold-kept') ?? '[]').length === 0");

    /// <summary>Asks the page until it says yes. The site's own policy forbids what the browser driver would do for
    /// it.</summary>
    public async Task UntilAsync(string condition)
    {
        var began = Stopwatch.GetTimestamp();
        for (var i = 0; Stopwatch.GetElapsedTime(began) < Hang.Limit; i++)
        {
            try
            {
                if (await Frame.EvaluateAsync<bool>(condition).WaitAsync(Hang.Limit))
                    return;
            }
            catch (PlaywrightException)
            {
                // The page is being left; the next one is asked.
            }
            await Task.Delay(i < 40 ? 25 : 100, TestContext.Current.CancellationToken);
        }
        Assert.Fail(
            $"never came true on {await AddressAsync()}: {condition}\n{await Frame.Locator("body").InnerTextAsync()}"
        );
    }

    public ILocator Journal => Frame.Locator("ol.journal > li");

    public async Task<string> SeesAsync() => await Frame.Locator("main").InnerTextAsync();

    /// <summary>Fails with everything that is on the page, so that a miss can be understood.</summary>
    public async Task SeesAsync(string words)
    {
        var seen = await SeesAsync();
        Assert.True(
            seen.Contains(words, StringComparison.Ordinal),
            $"“{words}” is not on {await AddressAsync()}:\n{seen}"
        );
    }

    public async Task<bool> ScrollsSidewaysAsync() =>
        await Frame.EvaluateAsync<bool>(
            "document.documentElement.scrollWidth > document.documentElement.clientWidth + 1"
        );

    /// <summary>Controls of the page that a gloved finger would miss: smaller than 56 px in height.</summary>
    public async Task<string[]> TooSmallAsync() =>
        await Frame.EvaluateAsync<string[]>(
            """
            [...document.querySelectorAll('a, button, select, summary, input:not([type=hidden]), textarea')]
              .filter(e => e.offsetParent !== null && !e.classList.contains('away') && e.getBoundingClientRect().height < 55.5)
              .map(e => e.tagName + ' ' + (e.textContent || e.name).trim().slice(0, 40) + ' ' + Math.round(e.getBoundingClientRect().height))
            """
        );

    /// <summary>The accessibility rules that the page breaks. Their checker is a script and never ends where scripts
    /// are off.</summary>
    public async Task<IReadOnlyList<string>> RulesBrokenAsync()
    {
        Assert.True(scripts, "the accessibility rules are checked by a script; this person has scripts switched off");
        await Frame.EvaluateAsync(Axe);
        return await Frame.EvaluateAsync<string[]>(BrokenRules).WaitAsync(Hang.Limit);
    }

    public async Task PictureAsync(string name)
    {
        // Whole pages are slow to draw without a graphics card, and only looked at.
        if (Environment.GetEnvironmentVariable("TIGHTCOLD_PICTURES") is null)
            return;
        Directory.CreateDirectory(Pictures);
        await page.ScreenshotAsync(
            new()
            {
                Path = Path.Combine(Pictures, name + ".png"),
                FullPage = true,
                Scale = ScreenshotScale.Css,
            }
        );
    }

    /// <summary>Prints the page as the browser would, keeps the file, and counts its pages.</summary>
    public async Task<int> PrintAsync(string name, string paper)
    {
        Directory.CreateDirectory(Pictures);
        var bytes = await page.PdfAsync(
            new()
            {
                Format = paper,
                PreferCSSPageSize = false,
                Path = Path.Combine(Pictures, name + ".pdf"),
            }
        );
        return Regex.Count(System.Text.Encoding.Latin1.GetString(bytes), @"/Type\s*/Page\b(?!s)");
    }

    public async ValueTask DisposeAsync()
    {
        await context.DisposeAsync();
        Assert.Empty(strangers);
    }

    [GeneratedRegex("/jobs/[0-9]+")]
    private static partial Regex JobUnder();

    private static string Script(string text) => JsonSerializer.Serialize(text);

    private ILocator Input(string field) => Frame.Locator($"input[name='f.{field}'], textarea[name='f.{field}']").First;

    /// <summary>Opens the fold in which a field lies.</summary>
    private async Task UnfoldAsync(string field)
    {
        var fold = Frame.Locator("details.more").Filter(new() { Has = Frame.Locator($"[name='f.{field}']") });
        if (await fold.CountAsync() > 0 && await fold.First.GetAttributeAsync("open") is null)
            await fold.First.Locator("summary").First.ClickAsync();
    }

    internal static string Root()
    {
        var folder = new DirectoryInfo(AppContext.BaseDirectory);
        while (folder is not null && !File.Exists(Path.Combine(folder.FullName, "Tightcold.slnx")))
            folder = folder.Parent;
        return folder?.FullName ?? AppContext.BaseDirectory;
    }
}
