using System.Globalization;
using Tightcold.App.Desk;
using Tightcold.Jobs.Exchange;
using Tightcold.Jobs.Fields;
using Tightcold.Pages.Asked;
using Tightcold.Pages.Shown;

namespace Tightcold.Pages.Answering;

/// <summary>What goes from one store to another and comes from there: everything as one file, a tally, what a tally
/// lacks, and jobs taken in. The protocol is docs/exchange.md.</summary>
internal sealed class ExchangeAnswers(JobDesk desk)
{
    /// <summary>Of a file that a script carries from one store to the other: far below what a request may hold, and
    /// what a phone has room for in memory several times.</summary>
    private const long LettersAtOnce = 4_000_000;

    public IEnumerable<PageRow> Rows =>
        [
            PageRow.Shows(Routes.Exchange, _ => Task.FromResult(Answer.Show<ExchangePage>())),
            PageRow.Shows(Routes.Tally, TallyAsync),
            PageRow.Takes(Routes.Lacking, LackingAsync),
            PageRow.Shows(Routes.Everything, EverythingAsync),
            PageRow.Shows(Routes.Import, _ => Task.FromResult(Answer.Show<ImportPage>())),
            PageRow.Takes(Routes.Import, ImportAsync),
        ];

    /// <summary>All that is here in one file, as a copy and to be taken in elsewhere.</summary>
    private async Task<Answer> EverythingAsync(Ask ask)
    {
        var version = await desk.VersionAsync(ask.Cancellation).ConfigureAwait(false);
        return new Answer.Pours(
            desk.ExportAllAsync(ask.Cancellation),
            "application/json",
            Named(ask, ""),
            version.ToString(CultureInfo.InvariantCulture)
        );
    }

    private Task<Answer> TallyAsync(Ask ask) =>
        Task.FromResult<Answer>(
            new Answer.Pours(desk.TallyAsync(ask.Cancellation), "application/json", Named(ask, "tally-"))
        );

    /// <summary>What the holder of a tally lacks; in parts where a script asks, which comes again for the
    /// next.</summary>
    private async Task<Answer> LackingAsync(Ask ask)
    {
        if (!ask.Files.TryGetValue("file", out var file))
            return Refused([InputProblem.Of("file", "", $"choose a tally, as the other store gives it")]);
        var (tally, problems) = TallyDocument.Read(await TextAsync(file, ask).ConfigureAwait(false));
        if (tally is null)
            return Refused(problems);
        var most = ask.Field("parts").Length > 0 ? LettersAtOnce : long.MaxValue;
        return new Answer.Pours(
            desk.ExportAllAsync(tally, most, ask.Cancellation),
            "application/json",
            Named(ask, "lacking-")
        );
    }

    private async Task<Answer> ImportAsync(Ask ask)
    {
        if (!ask.Files.TryGetValue("file", out var file))
            return NotTaken([InputProblem.Of("file", "", $"choose a file of jobs")]);
        var outcome = await desk.ImportAllAsync(await TextAsync(file, ask).ConfigureAwait(false), ask.Cancellation)
            .ConfigureAwait(false);
        if (!outcome.Taken)
            return NotTaken(outcome.Problems);
        if (!outcome.Value.LeftOut.IsEmpty)
            return Answer.Refuse<ImportPage>((nameof(ImportPage.LeftOut), outcome.Value.LeftOut));
        return Answer.Go(outcome.Value.Jobs is [var only] ? Routes.Job(only) : Routes.Start);
    }

    private static async Task<string> TextAsync(byte[] file, Ask ask)
    {
        using var reader = new StreamReader(new MemoryStream(file));
        return await reader.ReadToEndAsync(ask.Cancellation).ConfigureAwait(false);
    }

    private static string Named(Ask ask, string what) =>
        $"tightcold-{what}{ask.Visit.Reader.Local(ask.Now).ToString("yyyy-MM-dd", CultureInfo.InvariantCulture)}.json";

    private static Answer Refused(IReadOnlyList<InputProblem> problems) =>
        Answer.Refuse<ExchangePage>((nameof(ExchangePage.Problems), problems));

    private static Answer NotTaken(IReadOnlyList<InputProblem> problems) =>
        Answer.Refuse<ImportPage>((nameof(ImportPage.Problems), problems));
}
