using System.Text.Json.Nodes;
using Spectre.Console;
using Tightcold.Findings.Now;
using Tightcold.Quantities;

namespace Tightcold.Cli.Show;

/// <summary>The line on top: what the job waits for, and the one thing to do.</summary>
internal static class NowText
{
    public static void Show(IAnsiConsole console, NowLine now, IMeasureFormat units)
    {
        Page.Heading(console, $"Now{(now.IsUrgent ? ", first of all" : "")}: {now.Waits.Render(units)}");
        if (now.Action is { } action)
            Page.Line(
                console,
                $"  {action.What.Render(units)}{(action.Minutes > 0 ? $" (about {action.Minutes} min)" : "")}."
            );
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
