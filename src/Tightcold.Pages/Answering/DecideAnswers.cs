using System.Globalization;
using Tightcold.App.Desk;
using Tightcold.Jobs.Fields;
using Tightcold.Jobs.Journals;
using Tightcold.Pages.Asked;
using Tightcold.Pages.Shown;
using Tightcold.Picture.Leaks;
using Tightcold.Tongues;

namespace Tightcold.Pages.Answering;

/// <summary>The ways forward with what each may cost, at the person's own prices, which are kept with the
/// kit.</summary>
internal sealed class DecideAnswers(JobDesk desk, FindingSource findings)
{
    private const string Here = "/jobs/{number:int}/ways";

    public IEnumerable<PageRow> Rows =>
        [
            PageRow.Shows(Here, async ask =>
                await desk.RecordAsync(ask.Number, ask.Cancellation).ConfigureAwait(false) is { } record
                    ? await ShowAsync(ask, record, new Dictionary<string, string>(), []).ConfigureAwait(false)
                    : new Answer.NotHere()
            ),
            PageRow.Takes(Here, SaveAsync),
        ];

    private async Task<Answer> SaveAsync(Ask ask)
    {
        if (await desk.RecordAsync(ask.Number, ask.Cancellation).ConfigureAwait(false) is not { } record)
            return new Answer.NotHere();
        var typed = DecidePage.Fields.ToDictionary(field => field.Name, field => ask.Field(field.Name));
        var kept = new Dictionary<string, string>(typed, StringComparer.Ordinal);
        // The desk keeps a price per kilogram, whatever it was said for, and reads it as this person writes numbers.
        if (
            double.TryParse(
                typed[FieldNames.PriceRefrigerant].Replace(',', '.'),
                NumberStyles.AllowDecimalPoint,
                CultureInfo.InvariantCulture,
                out var price
            ) && PriceSizes.KilogramsOf(ask.Field("size")) is { } size
        )
            kept[FieldNames.PriceRefrigerant] = (price / size).ToString("0.####", Say.Tongue.Culture);
        var outcome = await desk.UpdateKitAsync(kept, cancellation: ask.Cancellation).ConfigureAwait(false);
        return outcome.Taken
            ? Answer.Go(Routes.Decide(record.Job))
            : await ShowAsync(ask, record, typed, outcome.Problems).ConfigureAwait(false);
    }

    private async Task<Answer> ShowAsync(
        Ask ask,
        JobRecord record,
        IReadOnlyDictionary<string, string> typed,
        IReadOnlyList<InputProblem> problems
    )
    {
        var sight = await findings.OfAsync(desk, record, ask.Cancellation).ConfigureAwait(false);
        var kit = await desk.KitAsync(ask.Cancellation).ConfigureAwait(false);
        return Answer.Show<DecidePage>(
            problems.Count > 0,
            (nameof(DecidePage.Record), record),
            (nameof(DecidePage.Ways), WaysForward.Of(sight.Picture.Leaks, kit)),
            (nameof(DecidePage.Kit), kit),
            (nameof(DecidePage.Typed), typed),
            (nameof(DecidePage.Problems), problems)
        );
    }
}
