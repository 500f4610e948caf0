using System.Collections.Immutable;
using System.Diagnostics.CodeAnalysis;
using Tightcold.Jobs.Fields;

namespace Tightcold.App.Desk;

/// <summary>What came of something a person asked for: the value, or every reason why it was refused. Never
/// both.</summary>
public sealed class Outcome<T>
    where T : class
{
    private Outcome(T? value, ImmutableArray<InputProblem> problems) => (Value, Problems) = (value, problems);

    public T? Value { get; }
    public ImmutableArray<InputProblem> Problems { get; }

    [MemberNotNullWhen(true, nameof(Value))]
    public bool Taken => Value is not null;

    internal static Outcome<T> Of(T value) => new(value, []);

    internal static Outcome<T> Refused(params IEnumerable<InputProblem> problems) => new(null, [.. problems]);
}
