using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Http.HttpResults;
using Microsoft.Extensions.Primitives;
using Tightcold.Web.Asked;

namespace Tightcold.Web.Http;

/// <summary>Between the server and handlers that know none: a request becomes an <see cref="Ask"/>, an
/// <see cref="Answer"/> becomes a response.</summary>
internal static class Answers
{
    public static async Task<IResult> OfAsync(HttpContext http, Func<Ask, Task<Answer>> handler)
    {
        var sent = HttpMethods.IsPost(http.Request.Method)
            ? Flat(await http.Request.ReadFormAsync(http.RequestAborted).ConfigureAwait(false))
            : [];
        var ask = new Ask(Visit.Of(http), Flat(http.Request.Query), sent, http.RequestAborted);
        return await handler(ask).ConfigureAwait(false) switch
        {
            Answer.Shows page => Shown(ask.Visit, page),
            Answer.Goes goes => Page.Go(goes.Address),
            Answer.Tells tells => Results.Json(tells.Value),
            _ => Results.NotFound(),
        };
    }

    private static RazorComponentResult Shown(Visit visit, Answer.Shows page)
    {
        var all = new Dictionary<string, object?> { ["Visit"] = visit };
        foreach (var (name, value) in page.Parameters)
            all[name] = value;
        return new(page.Page, all)
        {
            StatusCode = page.Refused ? StatusCodes.Status422UnprocessableEntity : StatusCodes.Status200OK,
            PreventStreamingRendering = true,
        };
    }

    private static Dictionary<string, string> Flat(IEnumerable<KeyValuePair<string, StringValues>> pairs) =>
        pairs.ToDictionary(pair => pair.Key, pair => pair.Value.ToString(), StringComparer.Ordinal);
}
