using System.Diagnostics;
using System.Globalization;
using System.Text;
using System.Text.RegularExpressions;

namespace Tightcold.Injected;

/// <summary>Runs a built test program with one fault on, or none (0).</summary>
internal sealed partial class TestProgram(FaultyCopy copy, TimeSpan patience)
{
    /// <param name="Green">Tests ran and none failed.</param>
    /// <param name="By">The test that failed first, or what else went wrong.</param>
    internal sealed record Result(bool Green, string By, string Said);

    private static readonly string[] Always = ["-noColor", "-stopOnFail"];

    public async Task<Result> RunAsync(Look look, int fault)
    {
        var start = new ProcessStartInfo(copy.ProgramOf(look))
        {
            RedirectStandardOutput = true,
            RedirectStandardError = true,
        };
        foreach (var word in Always.Concat(look.Arguments))
            start.ArgumentList.Add(word);
        start.Environment["TIGHTCOLD_INJECTED"] = fault.ToString(CultureInfo.InvariantCulture);
        using var program = new Process { StartInfo = start };
        var said = new StringBuilder();
        void Hear(object sender, DataReceivedEventArgs line)
        {
            lock (said)
                said.Append(line.Data).Append('\n');
        }
        program.OutputDataReceived += Hear;
        program.ErrorDataReceived += Hear;
        program.Start();
        program.BeginOutputReadLine();
        program.BeginErrorReadLine();
        using var end = new CancellationTokenSource(patience);
        try
        {
            await program.WaitForExitAsync(end.Token).ConfigureAwait(false);
        }
        catch (OperationCanceledException)
        {
            program.Kill(entireProcessTree: true);
            return new(false, $"{look} did not come to its end in {patience.TotalMinutes:0} minutes", said.ToString());
        }
        var text = said.ToString();
        var failed = Failed().Match(text);
        var total = Total().Match(text);
        return failed.Success ? new(false, failed.Groups[1].Value, text)
            : program.ExitCode != 0 ? new(false, $"{look} ended with {program.ExitCode}", text)
            // A class that no longer has that name would catch nothing, and nobody would know.
            : total is not { Success: true, Groups: [_, { Value: not "0" }, ..] }
                ? throw new InvalidOperationException($"{look}: no test ran; is it still called so?\n{text}")
            : new(true, "", text);
    }

    [GeneratedRegex(@"^ *(\S.*?) \[FAIL\]", RegexOptions.Multiline)]
    private static partial Regex Failed();

    [GeneratedRegex(@"Total: (\d+)")]
    private static partial Regex Total();
}
