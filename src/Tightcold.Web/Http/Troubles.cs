using System.Globalization;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Http.HttpResults;
using Microsoft.Extensions.DependencyInjection;
using Microsoft.Extensions.Logging;
using Tightcold.Jobs.Journals;
using Tightcold.Pages.Asked;
using Tightcold.Pages.Shown;
using Tightcold.Storage;

namespace Tightcold.Web.Http;

/// <summary>Whatever goes wrong ends in a page of our words: what, what was kept, and how to go on.</summary>
internal static partial class Troubles
{
    /// <summary>After so many seconds the same may be asked again.</summary>
    private const int SoonSeconds = 5;

    public static void UseTroubles(this IApplicationBuilder site)
    {
        var log = site
            .ApplicationServices.GetRequiredService<ILoggerFactory>()
            .CreateLogger(typeof(Troubles).FullName!);
        site.Use(
            async (http, next) =>
            {
                var store = StoreTrouble.Other;
                try
                {
                    await next(http).ConfigureAwait(false);
                }
                catch (OperationCanceledException) when (http.RequestAborted.IsCancellationRequested)
                {
                    return;
                }
                catch (BadHttpRequestException refused) when (!http.Response.HasStarted)
                {
                    http.Response.StatusCode = refused.StatusCode;
                }
#pragma warning disable CA1031 // The last wall: a person gets a page, the log gets the exception.
                catch (Exception trouble) when (!http.Response.HasStarted)
#pragma warning restore CA1031
                {
                    Failed(log, http.Request.Path, trouble);
                    store = Kind(trouble);
                    http.Response.StatusCode = Status(store);
                    if (http.Response.StatusCode == StatusCodes.Status503ServiceUnavailable)
                        http.Response.Headers.RetryAfter = SoonSeconds.ToString(CultureInfo.InvariantCulture);
                }
                if (http.Response is { HasStarted: false, StatusCode: >= 400, ContentType: null, ContentLength: null })
                    await new RazorComponentResult<TroublePage>(
                        new Dictionary<string, object?>
                        {
                            [nameof(TroublePage.Visit)] = Visits.Of(http),
                            [nameof(TroublePage.Status)] = http.Response.StatusCode,
                            [nameof(TroublePage.Store)] = store,
                            // A form that was refused as such is not handed back: it is no form of ours.
                            [nameof(TroublePage.Sent)] =
                                http.Response.StatusCode < 500 ? null : await SentAsync(http).ConfigureAwait(false),
                        }
                    )
                    {
                        StatusCode = http.Response.StatusCode,
                        PreventStreamingRendering = true,
                    }
                        .ExecuteAsync(http)
                        .ConfigureAwait(false);
            }
        );
    }

    /// <summary>What a person typed, as far as it can still be read: a body that came in half is none.</summary>
    private static async Task<SentForm?> SentAsync(HttpContext http)
    {
        try
        {
            return await SentForms.OfAsync(http).ConfigureAwait(false);
        }
        catch (Exception trouble) when (trouble is IOException or InvalidDataException or BadHttpRequestException)
        {
            return null;
        }
    }

    /// <summary>What the data have; a file beside them that finds no room is the same full disk.</summary>
    private static StoreTrouble Kind(Exception trouble)
    {
        for (var link = trouble; link is not null; link = link.InnerException)
            if (link is StoreException store)
                return store.Trouble;
            else if (link is IOException io && DiskFull.Is(io))
                return StoreTrouble.Full;
        return StoreTrouble.Other;
    }

    private static int Status(StoreTrouble trouble) =>
        trouble switch
        {
            StoreTrouble.Busy or StoreTrouble.Stopped => StatusCodes.Status503ServiceUnavailable,
            StoreTrouble.Full => StatusCodes.Status507InsufficientStorage,
            _ => StatusCodes.Status500InternalServerError,
        };

    [LoggerMessage(Level = LogLevel.Error, Message = "{Path} failed")]
    private static partial void Failed(ILogger log, string path, Exception trouble);
}
