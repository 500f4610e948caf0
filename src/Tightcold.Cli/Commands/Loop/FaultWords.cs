using Tightcold.App.Expectation;
using Tightcold.Cli.Wiring;
using Tightcold.Diagnosis.Faults;
using Tightcold.Quantities;

namespace Tightcold.Cli.Commands.Loop;

/// <summary>Reads <c>low-charge:0.4+air</c>.</summary>
internal static class FaultWords
{
    public static List<IReadOnlyList<AskedFault>> Read(string[]? words) => [.. (words ?? []).Select(Column)];

    private static IReadOnlyList<AskedFault> Column(string word) => [.. word.Split('+').Select(One)];

    private static AskedFault One(string word)
    {
        var parts = word.Split(':');
        if (NamedFault.Find(parts[0].Trim()) is not { } fault)
            throw new RefusedException(
                "fault",
                word,
                $"one of {Phrase.Verbatim(string.Join(", ", NamedFault.All.Select(known => known.Key)))} is allowed"
            );
        var severity = fault.UsualSeverity;
        if (
            parts.Length > 2
            || (parts.Length == 2 && !CommandReader.Number(parts[1], out severity))
            || !(severity >= 0 && severity <= 1)
        )
            throw new RefusedException("fault", word, "a severity of 0 to 1 may stand behind a colon");
        return new AskedFault(fault, severity);
    }
}
