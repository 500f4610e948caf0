using System.Collections.Immutable;
using System.ComponentModel;
using System.Reflection;
using Tightcold.Quantities;

namespace Tightcold.Cli.Wiring;

/// <summary>An option or a word by its place, as its settings describe it.</summary>
/// <param name="Names">The names of an option, the usual one first; empty for a word by its place.</param>
/// <param name="Value">What stands there, such as FILE; null for an option without a value.</param>
internal sealed record WordSpec(
    PropertyInfo Property,
    ImmutableArray<string> Names,
    string? Value,
    bool Needed,
    [Said] string Says,
    ImmutableArray<string> Choices
)
{
    public bool Many => Property.PropertyType.IsArray;

    public bool Writes => Property.IsDefined(typeof(OutputFileAttribute));

    public bool Reads => Property.IsDefined(typeof(InputFileAttribute));

    /// <summary>How a sentence calls it.</summary>
    public string Name => Names.IsEmpty ? Value!.ToLowerInvariant() : Names[0];

    /// <summary>How a line of help calls it.</summary>
    public string Shown =>
        Names.IsEmpty
            ? (Needed ? $"<{Value}>" : $"[{Value}]") + (Many ? "…" : "")
            : string.Join(", ", Names) + (Value is null ? "" : $" <{Value}>");
}

/// <summary>What a command takes, read from its settings: the one description from which parsing, help, completion and
/// the manual page are made.</summary>
internal sealed record CommandWords(ImmutableArray<WordSpec> Arguments, ImmutableArray<WordSpec> Options)
{
    public WordSpec? Option(string name) => Options.FirstOrDefault(option => option.Names.Contains(name));

    public static CommandWords Of(Type settings)
    {
        // A command's own options before those that all commands take.
        var properties = settings
            .GetProperties()
            .OrderByDescending(property => Depth(property.DeclaringType!))
            .ThenBy(property => property.MetadataToken)
            .ToList();
        return new(
            [
                .. properties
                    .Select(property => (property, argument: property.GetCustomAttribute<CommandArgumentAttribute>()))
                    .Where(pair => pair.argument is not null)
                    .OrderBy(pair => pair.argument!.Position)
                    .Select(pair => Spec(pair.property, [], pair.argument!.Name, pair.argument.Needed)),
            ],
            [
                .. properties
                    .Select(property => (property, option: property.GetCustomAttribute<CommandOptionAttribute>()))
                    .Where(pair => pair.option is not null)
                    .Select(pair => Spec(pair.property, pair.option!.Names, pair.option.Value, false)),
            ]
        );
    }

    private static WordSpec Spec(PropertyInfo property, ImmutableArray<string> names, string? value, bool needed) =>
        new(
            property,
            names,
            value,
            needed,
            property.GetCustomAttribute<DescriptionAttribute>()?.Description ?? "",
            property.GetCustomAttribute<ChoicesAttribute>()?.Words ?? []
        );

    private static int Depth(Type type) => type.BaseType is { } above ? 1 + Depth(above) : 0;
}
