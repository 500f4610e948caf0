namespace Tightcold.Injected;

/// <summary>A test program, whole or some of its classes: <c>Findings</c>, or <c>Findings StatesTests</c>.</summary>
internal sealed record Look(string Suite, string Classes)
{
    public static Look Of(string text)
    {
        var words = text.Split(' ', StringSplitOptions.RemoveEmptyEntries | StringSplitOptions.TrimEntries);
        return new(words[0], string.Join(' ', words[1..]));
    }

    public string Program => $"Tightcold.{Suite}.Tests";

    /// <summary>One test of it, by its full name.</summary>
    public string? Test { get; init; }

    public IEnumerable<string> Arguments =>
        Test is not null
            ? ["-method", Test]
            : Classes
                .Split(' ', StringSplitOptions.RemoveEmptyEntries)
                .SelectMany(name => new[] { "-class", $"*.{name}" });

    public override string ToString() => Classes.Length == 0 ? Suite : $"{Suite} {Classes}";
}
