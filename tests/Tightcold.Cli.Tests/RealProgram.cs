using System.Diagnostics;

namespace Tightcold.Cli.Tests;

/// <summary>The program as its own process, as a shell starts it.</summary>
internal static class RealProgram
{
    public static Process Start(params string[] words)
    {
        var dotnet =
            Environment.ProcessPath is { } host && Path.GetFileNameWithoutExtension(host) == "dotnet" ? host : "dotnet";
        // A suite that was itself begun in the background hands its deaf ear for Ctrl-C down to what it starts; a shell
        // gives the program a fresh one.
        var fresh = OperatingSystem.IsLinux();
        var start = new ProcessStartInfo(fresh ? "env" : dotnet)
        {
            RedirectStandardInput = true,
            RedirectStandardOutput = true,
            RedirectStandardError = true,
        };
        // What these tests read is English, whatever the machine speaks.
        start.Environment["LC_ALL"] = "C.UTF-8";
        if (fresh)
        {
            start.ArgumentList.Add("--default-signal=INT");
            start.ArgumentList.Add(dotnet);
        }
        start.ArgumentList.Add(Path.Combine(AppContext.BaseDirectory, "tightcold.dll"));
        foreach (var word in words)
            start.ArgumentList.Add(word);
        return Process.Start(start)!;
    }

    /// <summary>What another program says, and how it ends; null when it is not installed.</summary>
    public static async Task<Answer?> RunAsync(string program, string input, params string[] words)
    {
        var start = new ProcessStartInfo(program)
        {
            RedirectStandardInput = true,
            RedirectStandardOutput = true,
            RedirectStandardError = true,
        };
        foreach (var word in words)
            start.ArgumentList.Add(word);
        try
        {
            using var process = Process.Start(start)!;
            var said = process.StandardOutput.ReadToEndAsync(TestContext.Current.CancellationToken);
            var trouble = process.StandardError.ReadToEndAsync(TestContext.Current.CancellationToken);
            await process.StandardInput.WriteAsync(input);
            process.StandardInput.Close();
            await process.WaitForExitAsync(TestContext.Current.CancellationToken);
            return new(process.ExitCode, await said, await trouble);
        }
        catch (System.ComponentModel.Win32Exception)
        {
            return null;
        }
    }
}
