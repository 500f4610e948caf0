using System.Collections.Immutable;
using Tightcold.App.Desk;

namespace Tightcold.Pages.Answering;

/// <summary>Every page and every form of the site, whatever hosts them: a server beside the car, or the phone
/// itself.</summary>
public sealed class PageTable
{
    /// <param name="desk">What a person can do.</param>
    /// <param name="findings">What is known of a job.</param>
    /// <param name="books">The ledger.</param>
    /// <param name="ids">Ids of what will be written down.</param>
    /// <param name="reach">Where a code on a label leads.</param>
    internal PageTable(
        JobDesk desk,
        FindingSource findings,
        LedgerBooks books,
        IIdSource ids,
        Func<LabelReach> reach
    ) =>
        Rows = [
            .. ChoiceAnswers.Rows,
            .. new StartAnswers(desk, findings).Rows,
            .. new CarAnswers(desk, findings, ids).Rows,
            .. new CircuitAnswers(desk).Rows,
            .. new LabelAnswers(desk, reach).Rows,
            .. new KitAnswers(desk).Rows,
            .. new JobAnswers(desk, findings).Rows,
            .. new SearchAnswers(desk, findings, ids).Rows,
            .. new EntryAnswers(desk, findings, ids).Rows,
            .. new StrikeAnswers(desk, ids).Rows,
            .. new PhotoAnswers(desk).Rows,
            .. new CardAnswers(desk, findings).Rows,
            .. new TimerAnswers(desk, findings).Rows,
            .. new ExpectAnswers(desk).Rows,
            .. new WeighAnswers(desk, ids).Rows,
            .. new MendAnswers(desk, findings, ids).Rows,
            .. new DecideAnswers(desk, findings).Rows,
            .. new GaugeLogAnswers(desk, ids).Rows,
            .. new BooksAnswers(desk, books).Rows,
            .. new ListAnswers(desk).Rows,
            .. new ExchangeAnswers(desk).Rows,
        ];

    public ImmutableArray<PageRow> Rows { get; }

    /// <summary>The row that a path means, with the named parts of the path; null where there is none.</summary>
    public (PageRow Row, IReadOnlyDictionary<string, string> Places)? Find(bool isSent, string path)
    {
        (PageRow Row, IReadOnlyDictionary<string, string> Places)? best = null;
        foreach (var row in Rows)
            if (
                row.IsSent == isSent
                && (best is null || row.Fixed > best.Value.Row.Fixed)
                && row.Fit(path) is { } places
            )
                best = (row, places);
        return best;
    }
}
