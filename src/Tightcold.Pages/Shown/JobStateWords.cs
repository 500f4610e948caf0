using Tightcold.Jobs.Journals;
using Tightcold.Quantities;
using Tightcold.Tongues;

namespace Tightcold.Pages.Shown;

/// <summary>How a job stands, on its line in a list.</summary>
internal static class JobStateWords
{
    private const string Place = "a job is";

    [Said(Place)]
    private const string Open = "Open",
        Closed = "Closed";

    public static string Of(JobSummary job, IMeasureFormat units) =>
        job.State switch
        {
            "waiting" => job.WaitingFor is { } reason
                ? Say.It($"Waits for {JobRecord.Waits(reason).Render(units)}")
                : Say.It("Waits for something"),
            "closed" => Say.It(Closed, Place),
            _ => Say.It(Open, Place),
        };
}
