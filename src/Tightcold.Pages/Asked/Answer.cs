using System.Collections.Immutable;
using System.Text;
using System.Text.Json.Nodes;
using Microsoft.AspNetCore.Components;

namespace Tightcold.Pages.Asked;

/// <summary>What a handler answers; its host turns that into what travels.</summary>
public abstract record Answer
{
    private Answer() { }

    /// <summary>A page with its parameters; the visit is added by whoever shows it.</summary>
    /// <param name="Refused">It shows what was not taken, and why.</param>
    public sealed record Shows(Type Page, ImmutableArray<(string Name, object? Value)> Parameters, bool Refused)
        : Answer
    {
        /// <summary>It comes again by itself after so many seconds; null where it stays.</summary>
        public int? AgainSeconds { get; init; }
    }

    /// <summary>The job card: a page of its own, with its styles inside.</summary>
    /// <param name="FileName">To be kept under this name; null to be looked at.</param>
    public sealed record Card(string Html, string? FileName) : Answer;

    /// <summary>A file to be kept.</summary>
    public sealed record Hands(byte[] Body, string MediaType, string FileName) : Answer
    {
        public Hands(string text, string mediaType, string fileName)
            : this(Encoding.UTF8.GetBytes(text), mediaType, fileName) { }
    }

    /// <summary>A file that is made while it travels, because it may be large.</summary>
    /// <param name="Copies">The data's version that is whole in it, where it is a copy of everything.</param>
    public sealed record Pours(IAsyncEnumerable<string> Parts, string MediaType, string FileName, string? Copies = null)
        : Answer;

    /// <summary>A picture, which never changes under its address.</summary>
    public sealed record Picture(byte[] Body, string MediaType) : Answer;

    /// <summary>Go and look there.</summary>
    public sealed record Goes(string Address) : Answer;

    /// <summary>The device remembers a choice, then goes on.</summary>
    public sealed record Remembers(Choice What, string Value, string Address) : Answer;

    /// <summary>Data for a script of ours.</summary>
    /// <param name="Version">Another one whenever the data are others; who has this one needs them not again. Null
    /// where nobody asks often.</param>
    public sealed record Tells(JsonObject Value, string? Version = null) : Answer;

    /// <summary>There is no such thing.</summary>
    public sealed record NotHere : Answer;

    public static Answer Show<TPage>(params ReadOnlySpan<(string Name, object? Value)> parameters)
        where TPage : IComponent => new Shows(typeof(TPage), [.. parameters], Refused: false);

    public static Answer Refuse<TPage>(params ReadOnlySpan<(string Name, object? Value)> parameters)
        where TPage : IComponent => new Shows(typeof(TPage), [.. parameters], Refused: true);

    /// <summary>The page, refused where there are problems to show.</summary>
    public static Answer Show<TPage>(bool refused, params ReadOnlySpan<(string Name, object? Value)> parameters)
        where TPage : IComponent => new Shows(typeof(TPage), [.. parameters], refused);

    public static Answer Go(string address) => new Goes(address);
}
