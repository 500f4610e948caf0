using BenchmarkDotNet.Columns;
using BenchmarkDotNet.Configs;
using BenchmarkDotNet.Diagnosers;
using BenchmarkDotNet.Exporters;
using BenchmarkDotNet.Jobs;
using BenchmarkDotNet.Loggers;
using BenchmarkDotNet.Running;
using BenchmarkDotNet.Toolchains.InProcess.Emit;
using Tightcold.Bench;
using Tightcold.Bench.Loop;

if (args is ["quick"])
{
    QuickTable.Write(Console.Out);
    return;
}

if (args is ["loop-spread"])
{
    LoopSpread.Write(Console.Out);
    return;
}

// In process, so that a run needs neither a second build nor a network; see docs/performance.md for how to read it.
var config = ManualConfig.CreateEmpty()
    .AddJob(Job.Default.WithToolchain(InProcessEmitToolchain.Instance).WithWarmupCount(3).WithIterationCount(12).WithIterationTime(Perfolizer.Horology.TimeInterval.FromMilliseconds(100)))
    .AddDiagnoser(MemoryDiagnoser.Default)
    .AddColumnProvider(DefaultColumnProviders.Instance)
    .AddLogger(ConsoleLogger.Default)
    .AddExporter(MarkdownExporter.GitHub);
BenchmarkSwitcher.FromAssembly(typeof(Program).Assembly).Run(args, config);
