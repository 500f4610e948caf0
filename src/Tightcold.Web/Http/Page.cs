using Microsoft.AspNetCore.Components;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Http.HttpResults;

namespace Tightcold.Web.Http;

/// <summary>A page as the answer to a request.</summary>
internal static class Page
{
    /// <summary>The page with its parameters and the visit.</summary>
    public static IResult Show<TPage>(
        HttpContext http,
        int status,
        params ReadOnlySpan<(string Name, object? Value)> parameters
    )
        where TPage : IComponent
    {
        var all = new Dictionary<string, object?> { ["Visit"] = Visit.Of(http) };
        foreach (var (name, value) in parameters)
            all[name] = value;
        return new RazorComponentResult<TPage>(all) { StatusCode = status, PreventStreamingRendering = true };
    }

    public static IResult Show<TPage>(HttpContext http, params ReadOnlySpan<(string Name, object? Value)> parameters)
        where TPage : IComponent => Show<TPage>(http, StatusCodes.Status200OK, parameters);

    /// <summary>After something was written: go and look at it, so that a reload sends nothing twice.</summary>
    public static IResult Go(string address) => Results.LocalRedirect(address);
}
