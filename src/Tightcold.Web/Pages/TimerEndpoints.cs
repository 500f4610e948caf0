using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Routing;
using Tightcold.App.Desk;
using Tightcold.Web.Http;

namespace Tightcold.Web.Pages;

/// <summary>The page of running timers: a script of its own counts and sounds. Without it the page
/// still says until when.</summary>
internal static class TimerEndpoints
{
    public const string Script = "/timers.js";

    public static void MapTimers(this IEndpointRouteBuilder site)
    {
        site.MapGet(Script, () => Results.Text(ScriptText(), "text/javascript; charset=utf-8"));
        site.MapGet(
            "/jobs/{number:int}/timers",
            async (HttpContext http, JobDesk desk, int number, CancellationToken cancellation) =>
            {
                if (await desk.RecordAsync(number, cancellation).ConfigureAwait(false) is not { } record)
                    return Results.NotFound();
                return Page.Show<TimersPage>(http, (nameof(TimersPage.Record), record));
            }
        );
    }

    private static string ScriptText()
    {
        using var stream = typeof(TimerEndpoints).Assembly.GetManifestResourceStream("scripts/timers.js")
            ?? throw new InvalidOperationException("the script is not embedded");
        using var reader = new StreamReader(stream);
        return reader.ReadToEnd();
    }
}
