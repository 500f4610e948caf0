using System.Text.RegularExpressions;

namespace Tightcold.Web.Tests.Bench;

/// <summary>Every kind of page that the site links to, one of each, found by following the links: a page that is new
/// is looked at without anybody naming it.</summary>
public static partial class Crawl
{
    /// <summary>Pages to print have their own tests; files are no pages.</summary>
    private static readonly string[] NoPages = ["/card", "/export", ".ics", ".csv", ".css", ".js", ".html", "/health"];

    private const int Deep = 5;

    public static async Task<IReadOnlyList<string>> PagesAsync(HttpClient client, CancellationToken cancellation)
    {
        var seen = new Dictionary<string, string>(StringComparer.Ordinal);
        var edge = new List<string> { "/", "/jobs/1", "/jobs", "/devices", "/cars" };
        foreach (var path in edge)
            seen[Kind(path)] = path;
        for (var depth = 0; depth < Deep && edge.Count > 0; depth++)
        {
            var next = new List<string>();
            foreach (var path in edge)
            {
                using var answer = await client.GetAsync(new Uri(path, UriKind.Relative), cancellation);
                if (!answer.IsSuccessStatusCode || answer.Content.Headers.ContentType?.MediaType != "text/html")
                {
                    seen.Remove(Kind(path));
                    continue;
                }
                var html = await answer.Content.ReadAsStringAsync(cancellation);
                foreach (
                    var to in Link()
                        .Matches(html)
                        .Select(match => System.Net.WebUtility.HtmlDecode(match.Groups[1].Value).Split('#')[0])
                )
                    if (
                        to.StartsWith('/')
                        && !NoPages.Any(end => to.Split('?')[0].EndsWith(end, StringComparison.Ordinal))
                        && !to.Contains("/photos/", StringComparison.Ordinal)
                        && seen.TryAdd(Kind(to), to)
                    )
                        next.Add(to);
            }
            edge = next;
        }
        return [.. seen.Values.Order(StringComparer.Ordinal)];
    }

    /// <summary>The same page of another job, car or entry is the same kind; what a link fills in does not
    /// count.</summary>
    private static string Kind(string path) =>
        Number().Replace(Id().Replace(path.Split('?')[0], "*"), "/*")
        + (path.Contains("step=", StringComparison.Ordinal) ? "?" + path.Split("step=")[1] : "");

    [GeneratedRegex("<a[^>]*? href=\"([^\"]+)\"")]
    private static partial Regex Link();

    [GeneratedRegex("[0-9a-f]{8}-[0-9a-f]{4}-[0-9a-f]{4}-[0-9a-f]{4}-[0-9a-f]{12}")]
    private static partial Regex Id();

    [GeneratedRegex("/[0-9]+(?=/|$)")]
    private static partial Regex Number();
}
