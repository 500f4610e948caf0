using System.Globalization;
using BenchmarkDotNet.Columns;
using BenchmarkDotNet.Configs;
using BenchmarkDotNet.Diagnosers;
using BenchmarkDotNet.Exporters;
using BenchmarkDotNet.Jobs;
using BenchmarkDotNet.Loggers;
using BenchmarkDotNet.Running;
using BenchmarkDotNet.Toolchains.InProcess.Emit;
using Tightcold.Bench;
using Tightcold.Bench.Diagnosing;
using Tightcold.Bench.Host;
using Tightcold.Bench.Loop;

if (args is ["quick"])
{
    QuickTable.Write(Console.Out);
    return;
}

if (args is ["diagnosis"])
{
    DiagnosisSpread.Write(Console.Out);
    return;
}

if (args is ["picture"])
{
    await PictureSpread.WriteAsync(Console.Out).ConfigureAwait(false);
    return;
}

if (args is ["loop-spread"])
{
    LoopSpread.Write(Console.Out);
    return;
}

// The site over loopback; a connection as the last word measures a server instead of a file.
switch (args)
{
    case ["jobs", var many, .. var rest]:
        await HostBench
            .JobsAsync(int.Parse(many, CultureInfo.InvariantCulture), rest.FirstOrDefault(), Console.Out)
            .ConfigureAwait(false);
        return;
    case ["long", var entries, .. var rest]:
        await HostBench
            .LongAsync(int.Parse(entries, CultureInfo.InvariantCulture), rest.FirstOrDefault(), Console.Out)
            .ConfigureAwait(false);
        return;
    case ["clients", var clients, var seconds, .. var rest]:
        var fine = await HostBench
            .ClientsAsync(
                int.Parse(clients, CultureInfo.InvariantCulture),
                TimeSpan.FromSeconds(int.Parse(seconds, CultureInfo.InvariantCulture)),
                rest.FirstOrDefault(),
                Console.Out
            )
            .ConfigureAwait(false);
        Environment.ExitCode = fine ? 0 : 1;
        return;
    case ["damages", var times]:
        Environment.ExitCode = await Damages
            .RunAsync(int.Parse(times, CultureInfo.InvariantCulture), Console.Out)
            .ConfigureAwait(false)
            ? 0
            : 1;
        return;
    default:
        break;
}

// In process, so that a run needs neither a second build nor a network; see docs/performance.md for how to read it.
var config = ManualConfig
    .CreateEmpty()
    .AddJob(
        Job.Default.WithToolchain(InProcessEmitToolchain.Instance)
            .WithWarmupCount(3)
            .WithIterationCount(12)
            .WithIterationTime(Perfolizer.Horology.TimeInterval.FromMilliseconds(100))
    )
    .AddDiagnoser(MemoryDiagnoser.Default)
    .AddColumnProvider(DefaultColumnProviders.Instance)
    .AddLogger(ConsoleLogger.Default)
    .AddExporter(MarkdownExporter.GitHub);
BenchmarkSwitcher.FromAssembly(typeof(Program).Assembly).Run(args, config);
