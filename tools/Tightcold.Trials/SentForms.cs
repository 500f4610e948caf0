using System.Net;
using System.Text.RegularExpressions;

namespace Tightcold.Trials;

/// <summary>Forms of the site, sent without a browser: what the page offers as hidden fields goes back with them.</summary>
internal static partial class SentForms
{
    public static async Task<Dictionary<string, string>> FormAsync(this HttpClient client, string address)
    {
        var html = await client.GetStringAsync(new Uri(address, UriKind.Relative)).ConfigureAwait(false);
        return Hidden()
            .Matches(html[html.IndexOf("<main", StringComparison.Ordinal)..])
            .DistinctBy(field => field.Groups["name"].Value)
            .ToDictionary(
                field => field.Groups["name"].Value,
                field => WebUtility.HtmlDecode(field.Groups["value"].Value)
            );
    }

    public static async Task<HttpStatusCode> SendAsync(
        this HttpClient client,
        string address,
        IReadOnlyDictionary<string, string> fields
    )
    {
        using var content = new FormUrlEncodedContent(fields);
        using var answer = await client.PostAsync(new Uri(address, UriKind.Relative), content).ConfigureAwait(false);
        return answer.StatusCode;
    }

    [GeneratedRegex("<input type=\"hidden\" name=\"(?<name>[^\"]+)\" value=\"(?<value>[^\"]*)\"")]
    private static partial Regex Hidden();
}
