using System.Text.Json.Nodes;
using Spectre.Console;
using Tightcold.Findings.Now;
using Tightcold.Quantities;
using Tightcold.Tongues;

namespace Tightcold.Cli.Show;

/// <summary>The line on top: what the job waits for, and the one thing to do.</summary>
internal static class NowText
{
    public static void Show(IAnsiConsole console, NowLine now, IMeasureFormat units)
    {
        var waits = now.Waits.Render(units);
        Page.Heading(console, now.IsUrgent ? Say.It($"Now, first of all: {waits}") : Say.It($"Now: {waits}"));
        if (now.Action is { } action)
        {
            var what = action.What.Render(units);
            var line = action.Minutes > 0 ? Say.It($"{what} (about {action.Minutes} min).") : what + ".";
            Page.Line(console, "  " + line);
        }
        Page.Line(console, "");
    }

    public static JsonObject Machine(NowLine now, IMeasureFormat units) =>
        new()
        {
            ["step"] = FindingText.Kebab(now.Step.ToString()),
            ["waits"] = now.Waits.Render(units),
            ["urgent"] = now.IsUrgent,
            ["what"] = now.Action?.What.Render(units),
            ["tells"] = now.Action?.Tells.Render(units),
            ["minutes"] = now.Action?.Minutes,
            ["entry-kind"] = now.Action?.EntryKind,
        };
}
