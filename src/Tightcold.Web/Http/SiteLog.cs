using Tightcold.Jobs.Journals;
using Microsoft.Extensions.DependencyInjection;
using Microsoft.Extensions.Logging;
using Serilog;
using Serilog.Core;
using Serilog.Events;
using Serilog.Extensions.Logging;
using Serilog.Formatting.Json;
using Serilog.Sinks.File;
using Tightcold.Storage;

namespace Tightcold.Web.Http;

/// <summary>The log: who came in and was let in no longer, and what failed, one JSON object a line in a file a day. It
/// is written by a thread of its own: no request waits for it, and when the disk is slow or full, lines are lost and
/// nothing else.</summary>
public static class SiteLog
{
    public const string FolderName = "log";
    private const int MostWaiting = 2000,
        MostFiles = 14;
    private const long LargestFileBytes = 4 << 20;

    /// <summary>The log of a data folder, for a command beside the site.</summary>
    public static ILoggerFactory Open(string folder) => LoggerFactory.Create(logging => Use(logging, folder));

    internal static void Use(ILoggingBuilder logging, SiteOptions options)
    {
        if (options.Log is { } plain)
            logging.AddProvider(new PlainLog(plain));
        if (options.LogFolder is { } folder)
            Use(logging, folder);
        logging.SetMinimumLevel(options.LogFolder is null ? LogLevel.Error : LogLevel.Information);
        // The framework tells of every request; that is for nobody.
        logging.AddFilter("Microsoft", LogLevel.Warning);
        // Pages with a form say themselves that nobody keeps them; the framework warns each time that it says so too.
        logging.AddFilter("Microsoft.AspNetCore.Antiforgery", LogLevel.Error);
    }

    private static void Use(ILoggingBuilder logging, string folder)
    {
        try
        {
            DataFolder.Make(folder);
        }
        catch (StoreException)
        {
            // A disk that takes nothing.
            return;
        }
        // Made by the services, so that they end it: what waits to be written is lost with a provider that is only
        // handed to them, and a command that takes a key back is over in a moment.
        logging.Services.AddSingleton<ILoggerProvider>(_ => new SerilogLoggerProvider(Writer(folder), dispose: true));
    }

    private static Logger Writer(string folder) =>
        new LoggerConfiguration()
            .MinimumLevel.Is(LogEventLevel.Information)
            .WriteTo.Async(
                background =>
                    background.File(
                        new JsonFormatter(renderMessage: true),
                        Path.Combine(folder, "tightcold-.log"),
                        rollingInterval: RollingInterval.Day,
                        rollOnFileSizeLimit: true,
                        fileSizeLimitBytes: LargestFileBytes,
                        retainedFileCountLimit: MostFiles,
                        hooks: new OwnersFile()
                    ),
                bufferSize: MostWaiting,
                blockWhenFull: false
            )
            .CreateLogger();

    /// <summary>Names and addresses are nobody else's: mode 600, whatever the folder allows.</summary>
    private sealed class OwnersFile : FileLifecycleHooks
    {
        public override Stream OnFileOpened(string path, Stream underlyingStream, System.Text.Encoding encoding)
        {
            if (!OperatingSystem.IsWindows())
                File.SetUnixFileMode(path, UnixFileMode.UserRead | UnixFileMode.UserWrite);
            return underlyingStream;
        }
    }
}
