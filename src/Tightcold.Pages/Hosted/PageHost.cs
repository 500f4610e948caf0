using System.Collections.Immutable;
using System.Diagnostics.CodeAnalysis;
using System.Globalization;
using System.Text;
using System.Text.RegularExpressions;
using Microsoft.AspNetCore.Components;
using Microsoft.AspNetCore.Components.Web;
using Microsoft.Extensions.Logging.Abstractions;
using Tightcold.App.Desk;
using Tightcold.App.Units;
using Tightcold.Findings;
using Tightcold.Jobs.Journals;
using Tightcold.Pages.Answering;
using Tightcold.Pages.Asked;
using Tightcold.Pages.Files;
using Tightcold.Pages.Parts;
using Tightcold.Pages.Shown;
using Tightcold.Picture;
using Tightcold.Quantities;
using Tightcold.Tongues;

namespace Tightcold.Pages.Hosted;

/// <summary>Answers requests where there is no server: in the phone itself. The same pages, forms and words as the site
/// beside the car; who asks is the one person that holds the phone.</summary>
public sealed partial class PageHost : IAsyncDisposable
{
    /// <summary>Written to a page that its own shell frames.</summary>
    private const string FramedBy = "'self'";

    /// <summary>A browser keeps what lasts under its address for as long as it likes.</summary>
    private const string ForEver = "private, max-age=31536000, immutable";

    /// <summary>The folder under which all addresses are; empty for a site of its own.</summary>
    private readonly string under;

    private readonly TimeProvider clock;
    private readonly IDeviceMemory memory;
    private readonly PageTable table;
    private readonly FindingSource findings;
    private readonly LedgerBooks books;
    private readonly HtmlRenderer renderer;

    /// <param name="store">Where the journal is.</param>
    /// <param name="clock">Now, and the local time zone.</param>
    /// <param name="ids">Ids of what will be written down.</param>
    /// <param name="memory">The device's choices.</param>
    /// <param name="home">Where the pages are served: a site of their own, or a folder of one.</param>
    /// <param name="weighs">Whether pages of a job wait here until its faults are weighed. False: they come at a glance,
    /// and are asked again until another host has weighed.</param>
    public PageHost(IJobStore store, TimeProvider clock, IIdSource ids, IDeviceMemory memory, Uri home, bool weighs)
        : this(store, clock, ids, memory, home, Walk.Of, weighs ? Timeout.InfiniteTimeSpan : TimeSpan.Zero, weighs) { }

    internal PageHost(
        IJobStore store,
        TimeProvider clock,
        IIdSource ids,
        IDeviceMemory memory,
        Uri home,
        Func<JobPicture, ImmutableArray<Finding>> findings,
        TimeSpan patience,
        bool weighs = true
    )
    {
        (this.clock, this.memory) = (clock, memory);
        under = home.AbsolutePath.TrimEnd('/');
        var desk = new JobDesk(store, clock, ids);
        this.findings = new(findings, patience, weighs);
        books = new(desk, Timeout.InfiniteTimeSpan);
        table = new(desk, this.findings, books, ids, () => new(home, OnThisMachineOnly: true));
        renderer = new(new NoServices(), NullLoggerFactory.Instance);
    }

    /// <summary>Whatever goes wrong ends in a page of our words.</summary>
    public async Task<HostedAnswer> AnswerAsync(HostedAsk asked, CancellationToken cancellation = default)
    {
        ArgumentNullException.ThrowIfNull(asked);
        asked = Here(asked);
        Say.Tongue = Spoken();
        try
        {
            return await FoundAsync(asked, cancellation).ConfigureAwait(false);
        }
        catch (OperationCanceledException) when (cancellation.IsCancellationRequested)
        {
            throw;
        }
#pragma warning disable CA1031 // The last wall: a person gets a page and keeps what was typed.
        catch (Exception trouble)
#pragma warning restore CA1031
        {
            var kind = (trouble as StoreException)?.Trouble ?? StoreTrouble.Other;
            var status = kind switch
            {
                StoreTrouble.Busy or StoreTrouble.Stopped => 503,
                StoreTrouble.Full => 507,
                _ => 500,
            };
            return await TroubleAsync(asked, status, kind).ConfigureAwait(false);
        }
    }

    /// <summary>The answer where what was written turned out to have no room: the form comes back.</summary>
    public Task<HostedAnswer> FullAsync(HostedAsk asked)
    {
        ArgumentNullException.ThrowIfNull(asked);
        Say.Tongue = Spoken();
        return TroubleAsync(Here(asked), 507, StoreTrouble.Full);
    }

    /// <summary>A sentence for the person, in their language and units.</summary>
    public string Said(Phrase words)
    {
        ArgumentNullException.ThrowIfNull(words);
        Say.Tongue = Spoken();
        return words.Render(Seen(Routes.Start).Units);
    }

    /// <summary>Addresses are told without the folder.</summary>
    private HostedAsk Here(HostedAsk asked) =>
        under.Length > 0 && asked.Address.StartsWith(under + "/", StringComparison.Ordinal)
            ? asked with
            {
                Address = asked.Address[under.Length..],
            }
            : asked;

    /// <inheritdoc/>
    public async ValueTask DisposeAsync()
    {
        await renderer.DisposeAsync().ConfigureAwait(false);
        books.Dispose();
        findings.Dispose();
    }

    private async Task<HostedAnswer> FoundAsync(HostedAsk asked, CancellationToken cancellation)
    {
        var question = asked.Address.IndexOf('?', StringComparison.Ordinal);
        var path = question < 0 ? asked.Address : asked.Address[..question];
        if (!asked.IsSent && OwnFile.All.FirstOrDefault(file => file.Address == path) is { } own)
            return Of(200, own.Body.ToArray(), ("Content-Type", own.MediaType), ("Cache-Control", ForEver));
        if (table.Find(asked.IsSent, path) is not var (row, places))
            return await TroubleAsync(asked, table.Find(!asked.IsSent, path) is null ? 404 : 405, StoreTrouble.Other)
                .ConfigureAwait(false);
        var sent = Flat(asked.Fields);
        var now = clock.GetUtcNow();
        // A form that is sent again says when it was sent first; pages are told how long ago that is.
        if (SentForm.AgoOf(sent.GetValueOrDefault(SentForm.First), now) is { } ago)
            sent[SentForm.Ago] = ago;
        // A switch of units within a form decides the units of the page that comes.
        if (sent.GetValueOrDefault("units") is { Length: > 0 } units)
            memory.Write(Choice.Units, Choices.Units(units, now));
        var visit = Seen(asked.Address);
        var ask = new Ask(visit, question < 0 ? [] : Flat(Words(asked.Address[(question + 1)..])), sent, cancellation)
        {
            Places = places,
            Files = asked
                .Files.Where(file => file.Value.Body.Length > 0)
                .ToDictionary(file => file.Key, file => file.Value.Body, StringComparer.Ordinal),
        };
        return await row.Handler(ask).ConfigureAwait(false) switch
        {
            Answer.Shows page => await ShownAsync(visit, page).ConfigureAwait(false),
            Answer.Card card => Html(
                200,
                Under(card.Html),
                SafePolicy.OfTheCard(FramedBy),
                card.FileName is { } name ? [("Content-Disposition", Attached(name))] : []
            ),
            Answer.Hands file => Of(
                200,
                file.Body,
                ("Content-Type", file.MediaType),
                ("Content-Disposition", Attached(file.FileName))
            ),
            Answer.Pours poured => await PouredAsync(poured, cancellation).ConfigureAwait(false),
            Answer.Picture picture => Of(
                200,
                picture.Body,
                ("Content-Type", picture.MediaType),
                ("Cache-Control", ForEver)
            ),
            Answer.Goes goes => Gone(asked, goes.Address),
            Answer.Remembers choice => Remembered(asked, choice),
            Answer.Tells tells => Told(asked, tells),
            _ => await TroubleAsync(asked, 404, StoreTrouble.Other).ConfigureAwait(false),
        };
    }

    /// <summary>What was chosen by hand, else what the phone wishes.</summary>
    private Tongue Spoken() => AllTongues.Named(memory.Read(Choice.Language)) ?? AllTongues.Wished(memory.Wishes);

    private Visit Seen(string address)
    {
        var (system, since) = Choices.Units(memory.Read(Choice.Units));
        return Visit.Of(
            system ?? UnitSystem.Metric,
            Say.Tongue,
            clock,
            address,
            isOwner: false,
            LightWords.Named(memory.Read(Choice.Light)),
            Choices.Voice(memory.Read(Choice.Voice))
        ) with
        {
            UnitsSince = since,
            InPhone = true,
            Under = under,
            Copied = Choices.Copied(memory.Read(Choice.Copied)),
        };
    }

    private async Task<HostedAnswer> ShownAsync(Visit visit, Answer.Shows page)
    {
        var all = page.Parameters.ToDictionary(one => one.Name, one => one.Value, StringComparer.Ordinal);
        all["Visit"] = visit;
        return Html(
            page.Refused ? 422 : 200,
            await RenderAsync(page.Page, all).ConfigureAwait(false),
            SafePolicy.OfPages(FramedBy),
            page.AgainSeconds is { } seconds ? [("Refresh", seconds.ToString(CultureInfo.InvariantCulture))] : []
        );
    }

    private async Task<HostedAnswer> TroubleAsync(HostedAsk asked, int status, StoreTrouble kind)
    {
        var all = new Dictionary<string, object?>
        {
            [nameof(TroublePage.Visit)] = Seen(asked.Address),
            [nameof(TroublePage.Status)] = status,
            [nameof(TroublePage.Store)] = kind,
            [nameof(TroublePage.Sent)] =
                status < 500 || !asked.IsSent
                    ? null
                    : SentForm.Of(
                        asked.Address,
                        asked.Fields,
                        asked.Files.Values.Select(file => file.FileName),
                        clock.GetUtcNow()
                    ),
        };
        var html = await RenderAsync(typeof(TroublePage), all).ConfigureAwait(false);
        return Html(status, html, SafePolicy.OfPages(FramedBy), []);
    }

    private async Task<string> RenderAsync(Type page, Dictionary<string, object?> parameters) =>
        Under(await RenderedAsync(page, parameters).ConfigureAwait(false));

    /// <summary>Every address of ours within the folder. In text a quotation mark is written as an entity, so that
    /// what looks like an attribute is one.</summary>
    private string Under(string html) => under.Length == 0 ? html : Addresses().Replace(html, $"$1{under}/");

    [GeneratedRegex("( (?:href|src|action|formaction|data-news|data-back)=\")/")]
    private static partial Regex Addresses();

    [UnconditionalSuppressMessage("Trimming", "IL2067", Justification = "Whoever trims keeps this room whole.")]
    private Task<string> RenderedAsync(Type page, Dictionary<string, object?> parameters) =>
        renderer.Dispatcher.InvokeAsync(async () =>
            (
                await renderer.RenderComponentAsync(page, ParameterView.FromDictionary(parameters)).ConfigureAwait(true)
            ).ToHtmlString()
        );

    private async Task<HostedAnswer> PouredAsync(Answer.Pours poured, CancellationToken cancellation)
    {
        using var bytes = new MemoryStream();
        await foreach (var part in poured.Parts.WithCancellation(cancellation).ConfigureAwait(false))
            bytes.Write(Encoding.UTF8.GetBytes(part));
        if (poured.Copies is { } version)
            memory.Write(Choice.Copied, Choices.Copied(version, clock.GetUtcNow()));
        return Of(
            200,
            bytes.ToArray(),
            ("Content-Type", poured.MediaType),
            ("Content-Disposition", Attached(poured.FileName))
        );
    }

    private HostedAnswer Remembered(HostedAsk asked, Answer.Remembers choice)
    {
        memory.Write(choice.What, choice.Value);
        return Gone(asked, choice.Address);
    }

    private HostedAnswer Gone(HostedAsk asked, string address) =>
        asked.IsKept ? Of(204, [], ("X-Tightcold-Go", under + address)) : Of(303, [], ("Location", under + address));

    private static HostedAnswer Told(HostedAsk asked, Answer.Tells tells)
    {
        var version = $"\"{tells.Version}\"";
        return tells.Version is not null && asked.Has == version
            ? Of(304, [], ("ETag", version))
            : Of(
                200,
                Encoding.UTF8.GetBytes(tells.Value.ToJsonString()),
                ("Content-Type", "application/json; charset=utf-8"),
                ("ETag", version)
            );
    }

    private static HostedAnswer Html(
        int status,
        string html,
        string policy,
        ReadOnlySpan<(string Name, string Value)> more
    ) =>
        Of(
            status,
            Encoding.UTF8.GetBytes(html),
            [
                ("Content-Type", "text/html; charset=utf-8"),
                ("Content-Security-Policy", policy),
                ("X-Content-Type-Options", "nosniff"),
                ("Referrer-Policy", "same-origin"),
                ("Cache-Control", "private, no-cache"),
                .. more,
            ]
        );

    private static HostedAnswer Of(int status, byte[] body, params ReadOnlySpan<(string Name, string Value)> headers)
    {
        var all = new Dictionary<string, string>(StringComparer.OrdinalIgnoreCase);
        foreach (var (name, value) in headers)
            all[name] = value;
        return new(status, all, body);
    }

    /// <summary>RFC 6266 with RFC 8187 for letters beyond ASCII.</summary>
    private static string Attached(string name) => $"attachment; filename*=UTF-8''{Uri.EscapeDataString(name)}";

    /// <summary>A name that comes several times is one field of several values, with commas, as a server flattens
    /// it.</summary>
    private static Dictionary<string, string> Flat(IEnumerable<(string Name, string Value)> fields) =>
        fields
            .GroupBy(field => field.Name, field => field.Value, StringComparer.Ordinal)
            .ToDictionary(group => group.Key, group => string.Join(',', group), StringComparer.Ordinal);

    private static IEnumerable<(string Name, string Value)> Words(string query) =>
        query
            .Split('&', StringSplitOptions.RemoveEmptyEntries)
            .Select(pair => pair.Split('=', 2))
            .Select(pair => (Unescaped(pair[0]), pair.Length == 2 ? Unescaped(pair[1]) : ""));

    private static string Unescaped(string text) => Uri.UnescapeDataString(text.Replace('+', ' '));
}
