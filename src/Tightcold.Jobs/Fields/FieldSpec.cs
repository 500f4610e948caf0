namespace Tightcold.Jobs.Fields;

/// <summary>One field of an entry, a car, a kit or a container.</summary>
/// <param name="Name">The name in files and on the command line, kebab-case, stable.</param>
/// <param name="Label">What a person reads.</param>
/// <param name="Type">What may stand in it.</param>
/// <param name="Required">Refused when missing.</param>
/// <param name="Hint">A few words below the field, or null.</param>
public sealed record FieldSpec(string Name, string Label, FieldType Type, bool Required = false, string? Hint = null)
{
    /// <summary>Nothing is made of it: old jobs keep what they hold, no form asks for it any more.</summary>
    public bool Retired { get; init; }
}
