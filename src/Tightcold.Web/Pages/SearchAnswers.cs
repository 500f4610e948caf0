using Tightcold.App.Desk;
using Tightcold.Jobs.Entries;
using Tightcold.Web.Asked;
using Tightcold.Web.Forms;

namespace Tightcold.Web.Pages;

/// <summary>The search on the map: tap a spot, tap the outcome, next spot; or all spots at once. What is tapped goes
/// through the forms of its entries.</summary>
internal sealed class SearchAnswers(JobDesk desk, FindingSource findings, IIdSource ids)
{
    public async Task<Answer> OneByOneAsync(int number, Ask ask) =>
        await ModelAsync(number, EntryKinds.LeakCheck, ask).ConfigureAwait(false) is { } model
            ? Answer.Show<SearchPage>((nameof(SearchPage.Model), model))
            : new Answer.NotHere();

    public async Task<Answer> AllAtOnceAsync(int number, Ask ask) =>
        await ModelAsync(number, EntryKinds.LeakSearch, ask).ConfigureAwait(false) is { } model
            ? Answer.Show<SearchAllPage>((nameof(SearchAllPage.Model), model))
            : new Answer.NotHere();

    private async Task<SearchModel?> ModelAsync(int number, string kind, Ask ask)
    {
        if (await desk.RecordAsync(number, ask.Cancellation).ConfigureAwait(false) is not { } record)
            return null;
        var schema = EntryKinds.Get(kind);
        var known = ask.Word("test") is { } test ? Typed.Nothing.With(schema.Find("test")!, test) : Typed.Nothing;
        var (typed, notes) = CarriedOver.Of(record, schema, ask.Visit, null, known);
        var sheet = EntrySheet.Of(ask.Visit, record, schema, typed) with { CarriedOver = notes };
        return new(
            new(
                await findings.AtAGlanceAsync(desk, record, ask.Cancellation).ConfigureAwait(false),
                ask.Id("wrote") is { } id ? record.Journal.Find(id) : null
            ),
            sheet,
            ids.NextId(ask.Visit.Reader.Now),
            sheet.Spots.FirstOrDefault(name =>
                string.Equals(name, ask.Word("spot"), StringComparison.OrdinalIgnoreCase)
            )
        );
    }
}
