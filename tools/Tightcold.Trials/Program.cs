using System.Globalization;
using Tightcold.Trials.Disk;
using Tightcold.Trials.Halfway;
using Tightcold.Trials.Inputs;
using Tightcold.Trials.Kills;
using Tightcold.Trials.Long;

// Each answers whether all held.
var held = args switch
{
    ["kills", var times] => await WritingKills.RunAsync(Number(times), Console.Out).ConfigureAwait(false),
    ["halfway", var times, .. var only] => await HalfwayTrials
        .RunAsync(Number(times), only, Console.Out)
        .ConfigureAwait(false),
    ["full-disk"] => await FullDisk.RunAsync(Console.Out).ConfigureAwait(false),
    ["two-writers", var seconds] => await TwoWriters.RunAsync(Number(seconds), Console.Out).ConfigureAwait(false),
    ["write", var folder, var seconds] => await TwoWriters
        .WriteAsync(folder, Number(seconds), Console.Out)
        .ConfigureAwait(false),
    ["soak", var minutes] => await Soak.RunAsync(Number(minutes), Console.Out).ConfigureAwait(false),
    ["inputs", var times] => await TypedInputs.RunAsync(Number(times), Console.Out).ConfigureAwait(false),
    _ => Usage(),
};
return held ? 0 : 1;

static int Number(string text) => int.Parse(text, CultureInfo.InvariantCulture);

static bool Usage()
{
    Console.Error.WriteLine(
        "kills TIMES | halfway TIMES [backup|restore|import|upgrade] | full-disk | two-writers SECONDS | soak MINUTES | inputs TIMES"
    );
    return false;
}
