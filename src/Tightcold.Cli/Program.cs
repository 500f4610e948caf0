using System.Runtime.InteropServices;
using Spectre.Console;
using Tightcold.App.Desk;
using Tightcold.Cli.Wiring;

// The question of an installer or a script: answered before anything else is loaded.
if (args is ["--version"])
{
    Console.WriteLine(CommandLine.Version);
    return 0;
}
return await Machine.RunAsync(args).ConfigureAwait(false);

/// <summary>Only wires the machine to the program: console, clock, chance, Ctrl-C. All else can be run from a
/// test.</summary>
internal static class Machine
{
    public static async Task<int> RunAsync(string[] args)
    {
        using var stop = new CancellationTokenSource();
        Console.CancelKeyPress += (_, pressed) =>
        {
            pressed.Cancel = true;
            stop.Cancel();
        };
        using var ended = PosixSignalRegistration.Create(PosixSignal.SIGTERM, signal =>
        {
            signal.Cancel = true;
            stop.Cancel();
        });
        Console.OutputEncoding = new System.Text.UTF8Encoding(encoderShouldEmitUTF8Identifier: false);
        Console.InputEncoding = Console.OutputEncoding;
        var surroundings = new Surroundings(
            Plain(AnsiConsole.Console, Console.IsOutputRedirected),
            Plain(
                AnsiConsole.Create(new AnsiConsoleSettings { Out = new AnsiConsoleOutput(Console.Error) }),
                Console.IsErrorRedirected
            ),
            Console.In,
            TimeProvider.System,
            new RandomIds()
        )
        {
            Tongue = Tightcold.Cli.Commands.Remembered.Terminal(),
        };
        return await CommandLine.RunAsync(args, surroundings, stop.Token).ConfigureAwait(false);
    }

    /// <summary>Behind a pipe nobody sees the edge of a window: lines stay whole there.</summary>
    private static IAnsiConsole Plain(IAnsiConsole console, bool redirected)
    {
        if (redirected)
            console.Profile.Width = 4000;
        return console;
    }
}
