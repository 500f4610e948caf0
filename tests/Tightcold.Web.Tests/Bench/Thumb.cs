using Microsoft.Playwright;

namespace Tightcold.Web.Tests.Bench;

/// <summary>One clean finger: counts its taps, what it types, and how far it scrolls. A box that has the keyboard already
/// needs no tap; a digit on the page's own keys counts as typed, as one on the phone's does; choosing from a list is two
/// taps.</summary>
public sealed class Thumb(Person person)
{
    public int Taps { get; private set; }
    public int Characters { get; private set; }

    /// <summary>The furthest that had to be scrolled to reach something, in screens.</summary>
    public double Scrolled { get; private set; }

    /// <summary>What lay more than a screen away.</summary>
    public List<string> Far { get; } = [];

    /// <summary>What each stretch of the way took, for who wants to shorten it.</summary>
    public List<string> Said { get; } = [];

    private (int Taps, int Characters) before;

    public void Note(string what)
    {
        Said.Add($"{what}: {Taps - before.Taps} taps, {Characters - before.Characters} characters");
        before = (Taps, Characters);
    }

    /// <summary>A link or a button by its words, in the bar or on the page.</summary>
    public async Task PressAsync(string words)
    {
        var named = person
            .Page.Locator("main a:visible, main button:visible, main summary:visible")
            .Filter(new() { HasText = words });
        await TapAsync(named.First);
    }

    /// <summary>Taps what is there, and waits for the page that comes of it.</summary>
    public async Task TapAsync(ILocator what)
    {
        await ReachAsync(what);
        Taps++;
        var leads = await what.EvaluateAsync<bool>(
            """
            e => (e.tagName === 'A' && !e.getAttribute('href').startsWith('#'))
              || (e.tagName === 'BUTTON' && e.type === 'submit' && !!e.form)
            """
        );
        if (leads)
            await person.NextPageAsync(() => what.TapAsync());
        else
            await what.TapAsync();
    }

    /// <summary>A number or words into a box; its fold is opened by a tap where it is shut.</summary>
    public async Task TypeAsync(string field, string text, string? unit = null)
    {
        var box = person.Page.Locator($"[name='f.{field}']").First;
        await UnfoldAsync(box);
        if (!await box.EvaluateAsync<bool>("e => e === document.activeElement"))
        {
            await ReachAsync(box);
            Taps++;
            await box.TapAsync();
        }
        await box.FillAsync("");
        await person.Page.Keyboard.TypeAsync(text);
        Characters += text.Length;
        var units = person.Page.Locator($"select[name='u.{field}']");
        if (unit is not null && await units.InputValueAsync() != unit)
        {
            Taps += 2;
            await units.SelectOptionAsync(unit);
        }
    }

    /// <summary>One of a few words; no tap where it is chosen already.</summary>
    public async Task ChooseAsync(string field, string word)
    {
        var list = person.Page.Locator($"select[name='f.{field}']");
        if (await list.CountAsync() > 0)
        {
            if (await list.InputValueAsync() == word)
                return;
            await UnfoldAsync(list);
            await ReachAsync(list);
            Taps += 2;
            await list.SelectOptionAsync(word);
            return;
        }
        var choice = person.Page.Locator($"input[name='f.{field}'][value='{word}']");
        if (await choice.IsCheckedAsync())
            return;
        await UnfoldAsync(choice);
        await TapAsync(choice);
    }

    /// <summary>The same of a choice that belongs to no entry.</summary>
    public Task ChooseTextAsync(string name, string word) =>
        TapAsync(person.Page.Locator($"input[name='{name}'][value='{word}']"));

    /// <summary>What usually goes together, as one tap.</summary>
    public Task SetAsync(string words) =>
        TapAsync(person.Page.Locator("[data-presets] button").Filter(new() { HasText = words }).First);

    /// <summary>A box that is ticked.</summary>
    public Task TickAsync(string name) => TapAsync(person.Page.Locator($"input[type=checkbox][name='{name}']"));

    /// <summary>Digits that were pressed on the page's own keys.</summary>
    public void Typed(int digits) => Characters += digits;

    /// <summary>A usual word that the form offers for a text.</summary>
    public Task TakeAsync(string field, string word) =>
        TapAsync(person.Page.Locator($"[data-fills='f-{field}'] button").Filter(new() { HasText = word }).First);

    public Task WriteAsync() => PressAsync("Write it down");

    private async Task UnfoldAsync(ILocator inside)
    {
        var fold = person.Page.Locator("details").Filter(new() { Has = inside }).Last;
        if (await inside.EvaluateAsync<bool>("e => !!e.closest('details:not([open])')"))
            await TapAsync(fold.Locator("summary").First);
    }

    private async Task ReachAsync(ILocator what)
    {
        await what.WaitForAsync(new() { State = WaitForSelectorState.Attached });
        var screens = await what.EvaluateAsync<double>(
            """
            e => {
              const box = e.getBoundingClientRect(), bar = document.querySelector('.bar, .finish');
              const low = innerHeight - (bar && !bar.contains(e) ? bar.offsetHeight : 0);
              return (box.bottom > low ? box.bottom - low : box.top < 0 ? -box.top : 0) / innerHeight;
            }
            """
        );
        if (screens > 1)
            Far.Add(
                $"{screens:0.00} screens on {new Uri((await person.AddressAsync())).AbsolutePath}: {await what.InnerTextAsync()}".Trim()
            );
        Scrolled = Math.Max(Scrolled, screens);
    }
}
