using System.Collections.Immutable;
using System.Globalization;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Http;
using Microsoft.Extensions.DependencyInjection;
using Microsoft.Extensions.Primitives;

namespace Tightcold.Web.Http;

/// <summary>A form that was sent and could not be kept, to be sent again as it was: under the same id, so that it
/// counts once, and with the time at which it was sent first.</summary>
/// <param name="Action">Where it goes.</param>
/// <param name="Fields">Everything in it but its token, which is made anew.</param>
/// <param name="Files">Names of files that came with it; a page cannot hand those back.</param>
public sealed record SentForm(
    string Action,
    ImmutableArray<(string Name, string Value)> Fields,
    ImmutableArray<string> Files
)
{
    /// <summary>When it was sent first, by this machine's clock.</summary>
    private const string First = "first-sent";

    private const string Ago = "ago";

    /// <summary>What a person typed, as the fields name it, with its unit behind it.</summary>
    public IEnumerable<(string Name, string Value)> Typed =>
        Fields
            .Where(one => one.Name.StartsWith("f.", StringComparison.Ordinal) && one.Value.Length > 0)
            .Select(one => (one.Name[2..].Replace('-', ' '), $"{one.Value} {UnitOf(one.Name[2..])}".Trim()));

    private string? UnitOf(string name) => Fields.FirstOrDefault(one => one.Name == "u." + name).Value;

    /// <summary>The form of a request, which was read already when its token was looked at.</summary>
    public static async Task<SentForm?> OfAsync(HttpContext http)
    {
        if (!HttpMethods.IsPost(http.Request.Method) || !http.Request.HasFormContentType)
            return null;
        var form = await http.Request.ReadFormAsync(http.RequestAborted).ConfigureAwait(false);
        var now = Now(http);
        // How long ago it was is counted on from here, however long the page is looked at.
        var waited = double.TryParse(
            form[Ago],
            NumberStyles.AllowDecimalPoint,
            CultureInfo.InvariantCulture,
            out var seconds
        )
            ? Math.Min(seconds, TimeSpan.FromDays(365).TotalSeconds)
            : 0;
        var first = Read(form[First]) ?? now.AddSeconds(-waited);
        return new(
            http.Request.PathBase + http.Request.Path + http.Request.QueryString,
            [
                .. form.Where(field => field.Key is not ("token" or First or Ago))
                    .SelectMany(field => field.Value.Select(value => (field.Key, value ?? ""))),
                (First, first.ToUnixTimeMilliseconds().ToString(CultureInfo.InvariantCulture)),
            ],
            [.. form.Files.Select(file => file.FileName).Where(name => name.Length > 0)]
        );
    }

    /// <summary>A form that is sent again says when it was sent first; pages are told how long ago that is, as they are
    /// by a browser that kept one without network.</summary>
    public static void UseSentAgain(IApplicationBuilder site) =>
        site.Use(
            async (http, next) =>
            {
                if (HttpMethods.IsPost(http.Request.Method) && http.Request.HasFormContentType)
                {
                    var form = await http.Request.ReadFormAsync(http.RequestAborted).ConfigureAwait(false);
                    if (Read(form[First]) is { } first)
                    {
                        var fields = form.ToDictionary(
                            field => field.Key,
                            field => field.Value,
                            StringComparer.Ordinal
                        );
                        var waited = Math.Max(0, (Now(http) - first).TotalSeconds);
                        fields[Ago] = new StringValues(waited.ToString("0.###", CultureInfo.InvariantCulture));
                        http.Request.Form = new FormCollection(fields, form.Files);
                    }
                }
                await next(http).ConfigureAwait(false);
            }
        );

    private static DateTimeOffset? Read(StringValues text) =>
        long.TryParse(text, NumberStyles.None, CultureInfo.InvariantCulture, out var milliseconds)
        && milliseconds < DateTimeOffset.MaxValue.ToUnixTimeMilliseconds()
            ? DateTimeOffset.FromUnixTimeMilliseconds(milliseconds)
            : null;

    private static DateTimeOffset Now(HttpContext http) =>
        http.RequestServices.GetRequiredService<TimeProvider>().GetUtcNow();
}
