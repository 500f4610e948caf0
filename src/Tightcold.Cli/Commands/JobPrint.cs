using System.Text.Json.Nodes;
using Tightcold.Cli.Show;
using Tightcold.Cli.Wiring;
using Tightcold.Jobs.Photos;
using Tightcold.Pages.Card;
using Tightcold.Picture;
using Tightcold.Tongues;

namespace Tightcold.Cli.Commands;

/// <summary>Writes the job card: one HTML page to be printed or kept.</summary>
internal sealed class JobPrint(Surroundings surroundings) : DeskCommand<JobPrintSettings>(surroundings)
{
    protected override async Task<int> RunAsync(JobPrintSettings settings, CancellationToken cancellation)
    {
        var record = await RecordAsync(settings.Number, cancellation).ConfigureAwait(false);
        var views = await Desk.PictureAsync(record, cancellation).ConfigureAwait(false);
        var path = settings.To
            ?? string.Create(System.Globalization.CultureInfo.InvariantCulture, $"job-{settings.Number}.html");
        if (path.EndsWith(".pdf", StringComparison.OrdinalIgnoreCase))
            await PdfAsync(views, path, settings.Paper ?? "A4", cancellation).ConfigureAwait(false);
        else
            await WriteAsync(
                    views,
                    path,
                    Units,
                    Surroundings.Clock,
                    cancellation,
                    await Desk.PhotosAsync(views.Record, cancellation).ConfigureAwait(false)
                )
                .ConfigureAwait(false);
        return Answer(
            settings,
            () => new JsonObject { ["card"] = path },
            () => Page.Line(Out, Say.It($"card of job {settings.Number} written to {path}"))
        );
    }

    /// <summary>By way of the HTML page, which an installed browser prints.</summary>
    private async Task PdfAsync(JobPicture views, string path, string paper, CancellationToken cancellation)
    {
        if (paper is not ("A4" or "Letter"))
            throw new RefusedException("paper", paper, "A4 or Letter is allowed");
        if (BrowserPdf.Find() is not { } browser)
            throw new RefusedException(
                "to",
                path,
                "a PDF is printed by a browser, and none was found on this machine; write the card as .html and print "
                    + "it from any browser"
            );
        var card = await CardPage
            .RenderAsync(
                views,
                Units,
                Surroundings.Clock.GetLocalNow(),
                cancellation,
                await Desk.PhotosAsync(views.Record, cancellation).ConfigureAwait(false)
            )
            .ConfigureAwait(false);
        if (await BrowserPdf.PrintAsync(browser, card, paper, path, cancellation).ConfigureAwait(false) is { } trouble)
            throw new RefusedException(
                "to",
                path,
                $"the browser found here could not print it ({trouble}); write the card as .html and print it from "
                    + $"any browser"
            );
    }

    public static async Task WriteAsync(
        JobPicture views,
        string path,
        App.Units.ReaderUnits units,
        TimeProvider clock,
        CancellationToken cancellation,
        IReadOnlyList<Photo>? photos = null
    )
    {
        var card = await CardPage
            .RenderAsync(views, units, clock.GetLocalNow(), cancellation, photos)
            .ConfigureAwait(false);
        await Files.WriteAsync("--to", path, card, cancellation).ConfigureAwait(false);
    }
}
