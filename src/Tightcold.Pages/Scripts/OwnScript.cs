using System.Security.Cryptography;
using System.Text;

namespace Tightcold.Pages.Scripts;

/// <summary>A script carried inside the program, under an address that changes with its content. Pages run scripts of
/// this site's own files only; nothing a person typed is ever served as one.</summary>
internal sealed class OwnScript
{
    public static readonly OwnScript Weigh = new("weigh.js");

    /// <summary>On forms: the mark that moves, words to tap, the next box by Enter.</summary>
    public static readonly OwnScript Form = new("form.js");

    /// <summary>On the search: a tap on the map chooses the spot.</summary>
    public static readonly OwnScript Search = new("search.js");

    /// <summary>On a job's page: what another device wrote.</summary>
    public static readonly OwnScript Live = new("live.js");

    /// <summary>On every page: the queue for what could not be sent.</summary>
    public static readonly OwnScript Beside = new("beside.js");

    /// <summary>Where somebody switched it on: numbers spoken, findings read out.</summary>
    public static readonly OwnScript Voice = new("voice.js");

    /// <summary>On the card: the phone's own sharing.</summary>
    public static readonly OwnScript Share = new("share.js");

    /// <summary>In the phone, on the page of the exchange: with the laptop directly.</summary>
    public static readonly OwnScript Exchange = new("exchange.js");

    /// <summary>On an entry's page: shrinks a photo before it is sent.</summary>
    public static readonly OwnScript Photo = new("photo.js");

    /// <summary>What keeps pages in the browser for a time without network; under a fixed address, as a browser asks
    /// for it.</summary>
    public static readonly OwnScript Worker = new("worker.js", "/worker.js");

    private OwnScript(string name, string? address = null)
    {
        using var stream = typeof(OwnScript).Assembly.GetManifestResourceStream("scripts/" + name)
            ?? throw new InvalidOperationException($"the script {name} is not embedded");
        using var reader = new StreamReader(stream);
        Text = reader.ReadToEnd().ReplaceLineEndings("\n");
        Address = address
            ?? $"/{Path.GetFileNameWithoutExtension(name)}.{Convert.ToHexStringLower(SHA256.HashData(Encoding.UTF8.GetBytes(Text)))[..12]}.js";
    }

    public string Text { get; }
    public string Address { get; }

    /// <summary>Those that pages name.</summary>
    public static IEnumerable<OwnScript> OfPages => [Weigh, Beside, Live, Form, Search, Voice, Share, Photo, Exchange];
}
