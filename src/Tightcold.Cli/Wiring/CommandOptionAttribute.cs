using System.Collections.Immutable;

namespace Tightcold.Cli.Wiring;

/// <summary>An option of a command, written as a person reads it: <c>--to|--output &lt;FILE&gt;</c>, or <c>--json</c>
/// for one without a value.</summary>
[AttributeUsage(AttributeTargets.Property)]
internal sealed class CommandOptionAttribute(string template) : Attribute
{
    public string Template { get; } = template;

    public ImmutableArray<string> Names { get; } = [.. template.Split(' ')[0].Split('|')];

    /// <summary>What stands behind it; null for an option without a value.</summary>
    public string? Value { get; } = template.Split(' ') is [_, var value] ? value.Trim('<', '>') : null;
}

/// <summary>A word of a command by its place: <c>&lt;NUMBER&gt;</c> is needed, <c>[KIND]</c> is not. An array takes all
/// words that are left.</summary>
[AttributeUsage(AttributeTargets.Property)]
internal sealed class CommandArgumentAttribute(int position, string template) : Attribute
{
    public int Position { get; } = position;
    public string Template { get; } = template;
    public bool Needed { get; } = template.StartsWith('<');
    public string Name { get; } = template.Trim('<', '>', '[', ']');
}

/// <summary>The words that an option or argument takes; anything else is refused before the command begins.</summary>
[AttributeUsage(AttributeTargets.Property)]
internal sealed class ChoicesAttribute(params string[] words) : Attribute
{
    public ImmutableArray<string> Words { get; } = [.. words];
}

/// <summary>A file that is written: its folder must be there, and it must not be a folder itself. Asked before the
/// command begins, so that nothing is done when the answer could not be written.</summary>
[AttributeUsage(AttributeTargets.Property)]
internal sealed class OutputFileAttribute : Attribute;

/// <summary>A file that is read; <c>-</c> is standard input where the description says so.</summary>
[AttributeUsage(AttributeTargets.Property)]
internal sealed class InputFileAttribute : Attribute;
