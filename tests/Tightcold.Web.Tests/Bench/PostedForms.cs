using System.Net;
using System.Text.RegularExpressions;

namespace Tightcold.Web.Tests.Bench;

/// <summary>Forms sent without a browser: what the page offers as hidden fields goes back with them.</summary>
public static partial class PostedForms
{
    /// <summary>The hidden fields of the page's own forms, their token included; of the first form where several have
    /// them.</summary>
    public static async Task<Dictionary<string, string>> HiddenOfAsync(this HttpClient client, string path) =>
        HiddenIn(await client.GetStringAsync(new Uri(path, UriKind.Relative), TestContext.Current.CancellationToken));

    /// <summary>The same of a page that is there already.</summary>
    public static Dictionary<string, string> HiddenIn(string html)
    {
        var form = html[html.IndexOf("<main", StringComparison.Ordinal)..];
        return Hidden()
            .Matches(form)
            .DistinctBy(match => match.Groups["name"].Value)
            .ToDictionary(
                match => match.Groups["name"].Value,
                match => WebUtility.HtmlDecode(match.Groups["value"].Value)
            );
    }

    public static Task<HttpResponseMessage> SendAsync(
        this HttpClient client,
        string path,
        IEnumerable<KeyValuePair<string, string>> fields
    ) =>
        client.PostAsync(
            new Uri(path, UriKind.Relative),
            new FormUrlEncodedContent(fields),
            TestContext.Current.CancellationToken
        );

    [GeneratedRegex("<input type=\"hidden\" name=\"(?<name>[^\"]+)\" value=\"(?<value>[^\"]*)\"")]
    private static partial Regex Hidden();
}
