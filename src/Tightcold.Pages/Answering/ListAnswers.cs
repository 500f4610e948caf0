using Tightcold.App.Desk;
using Tightcold.Jobs.Journals;
using Tightcold.Pages.Asked;
using Tightcold.Pages.Shown;

namespace Tightcold.Pages.Answering;

/// <summary>The lists of jobs and cars, a part at a time, with their search.</summary>
internal sealed class ListAnswers(JobDesk desk)
{
    private const int Most = 50;
    private static readonly string[] States = ["open", "waiting", "closed"];

    public IEnumerable<PageRow> Rows =>
        [PageRow.Shows(Routes.Jobs, JobsAsync), PageRow.Shows(Routes.Cars, CarsAsync)];

    private async Task<Answer> JobsAsync(Ask ask)
    {
        var state = ask.Word("state");
        var search = new JobSearch
        {
            State = States.Contains(state) ? state : null,
            Words = Shortened(ask.Word("find")),
            Before = ask.Count("before"),
            Most = Most,
        };
        var page = await desk.JobsAsync(search, ask.Cancellation).ConfigureAwait(false);
        return Answer.Show<JobsPage>((nameof(JobsPage.Search), search), (nameof(JobsPage.Page), page));
    }

    private async Task<Answer> CarsAsync(Ask ask)
    {
        var (words, from) = (Shortened(ask.Word("find")), Math.Max(ask.Count("skip") ?? 0, 0));
        var cars = await desk.CarsAsync(words, from, Most + 1, ask.Cancellation).ConfigureAwait(false);
        return Answer.Show<CarsPage>(
            (nameof(CarsPage.Cars), cars.Take(Most).ToList()),
            (nameof(CarsPage.Words), words),
            (nameof(CarsPage.Skip), from),
            (nameof(CarsPage.More), cars.Count > Most)
        );
    }

    private static string Shortened(string? find) =>
        find is null ? ""
        : find.Length > 200 ? find[..200]
        : find.Trim();
}
