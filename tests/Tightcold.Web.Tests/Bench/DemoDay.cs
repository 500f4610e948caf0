using System.Text.RegularExpressions;
using Tightcold.App.Desk;
using Tightcold.Jobs.Entries;
using Tightcold.Jobs.Fields;
using Tightcold.Jobs.Journals;
using Tightcold.Pages.Words;
using Tightcold.Quantities;

namespace Tightcold.Web.Tests.Bench;

/// <summary>The demo's Saturday, typed into the forms by a person, whoever hosts them.</summary>
public static partial class DemoDay
{
    public static async Task KitAsync(Person person, Func<Task> aMinuteLater, JobRecord story)
    {
        await person.OpenAsync("/kit");
        var kit = story.Kit;
        foreach (var field in Jobs.Kits.Kit.Schema.Fields)
            if (kit.Fields[field.Name] is not null)
                await person.FillAsync(field.Name, Typed(field, kit.Fields));
        await person.PressAsync("Keep the kit");
        await person.SeesAsync("The kit is kept");
        foreach (var container in kit.Containers)
        {
            await aMinuteLater();
            await person.FollowAsync("Add a can or cylinder");
            foreach (var field in Jobs.Kits.Container.Schema.Fields)
                if (container.Fields[field.Name] is not null)
                    await person.FillAsync(field.Name, Typed(field, container.Fields));
            await person.PressAsync("Keep it in the kit");
            await person.SeesAsync(container.Name);
        }
        await person.PictureAsync("whole-kit-390");
    }

    /// <summary>The car as its label has it.</summary>
    public static Task CarAsync(Person person, JobRecord story) =>
        person.AddCarAsync(
            story.Car.Label,
            story.Car.Refrigerant,
            [
                .. EntryWords
                    .Values(Jobs.Cars.Car.Schema, story.Car.Fields, SiFormat.Instance)
                    .Where(pair => !pair.Field.Retired && pair.Field.Name is not ("label" or "refrigerant"))
                    .Select(pair => (pair.Field.Name, Typed(pair.Field, story.Car.Fields))),
            ]
        );

    /// <summary>The day as far as these entries go, begun elsewhere and taken in as a file.</summary>
    public static async Task TakenInAsync(Person person, JobRecord story, IEnumerable<Entry> entries)
    {
        var (journal, _) = Journal.Create(entries);
        await person.OpenAsync("/import");
        await person.ChooseFileAsync(JobDesk.Export(story with { Journal = journal!, Chain = [] }));
        await person.PressAsync("Take it in");
        await person.ArrivesAsync("/jobs/1");
    }

    public static async Task WriteAsync(Person person, Entry entry, Dictionary<Guid, Guid> ids)
    {
        if (entry.Supersedes is { } old)
        {
            await person.OpenAsync($"/jobs/1/entries/{ids[old]}/correct");
            await FillAsync(person, entry);
            await person.Frame.Locator("#reason").FillAsync(entry.Reason!);
            // The field holds the moment of the old entry; the demo's correction was seen a minute later.
            await person.UnfoldAllAsync();
            await person.Frame.Locator("#when").FillAsync("");
            await person.PressAsync("Write the correction");
        }
        else
        {
            await person.OpenAsync($"/jobs/1/entries/new/{entry.Kind}");
            await FillAsync(person, entry);
            await person.PressAsync("Write it down");
            // The misread weight is asked about; the story's person says yes, and corrects it a minute later.
            if (await person.Frame.Locator("[data-asks]").CountAsync() > 0)
                await person.PressAsync("Yes, it is right");
        }
        await person.ArrivesAsync("/jobs/1*wrote=*");
        ids[entry.Id] = Guid.Parse(Wrote().Match(await person.AddressAsync()).Groups[1].Value);
    }

    /// <summary>Every field as the demo has it; what was carried over from the last entry and is not in this one is
    /// emptied.</summary>
    public static async Task FillAsync(Person person, Entry entry)
    {
        foreach (var field in entry.Schema.Fields)
        {
            if (entry.Fields[field.Name] is not null)
                await person.FillAsync(field.Name, Typed(field, entry.Fields));
            else
                await person.EmptyAsync(field.Name);
        }
    }

    /// <summary>A value as the form takes it: number and one of the units it offers.</summary>
    public static string Typed(FieldSpec field, FieldBag fields)
    {
        var text = EntryWords.AsTyped(fields[field.Name]!);
        var (number, unit) = Tightcold.Pages.Forms.Typed.Split(field, text);
        return unit is null ? text : $"{number} {unit}";
    }

    [GeneratedRegex("wrote=([0-9a-f-]{36})")]
    private static partial Regex Wrote();
}
