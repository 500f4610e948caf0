using System.Net;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.DataProtection;
using Microsoft.AspNetCore.Hosting;
using Microsoft.AspNetCore.Hosting.Server;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.ResponseCompression;
using Microsoft.Extensions.DependencyInjection;
using Microsoft.Extensions.Hosting;
using Microsoft.Extensions.Logging;
using Tightcold.App.Desk;
using Tightcold.Jobs.Journals;
using Tightcold.Pages.Answering;
using Tightcold.Storage;
using Tightcold.Tongues;
using Tightcold.Web.Http;
using Tightcold.Web.Lan;

namespace Tightcold.Web;

/// <summary>The site beside the car.</summary>
public static class Site
{
    /// <summary>Nothing a person sends is larger: a whole job as a file.</summary>
    internal const long LargestRequestBytes = 4 << 20;

    /// <summary>So long a reader waits for the ledger before the page says how far it is.</summary>
    private static readonly TimeSpan LedgerPatience = TimeSpan.FromSeconds(5);

    /// <summary>Opens the data and puts the site together; the caller starts it. Throws
    /// <see cref="StoreException"/> when the data cannot be used.</summary>
    public static WebApplication Build(SiteOptions options)
    {
        ArgumentNullException.ThrowIfNull(options);
        // Looked at once: what is handed out and what pages say of it are the same as long as the site runs.
        if (!SiteOptions.HoldsPhone(options.PhoneFolder))
            options = options with { PhoneFolder = null };
        var place = new DataPlace(options.DataFolder, options.Connection);
        // Keys, units and devices are kept here even where the data are on a server.
        DataFolder.Make(options.DataFolder);
        var store = (options.Store?.Invoke() ?? JobStore.OpenAsync(place)).GetAwaiter().GetResult();

        // An empty builder: no settings file or environment variable can bind it to another address.
        var builder = WebApplication.CreateEmptyBuilder(
            new WebApplicationOptions { ApplicationName = "Tightcold", ContentRootPath = options.DataFolder }
        );
        builder
            .WebHost.UseKestrelCore()
            .ConfigureKestrel(kestrel =>
            {
                kestrel.Listen(IPAddress.Loopback, options.Port);
                foreach (var address in options.Lan?.Addresses ?? [])
                    kestrel.Listen(address, options.Port, listen =>
                    {
                        // Before the handshake: whoever opens many need not finish one.
                        options.Lan!.Connections.Use(listen);
                        if (options.Lan?.Certificate is { } certificate)
                            listen.UseHttps(certificate);
                    });
                kestrel.AddServerHeader = false;
                kestrel.Limits.MaxRequestBodySize = LargestRequestBytes;
                // Other accounts of this machine reach the owner's door: they may not fill the program.
                kestrel.Limits.MaxConcurrentConnections = 2 * OpenConnections.UsualMost;
            });
        AddServices(builder.Services, options, store);
        SiteLog.Use(builder.Logging, options);

        var site = builder.Build();
        // From here on the site owns the data and lets go of them at its end, so that a restore finds them free.
        _ = site.Services.GetRequiredService<JobStore>();
        site.UseSafeHeaders();
        site.UseResponseCompression();
        if (options.Lan is not null)
            site.UseRateLimiter();
        // Every answer from here on is said in the language of who asks.
        site.Use(
            (http, next) =>
            {
                Say.Tongue = Visits.Spoken(http);
                http.Response.Headers.Append("Vary", "Accept-Language");
                return next(http);
            }
        );
        site.UseDoor(options.Lan);
        site.UsePhoneFiles(options.PhoneFolder);
        site.UseTroubles();
        site.UseRequestSizes();
        site.UseKept();
        site.UseFormGuard();
        site.UseSentAgain();
        site.UseRouting();
        site.MapPages();
        site.MapHomeScreen();
        site.MapHealth();
        site.MapPairing(options.Lan);
        site.MapOwner();
        return site;
    }

    /// <summary>Where a started site answers, such as <c>http://127.0.0.1:5555</c>.</summary>
    public static Uri Address(WebApplication site)
    {
        ArgumentNullException.ThrowIfNull(site);
        return site.Services.GetRequiredService<LanLinks>().Own;
    }

    /// <summary>Where paired devices of the network reach a started site; empty unless they are let in.</summary>
    public static IReadOnlyList<Uri> NetworkAddresses(WebApplication site)
    {
        ArgumentNullException.ThrowIfNull(site);
        return site.Services.GetRequiredService<LanLinks>().Network;
    }

    /// <summary>Where a phone gets the program that runs in itself; null where none is handed out to one.</summary>
    public static string? Phone(WebApplication site)
    {
        ArgumentNullException.ThrowIfNull(site);
        return site.Services.GetRequiredService<SiteOptions>().PhoneFolder is null
            ? null
            : site.Services.GetRequiredService<LanLinks>().Phone;
    }

    /// <summary>A link that makes one browser of this machine the owner's, once, and when it ends.</summary>
    public static (Uri Link, DateTimeOffset Ends) NewOwnerLink(WebApplication site)
    {
        ArgumentNullException.ThrowIfNull(site);
        return site.Services.GetRequiredService<OwnerBook>().NewLink(Address(site));
    }

    /// <summary>A new pairing code of a started site, the link that brings it to a device, and when it ends.</summary>
    public static (string Code, Uri Link, DateTimeOffset Ends) NewPairing(WebApplication site)
    {
        ArgumentNullException.ThrowIfNull(site);
        var code = site.Services.GetRequiredService<PairingCodes>().Renew();
        var link = site.Services.GetRequiredService<LanLinks>().Pairing(code.Code)
            ?? throw new InvalidOperationException("the site listens on no network");
        return (code.Spaced, new(link), code.Ends);
    }

    private static void AddServices(IServiceCollection services, SiteOptions options, JobStore store)
    {
        services.AddSingleton<IHostLifetime, OwnersLifetime>();
        services.AddRoutingCore();
        services.AddSingleton(provider => new LanLinks(provider.GetRequiredService<IServer>(), options.Lan));
        services.AddSingleton(provider => new DeviceBook(
            options.DataFolder,
            options.Clock,
            provider.GetRequiredService<ILogger<DeviceBook>>()
        ));
        services.AddSingleton(provider => new OwnerBook(
            options.DataFolder,
            options.Clock,
            provider.GetRequiredService<ILogger<OwnerBook>>()
        ));
        services.AddSingleton(new PairingCodes(options.Clock));
        if (options.Lan is { } lan)
        {
            RateLimits.Add(services, lan);
            services.AddSingleton(lan.Connections);
        }
        // Compressed under TLS too: the one secret in a page is the form's token, which is another each time, so that
        // its length tells nothing.
        services.Configure<BrotliCompressionProviderOptions>(brotli =>
            brotli.Level = System.IO.Compression.CompressionLevel.Optimal
        );
        services.AddResponseCompression(compression =>
        {
            compression.EnableForHttps = true;
            compression.MimeTypes = [.. ResponseCompressionDefaults.MimeTypes, "image/svg+xml", "application/wasm"];
        });
        services.AddRazorComponents();
        services.AddSingleton(options);
        services.AddSingleton(options.Clock);
        services.AddSingleton(_ => new FindingSource(options.Findings, options.Patience));
        services.AddSingleton(provider => new LedgerBooks(provider.GetRequiredService<JobDesk>(), LedgerPatience));
        services.AddSingleton<IIdSource>(new RandomIds());
        services.AddSingleton(_ => store);
        services.AddSingleton(new JobDesk(store, options.Clock, new RandomIds()));
        services.AddSingleton(provider => new PageTable(
            provider.GetRequiredService<JobDesk>(),
            provider.GetRequiredService<FindingSource>(),
            provider.GetRequiredService<LedgerBooks>(),
            provider.GetRequiredService<IIdSource>(),
            () => provider.GetRequiredService<LanLinks>().Label
        ));
        var protection = services.AddDataProtection().SetApplicationName("Tightcold");
        // Where nothing can be kept, a form is good as long as the site runs.
        if (KeyFolder(options.DataFolder) is { } keys)
            protection.PersistKeysToFileSystem(keys);
        else
            protection.UseEphemeralDataProtectionProvider();
        services.AddAntiforgery(antiforgery =>
        {
            antiforgery.Cookie.Name = "tightcold-form";
            antiforgery.Cookie.HttpOnly = true;
            antiforgery.Cookie.SameSite = SameSiteMode.Strict;
            antiforgery.Cookie.SecurePolicy = CookieSecurePolicy.SameAsRequest;
            // A phone drops its browser at will; a form that is still on the screen must stay good.
            antiforgery.Cookie.MaxAge = TimeSpan.FromDays(60);
            antiforgery.FormFieldName = "token";
        });
    }

    /// <summary>The keys are readable by their owner only; null on a disk that takes nothing.</summary>
    private static DirectoryInfo? KeyFolder(string dataFolder)
    {
        var path = Path.Combine(dataFolder, "keys");
        try
        {
            var folder = OperatingSystem.IsWindows()
                ? Directory.CreateDirectory(path)
                : Directory.CreateDirectory(
                    path,
                    UnixFileMode.UserRead | UnixFileMode.UserWrite | UnixFileMode.UserExecute
                );
            using var probe = new FileStream(
                Path.Combine(path, $".tightcold-{Guid.NewGuid():N}"),
                new FileStreamOptions
                {
                    Mode = FileMode.CreateNew,
                    Access = FileAccess.Write,
                    Options = FileOptions.DeleteOnClose,
                }
            );
            return folder;
        }
        catch (Exception trouble) when (trouble is IOException or UnauthorizedAccessException)
        {
            return null;
        }
    }
}
