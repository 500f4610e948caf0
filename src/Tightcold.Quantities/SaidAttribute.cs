namespace Tightcold.Quantities;

/// <summary>A text that people read: every constant that is handed to it, kept in it or given back by it is a message of
/// the catalogues. The tool that gathers messages looks for this and for <see cref="Phrase"/>, for nothing
/// else.</summary>
/// <param name="context">Where it stands, when the same English word is said in two ways elsewhere.</param>
[AttributeUsage(
    AttributeTargets.Parameter
        | AttributeTargets.Property
        | AttributeTargets.Field
        | AttributeTargets.Method
        | AttributeTargets.ReturnValue
)]
public sealed class SaidAttribute(string? context = null) : Attribute
{
    public string? Context { get; } = context;
}
