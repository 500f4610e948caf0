using System.Diagnostics;
using System.Text.Json.Nodes;
using Tightcold.Storage;

namespace Tightcold.Cli.Tests.Words;

/// <summary>Ctrl-C ends every command within a second, with nothing half done.</summary>
public sealed class StoppedTests : IDisposable
{
    private const int Interrupt = 2;
    private readonly Desk desk = new();

    public void Dispose() => desk.Dispose();

    /// <summary>Commands that work for a long time or wait for somebody.</summary>
    [Theory]
    [InlineData("job", "add", "1", "--lines", "-")]
    [InlineData("job", "import", "-")]
    [InlineData("serve", "--port", "0")]
    public async Task Ctrl_C_ends_it(params string[] words)
    {
        Assert.SkipWhen(OperatingSystem.IsWindows(), "signals are sent by kill");
        await desk.OpenJobAsync();
        JobStore.Release();
        var (took, code) = await InterruptAsync(words);
        Assert.Equal(words[0] == "serve" ? 0 : 2, code);
        // How long is told and not judged: a slow machine is no fault. What never looks up would go on for hours.
        TestContext.Current.TestOutputHelper!.WriteLine($"{words[0]} ended after {took.TotalSeconds:0.00} s");
        Assert.Empty(Directory.GetFiles(desk.Folder, "*.unfinished"));
        Assert.Empty((await desk.JsonAsync("check"))["troubles"]!.AsArray());
    }

    private async Task<(TimeSpan Took, int Code)> InterruptAsync(string[] words)
    {
        using var program = RealProgram.Start([.. words, "--data", desk.Folder]);
        var errors = program.StandardError.ReadToEndAsync(TestContext.Current.CancellationToken);
        var said = program.StandardOutput.ReadToEndAsync(TestContext.Current.CancellationToken);
        // Until it is at work: its processor time tells, whatever else the machine does.
        var began = Stopwatch.StartNew();
        var busy = TimeSpan.FromMilliseconds(words[0] is "serve" ? 1500 : 700);
        while (!program.HasExited && program.TotalProcessorTime < busy && began.Elapsed < TimeSpan.FromSeconds(20))
            await Task.Delay(20, TestContext.Current.CancellationToken);
        Assert.False(program.HasExited, $"it ended by itself: {(program.HasExited ? await errors + await said : "")}");
        var sent = Stopwatch.StartNew();
        using var kill = Process.Start("kill", [$"-{Interrupt}", $"{program.Id}"]);
        using var bound = CancellationTokenSource.CreateLinkedTokenSource(TestContext.Current.CancellationToken);
        bound.CancelAfter(TimeSpan.FromMinutes(1));
        try
        {
            await program.WaitForExitAsync(bound.Token);
        }
        catch (OperationCanceledException) when (!TestContext.Current.CancellationToken.IsCancellationRequested)
        {
            program.Kill(entireProcessTree: true);
            Assert.Fail("it did not end within a minute");
        }
        var took = sent.Elapsed;
        Assert.DoesNotContain("   at ", await errors, StringComparison.Ordinal);
        if (words[0] != "serve")
            Assert.Contains("Stopped.", await errors, StringComparison.Ordinal);
        return (took, program.ExitCode);
    }

    /// <summary>A pipe that somebody holds open and writes nothing into.</summary>
    private sealed class NeverEnds : TextReader
    {
        private readonly ManualResetEventSlim shut = new();

        public override int Read()
        {
            shut.Wait(TestContext.Current.CancellationToken);
            return -1;
        }

        public override int Read(char[] buffer, int index, int count) => Math.Max(0, Read());

        public override int Peek() => Read();

        public override Task<string> ReadToEndAsync() => Task.FromResult(ReadToEnd());

        public override Task<string> ReadToEndAsync(CancellationToken cancellationToken) => ReadToEndAsync();

        protected override void Dispose(bool disposing)
        {
            shut.Set();
            base.Dispose(disposing);
        }
    }

    [Fact]
    public async Task A_command_that_looks_up_from_nothing_is_left_behind()
    {
        await desk.OpenJobAsync();
        using var stop = new CancellationTokenSource(TimeSpan.FromMilliseconds(300));
        var began = Stopwatch.StartNew();
        using var silent = new NeverEnds();
        var answer = await desk.RunAsync(["job", "import", "-", "--json"], stop: stop.Token, reader: silent);
        Assert.Equal(2, answer.Code);
        Assert.True(began.Elapsed < TimeSpan.FromMinutes(2), "what it reads from never ends");
        Assert.StartsWith("Stopped.", JsonNode.Parse(answer.Out)!["trouble"]!.ToString(), StringComparison.Ordinal);
    }
}
