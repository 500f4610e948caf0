using System.ComponentModel;
using System.Text.Json.Nodes;
using Tightcold.Cli.Show;
using Tightcold.Cli.Wiring;
using Tightcold.Tongues;

namespace Tightcold.Cli.Commands.Shell;

internal sealed class ManSettings : DeskSettings
{
    [CommandOption("--to|--output <FILE>")]
    [Description("File to write; standard output unless given.")]
    [OutputFile]
    public string? To { get; init; }
}

/// <summary>The manual page, made from the same description as the help.</summary>
internal sealed class ManCommand(Surroundings surroundings) : Command<ManSettings>
{
    public override async Task<int> ExecuteAsync(ManSettings settings, CancellationToken cancellation)
    {
        // The manual is English as a whole; what is said of it is not.
        var spoken = Say.Tongue;
        Say.Tongue = AllTongues.English;
        var page = ManPage.Write();
        Say.Tongue = spoken;
        if (settings.To is not { } path)
        {
            Page.Raw(surroundings.Out, page);
            return ExitCode.Done;
        }
        await Files.WriteAsync("--to", path, page, cancellation).ConfigureAwait(false);
        if (settings.Json)
            Page.Machine(surroundings.Out, new JsonObject { ["written"] = path });
        else
            Page.Line(surroundings.Out, Say.It($"written to {path}; read it with: man -l {path}"));
        return ExitCode.Done;
    }
}
