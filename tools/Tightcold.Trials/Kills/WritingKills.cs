using System.Collections.Concurrent;
using System.Globalization;
using System.Net;
using Tightcold.Jobs.Entries;
using Tightcold.Jobs.Fields;
using Tightcold.Jobs.Json;
using Tightcold.Storage;

namespace Tightcold.Trials.Kills;

/// <summary>SIGKILL while entries are written: each second time the command line with lines on its input, else the site
/// with several browsers. What was acknowledged must be there, once.</summary>
internal static class WritingKills
{
    private const int Browsers = 6,
        CheckEach = 25;

    public static async Task<bool> RunAsync(int times, TextWriter to)
    {
        using var place = new Workplace();
        var chance = new Random(20310704);
        var (kills, acknowledged, lost, doubled, bad) = (0, 0, 0, 0, 0);
        for (var job = 1; kills < times; job++)
        {
            // A job of its own for each kill, in one growing data file.
            await AddJobAsync(place.Data, job).ConfigureAwait(false);
            JobStore.Release();
            var taken =
                kills % 2 == 0
                    ? await CommandAsync(place.Data, job, chance).ConfigureAwait(false)
                    : await SiteAsync(place.Data, job, chance).ConfigureAwait(false);
            kills++;
            acknowledged += taken.Count;
            var there = await Workplace.NotesAsync(place.Data, job).ConfigureAwait(false);
            lost += taken.Except(there).Count();
            doubled += there.Count - there.Distinct().Count();
            if (kills % CheckEach != 0 && kills < times)
                continue;
            var troubles = await Workplace.TroublesAsync(place.Data).ConfigureAwait(false);
            bad += troubles.Count;
            foreach (var trouble in troubles)
                await to.WriteLineAsync(trouble).ConfigureAwait(false);
            await to.WriteLineAsync(
                    string.Create(
                        CultureInfo.InvariantCulture,
                        $"{kills} kills while writing (command line and site in turn): {acknowledged} entries acknowledged, {lost} lost, {doubled} doubled, check {(bad == 0 ? "clean" : "not clean")}"
                    )
                )
                .ConfigureAwait(false);
        }
        return lost + doubled + bad == 0;
    }

    private static async Task AddJobAsync(string data, int job)
    {
        using var store = await JobStore.OpenAsync(data).ConfigureAwait(false);
        var desk = new App.Desk.JobDesk(store, TimeProvider.System, new App.Desk.RandomIds());
        var car = await desk.AddCarAsync(
                new Dictionary<string, string> { ["label"] = $"car {job}", ["refrigerant"] = "R-134a" }
            )
            .ConfigureAwait(false);
        await desk.OpenJobAsync(car.Value!.Id, "blows warm").ConfigureAwait(false);
    }

    /// <summary>Lines are fed as fast as they are taken; after some acknowledgements and up to 5 ms more it is
    /// killed.</summary>
    private static async Task<IReadOnlyCollection<string>> CommandAsync(string data, int job, Random chance)
    {
        using var program = RealProgram.Start(
            data,
            "job",
            "add",
            job.ToString(CultureInfo.InvariantCulture),
            "--lines",
            "-"
        );
        _ = program.StandardError.ReadToEndAsync();
        var feeding = Task.Run(async () =>
        {
            try
            {
                for (var i = 0; i < 2000; i++)
                    await program.StandardInput.WriteLineAsync(Line(job, i)).ConfigureAwait(false);
            }
            catch (IOException)
            {
                // The reader was killed.
            }
        });
        var taken = new List<string>();
        var enough = chance.Next(1, 40);
        while (await program.StandardOutput.ReadLineAsync().ConfigureAwait(false) is { } said)
        {
            if (!said.StartsWith("saved ", StringComparison.Ordinal))
                throw new InvalidOperationException(said);
            taken.Add(Text(job, IndexOf(said["saved ".Length..])));
            if (taken.Count != enough)
                continue;
            await Task.Delay(TimeSpan.FromMilliseconds(5 * chance.NextDouble())).ConfigureAwait(false);
            program.Kill();
        }
        await program.WaitForExitAsync().ConfigureAwait(false);
        await feeding.ConfigureAwait(false);
        return taken;
    }

    /// <summary>Browsers send notes one after the other; after some answers and up to 5 ms more the site is
    /// killed.</summary>
    private static async Task<IReadOnlyCollection<string>> SiteAsync(string data, int job, Random chance)
    {
        var site = await RealProgram.ServeAsync(data).ConfigureAwait(false);
        using var program = site.Program;
        var owner = await site.KeyAsync().ConfigureAwait(false);
        var taken = new ConcurrentBag<string>();
        var enough = chance.Next(1, 40);
        var pause = 5 * chance.NextDouble();
        var address = $"/jobs/{job}/entries/new/note";
        await Task.WhenAll(
                Enumerable
                    .Range(0, Browsers)
                    .Select(async browser =>
                    {
                        using var client = site.Client(site.SameKey(owner));
                        try
                        {
                            for (var i = 0; !program.HasExited; i++)
                            {
                                var fields = await client.FormAsync(address).ConfigureAwait(false);
                                var text = Text(job, 1000 * (browser + 1) + i);
                                fields["f.text"] = text;
                                var status = await client.SendAsync(address, fields).ConfigureAwait(false);
                                if (status != HttpStatusCode.Found)
                                    throw new InvalidOperationException($"an entry was answered with {(int)status}");
                                taken.Add(text);
                                if (taken.Count < enough)
                                    continue;
                                await Task.Delay(TimeSpan.FromMilliseconds(pause)).ConfigureAwait(false);
                                program.Kill();
                                return;
                            }
                        }
                        catch (Exception gone) when (gone is HttpRequestException or IOException)
                        {
                            // The site was killed.
                        }
                    })
            )
            .ConfigureAwait(false);
        await program.WaitForExitAsync().ConfigureAwait(false);
        return taken;
    }

    private static string Text(int job, int i) => string.Create(CultureInfo.InvariantCulture, $"job {job} note {i}");

    private static int IndexOf(string id) => new Guid(id).ToByteArray() is var bytes ? BitConverter.ToInt32(bytes) : 0;

    private static string Line(int job, int i)
    {
        var at = DateTimeOffset.UnixEpoch.AddYears(60).AddSeconds(i);
        return JobDocument
            .WriteEntry(
                new Entry(
                    new Guid(i, (short)(job >> 16), (short)job, [0, 0, 0, 0, 0, 0, 0, 1]),
                    EntryKinds.Note,
                    at,
                    at,
                    "Ada",
                    FieldBag.Empty.With("text", new FieldValue.Text(Text(job, i)))
                )
            )
            .ToJsonString();
    }
}
