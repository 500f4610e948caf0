using Spectre.Console;
using Tightcold.App.Desk;
using Tightcold.Cli.Wiring;

// Only wires the machine to the program: console, clock, chance, Ctrl-C. All else can be run from a test.
using var stop = new CancellationTokenSource();
Console.CancelKeyPress += (_, pressed) =>
{
    pressed.Cancel = true;
    stop.Cancel();
};
using var ended = System.Runtime.InteropServices.PosixSignalRegistration.Create(
    System.Runtime.InteropServices.PosixSignal.SIGTERM,
    signal =>
    {
        signal.Cancel = true;
        stop.Cancel();
    }
);
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
);
return await CommandLine.RunAsync(args, surroundings, stop.Token).ConfigureAwait(false);

// Behind a pipe nobody sees the edge of a window: lines stay whole there.
static IAnsiConsole Plain(IAnsiConsole console, bool redirected)
{
    if (redirected)
        console.Profile.Width = 4000;
    return console;
}
