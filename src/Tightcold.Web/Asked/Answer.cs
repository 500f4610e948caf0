using System.Collections.Immutable;
using Microsoft.AspNetCore.Components;

namespace Tightcold.Web.Asked;

/// <summary>What a handler answers; whoever asked it turns that into what travels.</summary>
public abstract record Answer
{
    private Answer() { }

    /// <summary>A page with its parameters; the visit is added by whoever shows it.</summary>
    /// <param name="Refused">It shows what was not taken, and why.</param>
    public sealed record Shows(Type Page, ImmutableArray<(string Name, object? Value)> Parameters, bool Refused)
        : Answer;

    /// <summary>Go and look there.</summary>
    public sealed record Goes(string Address) : Answer;

    /// <summary>Data for a script of ours.</summary>
    public sealed record Tells(object Value) : Answer;

    /// <summary>There is no such thing.</summary>
    public sealed record NotHere : Answer;

    public static Answer Show<TPage>(params ReadOnlySpan<(string Name, object? Value)> parameters)
        where TPage : IComponent => new Shows(typeof(TPage), [.. parameters], Refused: false);

    public static Answer Refuse<TPage>(params ReadOnlySpan<(string Name, object? Value)> parameters)
        where TPage : IComponent => new Shows(typeof(TPage), [.. parameters], Refused: true);

    public static Answer Go(string address) => new Goes(address);
}
