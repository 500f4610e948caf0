using System.Diagnostics;
using System.Globalization;
using System.Net;
using Tightcold.Storage;

namespace Tightcold.Trials.Disk;

/// <summary>A file system of two megabytes, written full by the command line, then by the site. Needs the right to
/// mount; the mount ends with the trial.</summary>
internal static class FullDisk
{
    public static async Task<bool> RunAsync(TextWriter to)
    {
        using var place = new Workplace();
        var disk = place.File("disk");
        Directory.CreateDirectory(disk);
        if (await MountAsync("mount", "-t", "tmpfs", "-o", "size=2m", "tmpfs", disk).ConfigureAwait(false) != 0)
        {
            await to.WriteLineAsync("This machine does not allow to mount a small disk; nothing was tried.")
                .ConfigureAwait(false);
            return false;
        }
        try
        {
            var command = await CommandAsync(Path.Combine(disk, "data"), to).ConfigureAwait(false);
            JobStore.Release();
            Directory.Delete(Path.Combine(disk, "data"), recursive: true);
            return await SiteAsync(Path.Combine(disk, "data"), to).ConfigureAwait(false) && command;
        }
        finally
        {
            JobStore.Release();
            await MountAsync("umount", disk).ConfigureAwait(false);
        }
    }

    private static async Task<bool> CommandAsync(string data, TextWriter to)
    {
        await Workplace.FillAsync(data, 1).ConfigureAwait(false);
        JobStore.Release();
        await CrowdAsync(data).ConfigureAwait(false);
        var taken = new List<string>();
        for (var i = 0; ; i++)
        {
            var text = Text(i);
            var (code, said) = await RealProgram
                .RunAsync(data, "job", "add", "1", "note", "text=" + text)
                .ConfigureAwait(false);
            if (code == 0)
            {
                taken.Add(text);
                continue;
            }
            await to.WriteLineAsync($"command line, code {code}: {said.Trim()}").ConfigureAwait(false);
            // Reading goes on, and what was acknowledged is there.
            var (shown, _) = await RealProgram.RunAsync(data, "job", "show", "1").ConfigureAwait(false);
            var whole = await WholeAsync(data, taken, to).ConfigureAwait(false);
            return code == 2 && said.Trim().Split('\n').Length == 1 && shown == 0 && whole;
        }
    }

    /// <summary>Something else lies on the disk, so that the evening comes after tens of entries instead of hundreds: a
    /// command takes a second each.</summary>
    private static async Task CrowdAsync(string data)
    {
        const int Left = 250_000;
        var free = (int)new DriveInfo(data).AvailableFreeSpace;
        await File.WriteAllBytesAsync(Path.Combine(data, "something-else"), new byte[Math.Max(0, free - Left)])
            .ConfigureAwait(false);
    }

    private static async Task<bool> SiteAsync(string data, TextWriter to)
    {
        await Workplace.FillAsync(data, 1).ConfigureAwait(false);
        JobStore.Release();
        await CrowdAsync(data).ConfigureAwait(false);
        var site = await RealProgram.ServeAsync(data).ConfigureAwait(false);
        using var program = site.Program;
        var taken = new List<string>();
        var full = HttpStatusCode.OK;
        var kept = false;
        try
        {
            using var client = site.Client(await site.KeyAsync().ConfigureAwait(false));
            const string Form = "/jobs/1/entries/new/note";
            for (var i = 0; full == HttpStatusCode.OK; i++)
            {
                var fields = await client.FormAsync(Form).ConfigureAwait(false);
                fields["f.text"] = Text(i);
                using var content = new FormUrlEncodedContent(fields);
                using var answer = await client
                    .PostAsync(new Uri(Form, UriKind.Relative), content)
                    .ConfigureAwait(false);
                if (answer.StatusCode == HttpStatusCode.Found)
                {
                    taken.Add(Text(i));
                    continue;
                }
                full = answer.StatusCode;
                kept = (await answer.Content.ReadAsStringAsync().ConfigureAwait(false)).Contains(
                    Text(i),
                    StringComparison.Ordinal
                );
            }
            // A page of the job still comes.
            await client.GetStringAsync(new Uri("/jobs/1", UriKind.Relative)).ConfigureAwait(false);
        }
        finally
        {
            program.Kill();
            await program.WaitForExitAsync().ConfigureAwait(false);
        }
        await to.WriteLineAsync($"site: {(int)full}, the form {(kept ? "handed back" : "lost")}").ConfigureAwait(false);
        return full == HttpStatusCode.InsufficientStorage
            && kept
            && await WholeAsync(data, taken, to).ConfigureAwait(false);
    }

    private static async Task<bool> WholeAsync(string data, List<string> taken, TextWriter to)
    {
        // On a copy with room: a check needs none, but it is to judge the data and not the disk.
        var copy = Directory.CreateTempSubdirectory("tightcold-trial-").FullName;
        try
        {
            foreach (var file in Directory.EnumerateFiles(data, "tightcold.db*"))
                File.Copy(file, Path.Combine(copy, Path.GetFileName(file)));
            var notes = (await Workplace.NotesAsync(copy, 1).ConfigureAwait(false)).Where(text =>
                text.StartsWith("note", StringComparison.Ordinal)
            );
            var troubles = await Workplace.TroublesAsync(copy).ConfigureAwait(false);
            var there = notes.ToList();
            await to.WriteLineAsync(
                    string.Create(
                        CultureInfo.InvariantCulture,
                        $"{taken.Count} entries acknowledged, {there.Count} there, check {(troubles.Count == 0 ? "clean" : string.Join(' ', troubles))}"
                    )
                )
                .ConfigureAwait(false);
            return troubles.Count == 0 && there.SequenceEqual(taken);
        }
        finally
        {
            JobStore.Release();
            Directory.Delete(copy, recursive: true);
        }
    }

    /// <summary>Long ones, so that the disk is full before the evening.</summary>
    private static string Text(int i) =>
        string.Create(CultureInfo.InvariantCulture, $"note {i} ") + new string('x', 1500);

    private static async Task<int> MountAsync(string program, params string[] words)
    {
        using var running = Process.Start(program, words);
        await running.WaitForExitAsync().ConfigureAwait(false);
        return running.ExitCode;
    }
}
