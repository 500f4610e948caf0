using System.Net;
using Microsoft.AspNetCore.Builder;
using Microsoft.Extensions.DependencyInjection;
using Tightcold.App.Books;
using Tightcold.Jobs.Entries;
using Tightcold.Storage;
using Tightcold.Storage.Safety;
using Tightcold.Web;
using Tightcold.Web.Lan;

namespace Tightcold.Bench.Host;

/// <summary>The real site on a free port of loopback; its folder goes with it.</summary>
internal sealed class SiteOnBench : IAsyncDisposable
{
    private readonly DataPlace place;
    private readonly WebApplication site;
    private readonly string ownerKey;

    private SiteOnBench(DataPlace place)
    {
        this.place = place;
        site = Site.Build(
            new SiteOptions(place.Folder, 0, TimeProvider.System)
            {
                Connection = place.Connection,
                Log = Console.Error.WriteLine,
            }
        );
        ownerKey = site.Services.GetRequiredService<OwnerBook>().Add("bench").Key;
    }

    public static async Task<SiteOnBench> StartAsync(DataPlace place)
    {
        var bench = new SiteOnBench(place);
        await bench.site.StartAsync().ConfigureAwait(false);
        return bench;
    }

    /// <summary>A browser of the owner.</summary>
    public HttpClient Client()
    {
        var cookies = new CookieContainer();
        cookies.Add(Site.Address(site), new Cookie("tightcold-owner", ownerKey));
        return new(
            new HttpClientHandler
            {
                AllowAutoRedirect = false,
                CookieContainer = cookies,
                UseProxy = false,
            }
        )
        {
            BaseAddress = Site.Address(site),
            Timeout = TimeSpan.FromMinutes(20),
        };
    }

    public async Task<CheckReport> CheckAsync()
    {
        using var store = await JobStore.OpenAsync(place).ConfigureAwait(false);
        return await store.CheckAsync(LedgerClosure.Of, default).ConfigureAwait(false);
    }

    /// <summary>The texts of all notes, and a check of everything.</summary>
    public async Task<(IReadOnlyList<string> Notes, CheckReport Check)> NotesAsync()
    {
        using var store = await JobStore.OpenAsync(place).ConfigureAwait(false);
        var notes = new List<string>();
        await foreach (var record in store.RecordsAsync(null, null, default).ConfigureAwait(false))
            notes.AddRange(record.Journal.OfKind(EntryKinds.Note).Select(entry => entry.Fields.Text("text") ?? ""));
        return (notes, await store.CheckAsync(LedgerClosure.Of, default).ConfigureAwait(false));
    }

    public async ValueTask DisposeAsync()
    {
        await site.DisposeAsync().ConfigureAwait(false);
        JobStore.Release();
        Directory.Delete(place.Folder, recursive: true);
    }
}
