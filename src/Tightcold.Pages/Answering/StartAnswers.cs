using System.Globalization;
using Tightcold.App.Desk;
using Tightcold.Jobs.Fields;
using Tightcold.Pages.Asked;
using Tightcold.Pages.Shown;
using Tightcold.Quantities;

namespace Tightcold.Pages.Answering;

/// <summary>The start: what waits for what; and a job from elsewhere.</summary>
internal sealed class StartAnswers(JobDesk desk, FindingSource findings)
{
    public IEnumerable<PageRow> Rows =>
        [
            PageRow.Shows(Routes.Start, StartAsync),
            PageRow.Shows(Routes.Import, _ => Task.FromResult(Answer.Show<ImportPage>())),
            PageRow.Takes(Routes.Import, ImportAsync),
            PageRow.Shows(Routes.Everything, EverythingAsync),
        ];

    private async Task<Answer> StartAsync(Ask ask)
    {
        var version = await desk.VersionAsync(ask.Cancellation).ConfigureAwait(false);
        var model = await StartModel
            .OfAsync(
                desk,
                job => findings.AtAGlanceAsync(desk, job, version, ask.Cancellation),
                ask.Now,
                ask.Cancellation
            )
            .ConfigureAwait(false);
        return Answer.Show<StartPage>((nameof(StartPage.Model), model), (nameof(StartPage.Version), Number(version)));
    }

    /// <summary>All jobs in one file, as a copy and to be taken in elsewhere.</summary>
    private async Task<Answer> EverythingAsync(Ask ask)
    {
        var version = await desk.VersionAsync(ask.Cancellation).ConfigureAwait(false);
        return new Answer.Pours(
            desk.ExportAllAsync(ask.Cancellation),
            "application/json",
            $"tightcold-{ask.Visit.Reader.Local(ask.Now).ToString("yyyy-MM-dd", CultureInfo.InvariantCulture)}.json",
            Number(version)
        );
    }

    private static string Number(long version) => version.ToString(CultureInfo.InvariantCulture);

    private async Task<Answer> ImportAsync(Ask ask)
    {
        if (!ask.Files.TryGetValue("file", out var file))
            return Refused([new("file", "", Phrase.Words("choose a file of jobs"))]);
        using var reader = new StreamReader(new MemoryStream(file));
        var outcome = await desk.ImportAllAsync(
                await reader.ReadToEndAsync(ask.Cancellation).ConfigureAwait(false),
                ask.Cancellation
            )
            .ConfigureAwait(false);
        if (!outcome.Taken)
            return Refused(outcome.Problems);
        if (!outcome.Value.LeftOut.IsEmpty)
            return Answer.Refuse<ImportPage>((nameof(ImportPage.LeftOut), outcome.Value.LeftOut));
        return Answer.Go(outcome.Value.Jobs is [var only] ? Routes.Job(only) : Routes.Start);
    }

    private static Answer Refused(IReadOnlyList<InputProblem> problems) =>
        Answer.Refuse<ImportPage>((nameof(ImportPage.Problems), problems));
}
