using Tightcold.App.Desk;
using Tightcold.Pages.Asked;
using Tightcold.Pages.Forms;
using Tightcold.Pages.Shown;

namespace Tightcold.Pages.Answering;

/// <summary>The live weigh-in: what is to go, where to stop, and the form of the next reading. What is written goes
/// through the forms of its entries, which ask and refuse as everywhere.</summary>
internal sealed class WeighAnswers(JobDesk desk, IIdSource ids)
{
    private const string Here = "/jobs/{number:int}/weigh-in";

    public IEnumerable<PageRow> Rows =>
        [
            PageRow.Shows(Here, ask => ShowAsync(ask.Number, ask)),
            // Only a switch of units is sent here.
            PageRow.Takes(Here, ask => ShowAsync(ask.Number, ask)),
        ];

    public async Task<Answer> ShowAsync(int number, Ask ask)
    {
        if (await desk.RecordAsync(number, ask.Cancellation).ConfigureAwait(false) is not { } record)
            return new Answer.NotHere();
        var picture = await desk.PictureAsync(record, ask.Cancellation).ConfigureAwait(false);
        // A switch of units brings along what was typed.
        var gross = ask.Field(Typed.NumberName("gross"));
        var typed =
            ask.Field(Typed.UnitName("gross")) is { Length: > 0 } unit && gross.Length > 0
                ? UnitOptions.Rewrite(WeighModel.Gross, $"{gross} {unit}", ask.Visit.System)
                : null;
        return Answer.Show<WeighPage>(
            (
                nameof(WeighPage.Model),
                new WeighModel(
                    picture,
                    ids.NextId(ask.Visit.Reader.Now),
                    ask.Word("can") ?? (ask.Field(Typed.NumberName("container")) is { Length: > 0 } sent ? sent : null),
                    typed ?? (gross, ""),
                    ask.Id("wrote") is { } wrote ? record.Journal.Find(wrote) : null
                )
            )
        );
    }
}
