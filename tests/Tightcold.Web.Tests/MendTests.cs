using System.Net;
using Tightcold.Jobs.Entries;
using Tightcold.Pages.Forms;
using Tightcold.Web.Tests.Bench;

namespace Tightcold.Web.Tests;

/// <summary>What was done at one spot, written down in one go.</summary>
public sealed class MendTests
{
    private const string Joint = "liquid line joint at condenser";

    private static CancellationToken Cancellation => TestContext.Current.CancellationToken;

    [Fact]
    public async Task Seal_drier_oil_and_closing_are_one_sheet_and_four_entries_however_often_it_is_sent()
    {
        // Opened at the joint, nothing new in yet.
        await using var site = await RunningSite.WithDemoUntilAsync(TimeSpan.FromMinutes(85));
        using var client = site.Client();
        var before = (await site.Desk.RecordAsync(1, Cancellation))!.Journal.All.Length;
        var sheet = await client.HiddenOfAsync("/jobs/1/mend");
        sheet["spot"] = Joint;
        sheet["seal-ring"] = "yes";
        sheet["drier"] = "yes";
        sheet["f.amount"] = "20";
        sheet["u.amount"] = "mL";
        sheet["f.oil-type"] = "PAG 46";
        sheet["then"] = "closed";
        (await client.SendAsync("/jobs/1/mend", sheet)).Dispose();
        (await client.SendAsync("/jobs/1/mend", sheet)).Dispose();
        var record = (await site.Desk.RecordAsync(1, Cancellation))!;
        Assert.Equal(
            [EntryKinds.SealChanged, EntryKinds.PartChanged, EntryKinds.OilMoved, EntryKinds.Closed],
            record.Journal.All[before..].Select(entry => entry.Kind)
        );
        var (seal, part, closed) = (record.Journal.All[before], record.Journal.All[before + 1], record.Journal.All[^1]);
        Assert.Equal((Joint, "HNBR O-ring, oiled"), (seal.Fields.Text("spot"), seal.Fields.Text("seal")));
        Assert.Equal("receiver-drier", part.Fields.Text("spot"));
        Assert.Equal(20e-6, record.Journal.All[before + 2].Fields.Si("amount")!.Value, 1e-9);
        Assert.Equal(Joint, closed.Fields.Text("spot"));

        // Reached again by the back button, with something else ticked: it is written down too.
        site.Clock.Advance(TimeSpan.FromSeconds(5));
        foreach (var done in new[] { "seal-ring", "drier", "f.amount" })
            sheet.Remove(done);
        sheet["seal-core"] = "yes";
        sheet["then"] = "open";
        (await client.SendAsync("/jobs/1/mend", sheet)).Dispose();
        record = (await site.Desk.RecordAsync(1, Cancellation))!;
        Assert.Equal("valve core and cap", record.Journal.All[^1].Fields.Text("seal"));
        Assert.Equal(before + 5, record.Journal.All.Length);
    }

    [Fact]
    public async Task A_sheet_without_anything_done_or_with_an_oil_that_is_no_number_writes_nothing()
    {
        await using var site = await RunningSite.WithDemoUntilAsync(TimeSpan.FromMinutes(85));
        using var client = site.Client();
        var before = (await site.Desk.RecordAsync(1, Cancellation))!.Journal.All.Length;
        var sheet = await client.HiddenOfAsync("/jobs/1/mend");
        sheet["spot"] = Joint;
        sheet["then"] = "open";
        using (var nothing = await client.SendAsync("/jobs/1/mend", sheet))
            Assert.Equal(HttpStatusCode.UnprocessableEntity, nothing.StatusCode);
        sheet["seal-ring"] = "yes";
        sheet["f.amount"] = "a splash";
        sheet["u.amount"] = "mL";
        sheet["f.oil-type"] = "PAG 46";
        using (var splash = await client.SendAsync("/jobs/1/mend", sheet))
        {
            Assert.Equal(HttpStatusCode.UnprocessableEntity, splash.StatusCode);
            var page = await splash.Content.ReadAsStringAsync(Cancellation);
            Assert.Contains("a splash", page, StringComparison.Ordinal);
        }
        Assert.Equal(before, (await site.Desk.RecordAsync(1, Cancellation))!.Journal.All.Length);
    }

    [Fact]
    public async Task The_tick_beside_a_spot_writes_nothing_found_there_whichever_spot_was_chosen_before()
    {
        await using var site = await RunningSite.WithDemoUntilAsync(TimeSpan.FromMinutes(48));
        using var client = site.Client();
        var look = await client.HiddenOfAsync("/jobs/1/search");
        look["f.spot"] = "evaporator";
        look["f.test"] = "UV lamp";
        look["nothing-at"] = "condenser";
        (await client.SendAsync("/jobs/1/entries/new/leak-check", look)).Dispose();
        var written = (await site.Desk.RecordAsync(1, Cancellation))!.Journal.All[^1];
        Assert.Equal(
            (EntryKinds.LeakCheck, "condenser", "nothing"),
            (written.Kind, written.Fields.Text("spot"), written.Fields.Text("outcome"))
        );
    }

    [Fact]
    public void What_usually_goes_together_names_fields_and_words_that_their_forms_take_and_no_reading()
    {
        foreach (
            var (schema, readings) in new[]
            {
                (Jobs.Kits.Kit.Schema, Array.Empty<string>()),
                (Jobs.Kits.Container.Schema, ["tare", "gross-now"]),
                (
                    EntryKinds.Get(EntryKinds.RunningReading),
                    ["low-side", "high-side", "vent-temperature", "suction-line-temperature", "liquid-line-temperature"]
                ),
                (
                    EntryKinds.Get(EntryKinds.VentReading),
                    ["vent-temperature", "cabin-temperature", "ambient-temperature", "relative-humidity"]
                ),
            }
        )
        {
            var usual = Presets.Of(schema);
            Assert.NotEmpty(usual);
            foreach (var preset in usual)
            {
                Assert.Empty(preset.Sets.Select(set => set.Field).Intersect(readings));
                var (bag, problems) = App.Desk.FieldReader.Read(
                    schema,
                    preset.Sets.ToDictionary(set => set.Field, set => set.Text),
                    System.Globalization.CultureInfo.InvariantCulture
                );
                Assert.All(preset.Sets, set => Assert.NotNull(bag[set.Field]));
                Assert.DoesNotContain(problems, problem => preset.Sets.Any(set => set.Field == problem.Field));
            }
        }
    }
}
