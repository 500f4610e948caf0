using System.Diagnostics;
using System.Globalization;
using System.Net;
using Tightcold.Storage;

namespace Tightcold.Trials.Long;

/// <summary>The real site under a few browsers that look and write without a pause: its memory from minute to
/// minute.</summary>
internal static class Soak
{
    private const int Jobs = 200,
        Browsers = 4;

    /// <summary>Caches fill first; from then on this much growth is looked at as a leak.</summary>
    private const double Allowed = 1.25;

    public static async Task<bool> RunAsync(int minutes, TextWriter to)
    {
        using var place = new Workplace();
        await Workplace.FillAsync(place.Data, Jobs).ConfigureAwait(false);
        JobStore.Release();
        var site = await RealProgram.ServeAsync(place.Data).ConfigureAwait(false);
        using var program = site.Program;
        var owner = await site.KeyAsync().ConfigureAwait(false);
        var end = Stopwatch.StartNew();
        var (answers, errors) = (0, 0);
        var memory = new List<double>();
        var browsing = Enumerable
            .Range(0, Browsers)
            .Select(i =>
                Task.Run(async () =>
                {
                    var chance = new Random(i);
                    using var client = site.Client(site.SameKey(owner));
                    while (end.Elapsed.TotalMinutes < minutes)
                        try
                        {
                            var job = chance.Next(1, Jobs + 1);
                            foreach (var address in new[] { "/", $"/jobs/{job}", "/ledger", $"/jobs?find={job:X}" })
                            {
                                await client.GetStringAsync(new Uri(address, UriKind.Relative)).ConfigureAwait(false);
                                Interlocked.Increment(ref answers);
                            }
                            var form = $"/jobs/{job}/entries/new/note";
                            var fields = await client.FormAsync(form).ConfigureAwait(false);
                            fields["f.text"] = "oil mist at the condenser";
                            if (await client.SendAsync(form, fields).ConfigureAwait(false) != HttpStatusCode.Found)
                                Interlocked.Increment(ref errors);
                            Interlocked.Add(ref answers, 2);
                        }
                        catch (Exception trouble) when (trouble is HttpRequestException or TaskCanceledException)
                        {
                            // No answer, or none within the patience of a browser.
                            Interlocked.Increment(ref errors);
                        }
                })
            )
            .ToList();
        var all = Task.WhenAll(browsing);
        while (await Task.WhenAny(all, Task.Delay(TimeSpan.FromMinutes(1))).ConfigureAwait(false) != all)
        {
            program.Refresh();
            memory.Add(program.WorkingSet64 / 1e6);
            await to.WriteLineAsync(
                    string.Create(
                        CultureInfo.InvariantCulture,
                        $"minute {end.Elapsed.TotalMinutes:0}: {memory[^1]:0} MB, {answers} answers, {errors} errors, {program.TotalProcessorTime.TotalSeconds:0} s of processor"
                    )
                )
                .ConfigureAwait(false);
        }
        await all.ConfigureAwait(false);
        program.Kill();
        await program.WaitForExitAsync().ConfigureAwait(false);
        // The last third against the third in the middle.
        var third = memory.Count / 3;
        var (middle, last) = third == 0 ? (1, 1) : (memory.Skip(third).Take(third).Max(), memory.TakeLast(third).Max());
        await to.WriteLineAsync(
                string.Create(
                    CultureInfo.InvariantCulture,
                    $"{minutes} minutes: {answers} answers, {errors} errors; memory at most {middle:0} MB in the middle third, {last:0} MB in the last"
                )
            )
            .ConfigureAwait(false);
        return answers > 0 && errors == 0 && last < middle * Allowed;
    }
}
