using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Http.HttpResults;
using Microsoft.Extensions.DependencyInjection;
using Microsoft.Extensions.Logging;
using Tightcold.Web.Pages;

namespace Tightcold.Web.Http;

/// <summary>Whatever goes wrong ends in a page of our words: what, and what was kept.</summary>
internal static partial class Troubles
{
    public static void UseTroubles(this IApplicationBuilder site)
    {
        var log = site.ApplicationServices.GetRequiredService<ILoggerFactory>().CreateLogger(typeof(Troubles).FullName!);
        site.Use(async (http, next) =>
        {
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
                http.Response.StatusCode = StatusCodes.Status500InternalServerError;
            }
            if (http.Response is { HasStarted: false, StatusCode: >= 400, ContentType: null, ContentLength: null })
                await new RazorComponentResult<TroublePage>(new Dictionary<string, object?>
                {
                    [nameof(TroublePage.Visit)] = Visit.Of(http),
                    [nameof(TroublePage.Status)] = http.Response.StatusCode,
                })
                { StatusCode = http.Response.StatusCode, PreventStreamingRendering = true }.ExecuteAsync(http).ConfigureAwait(false);
        });
    }

    [LoggerMessage(Level = LogLevel.Error, Message = "{Path} failed")]
    private static partial void Failed(ILogger log, string path, Exception trouble);
}
