using System.Text.Json.Nodes;
using Tightcold.App.Typed;
using Tightcold.Cli.Show;
using Tightcold.Jobs.Journals;
using Tightcold.Quantities;
using Tightcold.Storage;
using Tightcold.Tongues;

namespace Tightcold.Cli.Wiring;

/// <summary>From typed words to an exit code: finds the command, and says in a sentence what happened when one
/// fails.</summary>
public static class CommandLine
{
    /// <summary>How long a command that was stopped may take to put things away; the program then ends without
    /// it.</summary>
    private static readonly TimeSpan Grace = TimeSpan.FromMilliseconds(500);

    /// <summary>Every command, as it is called.</summary>
    public static IEnumerable<string> Commands => CommandTable.All.Select(row => row.Path);

    public static string Version => typeof(CommandLine).Assembly.GetName().Version?.ToString(3) ?? "";

    public static async Task<int> RunAsync(string[] args, Surroundings surroundings, CancellationToken cancellation)
    {
        Say.Tongue = Spoken(args, surroundings);
        // On a thread of its own: most commands compute without looking up, and Ctrl-C must end them all the same.
        var work = Task.Run(() => GuardedAsync(args, surroundings, cancellation), CancellationToken.None);
        if (await EndsAsync(work, cancellation).ConfigureAwait(false))
            return await work.ConfigureAwait(false);
        Files.DropUnfinished();
        return Stopped(IsMachine(args), surroundings);
    }

    private static async Task<bool> EndsAsync(Task work, CancellationToken cancellation)
    {
        var stopped = new TaskCompletionSource();
        using var listening = cancellation.Register(stopped.SetResult);
        await Task.WhenAny(work, stopped.Task).ConfigureAwait(false);
        if (!work.IsCompleted)
            await Task.WhenAny(work, Task.Delay(Grace, CancellationToken.None)).ConfigureAwait(false);
        return work.IsCompleted;
    }

    private static async Task<int> GuardedAsync(
        string[] args,
        Surroundings surroundings,
        CancellationToken cancellation
    )
    {
        var machine = IsMachine(args);
        try
        {
            return await DispatchAsync(args, surroundings, cancellation).ConfigureAwait(false);
        }
        catch (RefusedException refused)
        {
            return Problems.Show(refused.Problems, machine, surroundings);
        }
        catch (StoreException trouble)
        {
            return Trouble(Words.Plain(trouble.Says), machine, surroundings);
        }
        catch (OperationCanceledException)
        {
            return Stopped(machine, surroundings);
        }
        catch (Exception trouble) when (trouble is IOException or UnauthorizedAccessException)
        {
            return Trouble(trouble.Message, machine, surroundings);
        }
#pragma warning disable CA1031 // The last wall: a person gets a sentence, never a stack trace.
        catch (Exception bug)
#pragma warning restore CA1031
        {
            return Trouble(
                Say.It(
                    $"The program itself failed ({bug.GetType().Name}: {bug.Message}). What was acknowledged before is "
                        + $"kept; please report this sentence with what you typed."
                ),
                machine,
                surroundings
            );
        }
    }

    private static async Task<int> DispatchAsync(
        string[] args,
        Surroundings surroundings,
        CancellationToken cancellation
    )
    {
        var asksHelp = args.TakeWhile(word => word != "--").Any(word => word is "--help" or "-h" or "-?");
        if (args is ["--version"] or ["-v"])
        {
            Page.Line(surroundings.Out, Version);
            return ExitCode.Done;
        }
        if (CommandTable.Find(args) is { } found)
        {
            var words = args.Skip(found.Words).ToList();
            if (asksHelp)
                HelpPage.Show(surroundings, found.Row, words);
            else
                return await found
                    .Row.Run(surroundings, CommandReader.Read(found.Row, words), cancellation)
                    .ConfigureAwait(false);
            return ExitCode.Done;
        }
        // The shell's question at the Tab key; it is asked by what “completion” prints, not by people.
        if (args is ["complete", ..])
        {
            Page.Raw(surroundings.Out, string.Concat(Completion.Of([.. args.Skip(1)]).Select(word => word + "\n")));
            return ExitCode.Done;
        }
        var typed = args.TakeWhile(word => !CommandReader.IsOption(word)).ToArray();
        if (typed.Length == 0 && (asksHelp || args.Length == 0))
            HelpPage.ShowAll(surroundings);
        else if (typed.Length == 1 && CommandTable.IsBranch(typed[0]))
            HelpPage.ShowBranch(surroundings, typed[0]);
        else
            throw NoCommand(args, typed);
        return ExitCode.Done;
    }

    private static RefusedException NoCommand(string[] args, string[] typed)
    {
        if (typed.Length == 0)
            return new(RefusedException.CommandLine, args[0], "a command stands first; see tightcold --help");
        var branch = CommandTable.IsBranch(typed[0]) ? typed[0] : null;
        var called = branch is null ? typed[0] : string.Join(' ', typed.Take(2));
        var near = Nearest.Of(called, CommandTable.All.Select(row => row.Path))
            ?? Nearest.Of(typed[0], CommandTable.All.Select(row => row.Path.Split(' ')[0]));
        var help = branch is null ? "tightcold --help" : $"tightcold {branch} --help";
        return new(
            "command",
            called,
            near is null || near == called || near == branch
                ? Phrase.Of($"no command is called so; see {help}")
                : Phrase.Of($"perhaps {near} is meant; no command is called so; see {help}")
        );
    }

    /// <summary>The language of all that is said to a person here: asked for, else chosen once, else the terminal's.
    /// What a machine reads is the same in every country.</summary>
    private static Tongue Spoken(string[] args, Surroundings surroundings)
    {
        if (IsMachine(args))
            return AllTongues.English;
        try
        {
            var folder = DataPlace.Resolve(Given(args, "--data")).Folder;
            return Tightcold.Cli.Commands.Remembered.Language(folder, Given(args, "--language"), surroundings.Tongue);
        }
        catch (Exception trouble) when (trouble is StoreException or IOException or ArgumentException)
        {
            // A place that is none is refused by the command itself.
            return AllTongues.Named(Given(args, "--language")) ?? surroundings.Tongue;
        }
    }

    /// <summary>The value of an option wherever it stands, before anything else is read.</summary>
    private static string? Given(string[] args, string option) =>
        args.FirstOrDefault(word => word.StartsWith(option + "=", StringComparison.Ordinal)) is { } joined
            ? joined[(option.Length + 1)..]
            : args.SkipWhile(word => word != option).ElementAtOrDefault(1);

    private static bool IsMachine(string[] args) => args.Contains("--json", StringComparer.Ordinal);

    private static int Stopped(bool machine, Surroundings surroundings) =>
        Trouble(Say.It("Stopped. What was acknowledged before is kept."), machine, surroundings);

    private static int Trouble(string sentence, bool machine, Surroundings surroundings)
    {
        if (machine)
            Page.Machine(surroundings.Out, new JsonObject { ["trouble"] = sentence });
        else
            Page.Line(surroundings.Trouble, sentence);
        return ExitCode.Trouble;
    }
}
