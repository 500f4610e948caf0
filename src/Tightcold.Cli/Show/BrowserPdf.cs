using System.Diagnostics;
using Tightcold.Cli.Wiring;
using Tightcold.Tongues;

namespace Tightcold.Cli.Show;

/// <summary>Prints a page to PDF with a browser that is installed anyway; none travels with the program.</summary>
internal static class BrowserPdf
{
    private static readonly TimeSpan Patience = TimeSpan.FromSeconds(60);

    private static readonly string[] Names =
    [
        "chromium",
        "chromium-browser",
        "google-chrome",
        "google-chrome-stable",
        "microsoft-edge",
        "chrome",
        "msedge",
    ];

    private static readonly string[] Places =
    [
        "/Applications/Chromium.app/Contents/MacOS/Chromium",
        "/Applications/Google Chrome.app/Contents/MacOS/Google Chrome",
        "/Applications/Microsoft Edge.app/Contents/MacOS/Microsoft Edge",
    ];

    /// <summary>The first browser that can print, or null.</summary>
    public static string? Find()
    {
        var ending = OperatingSystem.IsWindows() ? ".exe" : "";
        var folders = (Environment.GetEnvironmentVariable("PATH") ?? "")
            .Split(Path.PathSeparator, StringSplitOptions.RemoveEmptyEntries)
            .ToList();
        foreach (
            var programs in new[] { Environment.SpecialFolder.ProgramFiles, Environment.SpecialFolder.ProgramFilesX86 }
        )
        {
            if (Environment.GetFolderPath(programs) is not { Length: > 0 } folder)
                continue;
            folders.Add(Path.Combine(folder, "Google", "Chrome", "Application"));
            folders.Add(Path.Combine(folder, "Microsoft", "Edge", "Application"));
        }
        return folders
            .SelectMany(folder => Names.Select(name => Path.Combine(folder, name + ending)))
            .Concat(Places)
            .FirstOrDefault(File.Exists);
    }

    /// <summary>Null when the PDF was written, else why not. The browser gets a profile of its own and no network
    /// need.</summary>
    public static async Task<string?> PrintAsync(
        string browser,
        string html,
        string paper,
        string path,
        CancellationToken cancellation
    )
    {
        var folder = Files.Stage("tightcold-print-");
        try
        {
            var page = Path.Combine(folder.FullName, "card.html");
            var pdf = Path.Combine(folder.FullName, "card.pdf");
            // The paper's size stands in the page itself: the browser's own default is the place it was installed in.
            await File.WriteAllTextAsync(
                    page,
                    html.Replace("@page {", $"@page {{ size: {paper};", StringComparison.Ordinal),
                    cancellation
                )
                .ConfigureAwait(false);
            var start = new ProcessStartInfo(browser) { RedirectStandardError = true, RedirectStandardOutput = true };
            string[] arguments =
            [
                "--headless",
                "--disable-gpu",
                "--no-first-run",
                "--disable-background-networking",
                "--disable-component-update",
                "--disable-sync",
                "--disable-extensions",
                $"--user-data-dir={Path.Combine(folder.FullName, "profile")}",
                "--no-pdf-header-footer",
                $"--print-to-pdf={pdf}",
                new Uri(page).AbsoluteUri,
            ];
            foreach (var argument in arguments)
                start.ArgumentList.Add(argument);
            // A machine that runs everything as its owner of all rights lets no browser sandbox itself; the page is our
            // own and runs no script.
            if (OperatingSystem.IsLinux() && Environment.UserName == "root")
                start.ArgumentList.Insert(0, "--no-sandbox");
            using var process = Process.Start(start);
            if (process is null)
                return Say.It("it did not start");
            using var limit = CancellationTokenSource.CreateLinkedTokenSource(cancellation);
            limit.CancelAfter(Patience);
            var said = process.StandardError.ReadToEndAsync(limit.Token);
            _ = process.StandardOutput.ReadToEndAsync(limit.Token);
            try
            {
                await process.WaitForExitAsync(limit.Token).ConfigureAwait(false);
            }
            catch (OperationCanceledException) when (!cancellation.IsCancellationRequested)
            {
                process.Kill(entireProcessTree: true);
                return Say.It("it took more than a minute");
            }
            if (!File.Exists(pdf))
                return (await said.ConfigureAwait(false)).Split('\n')[0].Trim();
            File.Copy(pdf, path, overwrite: true);
            return null;
        }
        catch (System.ComponentModel.Win32Exception trouble)
        {
            return trouble.Message;
        }
        finally
        {
            Files.Drop(folder.FullName);
        }
    }
}
