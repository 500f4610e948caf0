using Tightcold.Pages.Styles;

namespace Tightcold.Pages.Files;

/// <summary>What a browser may do with our pages (Content Security Policy, W3C): show them with our own style sheet,
/// send forms back to us, and nothing else. No script runs but files of this site, none stands inside a page, nothing
/// is fetched from elsewhere.</summary>
public static class SafePolicy
{
    /// <param name="framedBy">Who may frame them: <c>'none'</c>, or <c>'self'</c> for the phone's own shell.</param>
    public static string OfPages(string framedBy) =>
        "default-src 'none'; style-src 'self'; script-src 'self'; connect-src 'self'; worker-src 'self'; "
        + $"img-src 'self'; manifest-src 'self'; form-action 'self'; base-uri 'none'; frame-ancestors {framedBy}";

    /// <summary>The shell of the program in the phone, which runs WebAssembly and frames its own pages; a page of a plain
    /// web server says the same of itself.</summary>
    public const string OfThePhone =
        "default-src 'none'; style-src 'self'; script-src 'self' 'wasm-unsafe-eval'; connect-src 'self'; "
        + "worker-src 'self'; frame-src 'self'; img-src 'self'; manifest-src 'self'; form-action 'self'; base-uri 'none'";

    /// <summary>The job card carries its styles and photos inside, so that a saved file still prints; the styles are
    /// named by hash. The one script hands the card to the phone's own sharing.</summary>
    /// <param name="framedBy">As above.</param>
    public static string OfTheCard(string framedBy) =>
        $"default-src 'none'; style-src 'sha256-{Stylesheet.Card.Hash}'; script-src 'self'; connect-src 'self'; "
        + $"img-src data:; form-action 'none'; base-uri 'none'; frame-ancestors {framedBy}";
}
