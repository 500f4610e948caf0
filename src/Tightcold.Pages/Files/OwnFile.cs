using System.Collections.Immutable;
using System.Text;
using Tightcold.Pages.Scripts;
using Tightcold.Pages.Styles;

namespace Tightcold.Pages.Files;

/// <summary>A file that pages ask for: a style sheet, a script, an icon. All travel inside the program.</summary>
/// <param name="Address">Where it is served.</param>
/// <param name="MediaType">With its character set where it is text.</param>
/// <param name="Lasts">Its address changes with its content, so that it may be kept for ever; else for a day.</param>
public sealed record OwnFile(string Address, string MediaType, ImmutableArray<byte> Body, bool Lasts)
{
    public const string IconPath = "/icon.svg",
        SmallIconPath = "/icon-192.png",
        LargeIconPath = "/icon-512.png",
        ManifestPath = "/site.webmanifest";

    /// <summary>What pages ask for, whoever hosts them.</summary>
    public static ImmutableArray<OwnFile> All { get; } =
        [
            Text(Stylesheet.Look.Address, "text/css", Stylesheet.Look.Text),
            .. OwnScript.OfPages.Select(script => Text(script.Address, "text/javascript", script.Text)),
            Icon(IconPath, "image/svg+xml"),
            Icon(SmallIconPath, "image/png"),
            Icon(LargeIconPath, "image/png"),
        ];

    private static OwnFile Text(string address, string mediaType, string text) =>
        new(address, mediaType + "; charset=utf-8", [.. Encoding.UTF8.GetBytes(text)], Lasts: true);

    private static OwnFile Icon(string address, string mediaType)
    {
        using var stream = typeof(OwnFile).Assembly.GetManifestResourceStream("icons" + address)
            ?? throw new InvalidOperationException($"the icon {address} is not embedded");
        var bytes = new byte[stream.Length];
        stream.ReadExactly(bytes);
        return new(address, mediaType, [.. bytes], Lasts: false);
    }
}
