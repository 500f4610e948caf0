using System.Net;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.DataProtection;
using Microsoft.AspNetCore.Hosting;
using Microsoft.AspNetCore.Http;
using Microsoft.Extensions.DependencyInjection;
using Microsoft.Extensions.Hosting;
using Microsoft.Extensions.Logging;
using Tightcold.App.Desk;
using Tightcold.Storage;
using Tightcold.Web.Http;
using Tightcold.Web.Pages;

namespace Tightcold.Web;

/// <summary>The site beside the car.</summary>
public static class Site
{
    /// <summary>Nothing a person sends is larger: a whole job as a file.</summary>
    internal const long LargestRequestBytes = 4 << 20;

    /// <summary>Opens the data and puts the site together; the caller starts it. Throws
    /// <see cref="StoreException"/> when the data cannot be used.</summary>
    public static WebApplication Build(SiteOptions options)
    {
        ArgumentNullException.ThrowIfNull(options);
        var store = JobStore.OpenAsync(options.DataFolder).GetAwaiter().GetResult();

        // An empty builder: no settings file or environment variable can bind it to another address.
        var builder = WebApplication.CreateEmptyBuilder(new WebApplicationOptions { ApplicationName = "Tightcold", ContentRootPath = options.DataFolder });
        builder.WebHost.UseKestrelCore().ConfigureKestrel(kestrel =>
        {
            kestrel.Listen(IPAddress.Loopback, options.Port);
            kestrel.AddServerHeader = false;
            kestrel.Limits.MaxRequestBodySize = LargestRequestBytes;
        });
        AddServices(builder.Services, options, store);
        if (options.Log is { } log) builder.Logging.AddProvider(new PlainLog(log)).SetMinimumLevel(LogLevel.Error);

        var site = builder.Build();
        site.UseSafeHeaders();
        site.UseLoopbackOnly();
        site.UseTroubles();
        site.UseFormGuard();
        site.UseRouting();
        site.MapStyles();
        site.MapUnitChoice();
        site.MapStart();
        site.MapCars();
        site.MapKit();
        site.MapJobs();
        site.MapEntries();
        site.MapCard();
        site.MapTimers();
        site.MapWeighIn();
        site.MapBooks();
        return site;
    }

    /// <summary>Where a started site answers, such as <c>http://127.0.0.1:5555</c>.</summary>
    public static Uri Address(WebApplication site)
    {
        ArgumentNullException.ThrowIfNull(site);
        return new(site.Urls.First());
    }

    private static void AddServices(IServiceCollection services, SiteOptions options, JobStore store)
    {
        services.AddSingleton<IHostLifetime, OwnersLifetime>();
        services.AddRoutingCore();
        services.AddRazorComponents();
        services.AddSingleton(options.Clock);
        services.AddSingleton(new FindingSource(options.Findings));
        services.AddSingleton<IIdSource>(new RandomIds());
        services.AddSingleton(new JobDesk(store, options.Clock, new RandomIds()));
        services.AddDataProtection().SetApplicationName("Tightcold").PersistKeysToFileSystem(KeyFolder(options.DataFolder));
        services.AddAntiforgery(antiforgery =>
        {
            antiforgery.Cookie.Name = "tightcold-form";
            antiforgery.Cookie.HttpOnly = true;
            antiforgery.Cookie.SameSite = SameSiteMode.Strict;
            // A phone drops its browser at will; a form that is still on the screen must stay good.
            antiforgery.Cookie.MaxAge = TimeSpan.FromDays(60);
            antiforgery.FormFieldName = "token";
        });
    }

    /// <summary>The keys are readable by their owner only.</summary>
    private static DirectoryInfo KeyFolder(string dataFolder)
    {
        var path = Path.Combine(dataFolder, "keys");
        return OperatingSystem.IsWindows()
            ? Directory.CreateDirectory(path)
            : Directory.CreateDirectory(path, UnixFileMode.UserRead | UnixFileMode.UserWrite | UnixFileMode.UserExecute);
    }
}
