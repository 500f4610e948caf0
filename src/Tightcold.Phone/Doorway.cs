using System.Runtime.InteropServices.JavaScript;
using System.Text.Json;
using System.Text.Json.Nodes;
using Tightcold.App.Desk;
using Tightcold.LogStore;
using Tightcold.Pages.Hosted;
using Tightcold.Quantities;

namespace Tightcold.Phone;

/// <summary>What the worker's script calls: open the journal, answer a request.</summary>
internal static partial class Doorway
{
    private static PageHost? host;
    private static JobLog? log;
    private static Beside? copy;

    /// <summary>Opens the journal in the browser's storage.</summary>
    /// <param name="home">Where these pages are served from: a site, or a folder of one.</param>
    /// <returns>What the person should know of it, a line each; empty when all is well.</returns>
    [JSExport]
    internal static string Open(string home)
    {
        Begin(new PhoneDisk(), home, weighs: false);
        var sentences = log!.Damages.Select(damage => damage.Says).Prepend(log.TornSays).OfType<Phrase>();
        return string.Join('\n', sentences.Select(Host.Said));
    }

    /// <summary>Opens a copy of the journal, to weigh what takes long beside the worker that holds it.</summary>
    /// <param name="home">Where these pages are served from: a site, or a folder of one.</param>
    /// <param name="journal">All bytes of its file.</param>
    [JSExport]
    internal static void OpenBeside(string home, byte[] journal)
    {
        copy = new();
        copy.Grow(journal);
        Begin(copy, home, weighs: true);
    }

    /// <summary>What the holder of the journal added to it.</summary>
    [JSExport]
    internal static void Follow(byte[] added)
    {
        copy!.Grow(added);
        log!.CatchUp();
    }

    private static void Begin(IGrowingFile file, string home, bool weighs)
    {
        log = JobLog.Open(file);
        host = new(log, TimeProvider.System, new RandomIds(), new PhoneMemory(), new(home), weighs);
    }

    /// <param name="request">As JSON: <c>sent</c>, <c>address</c>, <c>fields</c> (pairs), <c>kept</c>, <c>has</c>, and of
    /// a file <c>field</c> and <c>name</c>.</param>
    /// <param name="file">The bytes of the one file that a form of ours carries; empty without.</param>
    /// <returns>As JSON: <c>status</c>, <c>headers</c>, and <c>body</c> in base64.</returns>
    [JSExport]
    internal static async Task<string> AnswerAsync(string request, byte[] file) =>
        Told(await Host.AnswerAsync(Asked(request, file)).ConfigureAwait(false));

    /// <summary>The answer to a request whose entry was taken, and then found no room on the disk.</summary>
    /// <param name="request">As above.</param>
    /// <param name="file">As above.</param>
    /// <returns>As above: a page that says so, with the form.</returns>
    [JSExport]
    internal static async Task<string> FullAsync(string request, byte[] file) =>
        Told(await Host.FullAsync(Asked(request, file)).ConfigureAwait(false));

    private static PageHost Host => host ?? throw new InvalidOperationException("the journal is not open");

    private static HostedAsk Asked(string request, byte[] file)
    {
        using var parsed = JsonDocument.Parse(request);
        var root = parsed.RootElement;
        string? Text(string name) =>
            root.TryGetProperty(name, out var value) && value.ValueKind == JsonValueKind.String
                ? value.GetString()
                : null;
        return new HostedAsk(
            root.GetProperty("sent").GetBoolean(),
            Text("address") ?? "/",
            [
                .. root.GetProperty("fields")
                    .EnumerateArray()
                    .Select(field => (field[0].GetString() ?? "", field[1].GetString() ?? "")),
            ]
        )
        {
            IsKept = root.GetProperty("kept").GetBoolean(),
            Has = Text("has"),
            Files = Text("field") is { } name
                ? new Dictionary<string, (string, byte[])> { [name] = (Text("name") ?? "", file) }
                : new Dictionary<string, (string, byte[])>(),
        };
    }

    private static string Told(HostedAnswer answer)
    {
        var headers = new JsonObject();
        foreach (var (header, value) in answer.Headers)
            headers[header] = value;
        return new JsonObject
        {
            ["status"] = answer.Status,
            ["headers"] = headers,
            ["body"] = Convert.ToBase64String(answer.Body.Span),
        }.ToJsonString();
    }
}
