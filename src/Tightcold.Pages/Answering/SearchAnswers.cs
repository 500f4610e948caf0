using Tightcold.App.Desk;
using Tightcold.Jobs.Entries;
using Tightcold.Jobs.Fields;
using Tightcold.LeakTests;
using Tightcold.Pages.Asked;
using Tightcold.Pages.Forms;
using Tightcold.Pages.Shown;
using Tightcold.Picture.Circuit;
using Tightcold.Tongues;

namespace Tightcold.Pages.Answering;

/// <summary>The search on the map: tap a spot, tap the outcome, next spot; or all spots at once. What is tapped goes
/// through the forms of its entries.</summary>
internal sealed class SearchAnswers(JobDesk desk, FindingSource findings, IIdSource ids)
{
    public IEnumerable<PageRow> Rows =>
        [
            PageRow.Shows("/jobs/{number:int}/search", ask => OneByOneAsync(ask.Number, ask)),
            PageRow.Shows("/jobs/{number:int}/search/all", ask => AllAtOnceAsync(ask.Number, ask)),
        ];

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
        var known = ask.Word("test") is { } test
            ? Typed.Nothing.With(schema.Find(FieldNames.Test)!, test)
            : Typed.Nothing;
        var sight = await findings.AtAGlanceAsync(desk, record, ask.Cancellation).ConfigureAwait(false);
        // Nitrogen inside asks for soap, whatever was used before; soap under nitrogen is over when it is out.
        var said = known.Number(FieldNames.Test).Length > 0;
        var nitrogen = sight.Picture.Timeline.Now.Inside == Inside.Nitrogen;
        if (!said && nitrogen)
            known = known.With(schema.Find(FieldNames.Test)!, LeakTestKind.NitrogenAndSoap.Key);
        // A look at one spot and a search round all of them are one search.
        else if (!said && record.Journal.Last(kind) is null && record.Journal.Last(EntryKinds.LeakCheck) is { } look)
            known = known.With(schema.Find(FieldNames.Test)!, look.Fields.Text(FieldNames.Test) ?? "");
        var (typed, notes) = CarriedOver.Of(record, schema, ask.Visit, null, known);
        if (!said && nitrogen)
            notes = notes.SetItem("test", Say.It("Taken: nitrogen is inside."));
        else if (
            !said
            && (
                typed.Number(FieldNames.Test) is "" || typed.Number(FieldNames.Test) == LeakTestKind.NitrogenAndSoap.Key
            )
            && sight
                .Findings.Where(finding => finding.Step == Step.LeakSearch)
                .SelectMany(finding => finding.Next)
                .SelectMany(next => next.Known)
                .FirstOrDefault(one => one.Field == "test")
                .Text
                is { } most
        )
        {
            typed = known.With(schema.Find(FieldNames.Test)!, most);
            (typed, notes) = CarriedOver.Of(record, schema, ask.Visit, null, typed);
            notes = notes.SetItem("test", Say.It("Suggested: most for its minutes."));
        }
        var sheet = EntrySheet.Of(ask.Visit, record, schema, typed) with { CarriedOver = notes };
        return new(
            new(sight, ask.Id("wrote") is { } id ? record.Journal.Find(id) : null),
            sheet,
            ids.NextId(ask.Visit.Reader.Now),
            sheet.Spots.FirstOrDefault(name =>
                string.Equals(name, ask.Word("spot"), StringComparison.OrdinalIgnoreCase)
            )
        );
    }
}
