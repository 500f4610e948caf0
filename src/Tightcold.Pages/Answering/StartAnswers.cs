using System.Globalization;
using Tightcold.App.Desk;
using Tightcold.Pages.Asked;
using Tightcold.Pages.Shown;

namespace Tightcold.Pages.Answering;

/// <summary>The start: what waits for what.</summary>
internal sealed class StartAnswers(JobDesk desk, FindingSource findings)
{
    public IEnumerable<PageRow> Rows => [PageRow.Shows(Routes.Start, StartAsync)];

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
        return Answer.Show<StartPage>(
            (nameof(StartPage.Model), model),
            (nameof(StartPage.Version), version.ToString(CultureInfo.InvariantCulture))
        );
    }
}
