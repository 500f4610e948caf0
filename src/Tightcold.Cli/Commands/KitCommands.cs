using System.ComponentModel;
using System.Text.Json.Nodes;
using Tightcold.Cli.Show;
using Tightcold.Cli.Wiring;
using Tightcold.Jobs.Fields;
using Tightcold.Jobs.Json;
using Tightcold.Jobs.Kits;
using Tightcold.Procedures.Places;
using Tightcold.Tongues;

namespace Tightcold.Cli.Commands;

internal sealed class KitSettings : DeskSettings
{
    [CommandArgument(0, "[name=value]")]
    [Description("Fields; an empty value clears one.")]
    public string[]? Fields { get; init; }

    [CommandOption("--from <TIME>")]
    [Description("From when on this holds, up to the next change; now unless given.")]
    public string? From { get; init; }
}

internal sealed class KitShowSettings : DeskSettings
{
    [CommandOption("--at <TIME>")]
    [Description("As it was then; as it is now unless given.")]
    public string? At { get; init; }
}

internal sealed class KitShow(Surroundings surroundings) : DeskCommand<KitShowSettings>(surroundings)
{
    protected override async Task<int> RunAsync(KitShowSettings settings, CancellationToken cancellation)
    {
        var at = Moments.Read("at", settings.At, Surroundings.Clock);
        return KitAnswer.Give(await Desk.KitAsync(at, cancellation).ConfigureAwait(false), settings.Json, Out, Units);
    }
}

internal sealed class KitUndo(Surroundings surroundings) : DeskCommand<DeskSettings>(surroundings)
{
    protected override async Task<int> RunAsync(DeskSettings settings, CancellationToken cancellation)
    {
        var kit = (await Desk.UndoKitAsync(cancellation).ConfigureAwait(false)).Value();
        if (!settings.Json)
            Page.Line(Out, Say.It("The last change is taken back; tightcold kit undo once more brings it again."));
        return KitAnswer.Give(kit, settings.Json, Out, Units);
    }
}

internal sealed class KitSet(Surroundings surroundings) : DeskCommand<KitSettings>(surroundings)
{
    protected override async Task<int> RunAsync(KitSettings settings, CancellationToken cancellation)
    {
        var from = Moments.Read("from", settings.From, Surroundings.Clock);
        var fields = FieldArguments.Read(settings.Fields);
        var kit = (await Desk.UpdateKitAsync(fields, from, cancellation).ConfigureAwait(false)).Value();
        var answer = KitAnswer.Give(kit, settings.Json, Out, Units);
        // A code that is also short for a state somewhere is taken, and the other reading named once.
        if (
            !settings.Json
            && fields.TryGetValue("jurisdiction", out var typed)
            && Gazetteer.Read(typed) is { IsKnown: true, Sentence: var doubt }
            && Units.Says(doubt) is { Length: > 0 } sentence
        )
            Page.Line(Out, sentence);
        return answer;
    }
}

internal sealed class KitAddContainer(Surroundings surroundings) : DeskCommand<KitSettings>(surroundings)
{
    protected override async Task<int> RunAsync(KitSettings settings, CancellationToken cancellation)
    {
        var from = Moments.Read("from", settings.From, Surroundings.Clock);
        var kit = (
            await Desk.AddContainerAsync(FieldArguments.Read(settings.Fields), from, cancellation).ConfigureAwait(false)
        ).Value();
        return KitAnswer.Give(kit, settings.Json, Out, Units);
    }
}

/// <summary>The kit as every kit command answers.</summary>
internal static class KitAnswer
{
    public static int Give(Kit kit, bool json, Spectre.Console.IAnsiConsole console, App.Units.ReaderUnits units)
    {
        if (json)
        {
            Page.Machine(console, new JsonObject { ["kit"] = JobDocument.WriteKit(kit) });
            return ExitCode.Done;
        }
        Page.Heading(console, Say.It($"Kit from {Moments.Show(kit.From)}"));
        var lines = BagText.Lines(Kit.Schema, kit.Fields, units).ToList();
        if (lines.Count == 0)
            lines.Add(Say.It("no instrument described yet; common ones are assumed (tightcold kit set)"));
        foreach (var line in lines)
            Page.Line(console, "  " + line);
        foreach (var container in kit.Containers)
        {
            var fields = container.Fields.Without(FieldNames.Name);
            var line = BagText.OneLine(Jobs.Kits.Container.Schema, fields, units);
            Page.Line(console, "  " + Say.It($"{container.Name}: {line}"));
        }
        return ExitCode.Done;
    }
}
