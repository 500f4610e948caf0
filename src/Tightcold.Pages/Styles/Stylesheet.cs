using System.Globalization;
using System.Security.Cryptography;
using System.Text;
using System.Text.RegularExpressions;

namespace Tightcold.Pages.Styles;

/// <summary>A style sheet carried inside the program, under an address that changes with its content, so that a
/// phone keeps it until it really is another one.</summary>
public sealed partial class Stylesheet
{
    /// <summary>What browsers take for letters unless a person told them another size.</summary>
    private const double UsualPx = 16;

    public static readonly Stylesheet Look = Load("look.css", "walk.css");
    public static readonly Stylesheet Card = Load("card.css");

    private Stylesheet(string name, string text)
    {
        // The card is paper: its letters are as large as they stand there.
        Text = text = name == "card.css" ? text : InRem(text);
        var hash = SHA256.HashData(Encoding.UTF8.GetBytes(text));
        Hash = Convert.ToBase64String(hash);
        Address = $"/{Path.GetFileNameWithoutExtension(name)}.{Convert.ToHexStringLower(hash)[..12]}.css";
    }

    public string Text { get; }

    /// <summary>SHA-256 of the text in base64, as a content security policy names it.</summary>
    public string Hash { get; }

    /// <summary>Where the site serves it.</summary>
    public string Address { get; }

    /// <summary>Sizes of letters stand in the files as they look at the usual size, and travel so that they grow with
    /// the size a person set.</summary>
    private static string InRem(string text) =>
        LetterSize()
            .Replace(text, match =>
                string.Create(
                    CultureInfo.InvariantCulture,
                    $"{match.Groups[1].Value}{double.Parse(match.Groups[2].Value, CultureInfo.InvariantCulture) / UsualPx:0.####}rem"
                )
            );

    [GeneratedRegex(@"(\bfont(?:-size)?: )([0-9]+)px")]
    private static partial Regex LetterSize();

    /// <summary>Several files travel as one, under the first one's name.</summary>
    private static Stylesheet Load(params ReadOnlySpan<string> names)
    {
        var text = "";
        foreach (var name in names)
            text += Read(name);
        return new(names[0], text);
    }

    private static string Read(string name)
    {
        using var stream = typeof(Stylesheet).Assembly.GetManifestResourceStream("styles/" + name)
            ?? throw new InvalidOperationException($"the style sheet {name} is not embedded");
        using var reader = new StreamReader(stream);
        return reader.ReadToEnd().ReplaceLineEndings("\n");
    }
}
