using System.Globalization;
using System.Text.RegularExpressions;
using Tightcold.Jobs.Cars;
using Tightcold.Jobs.Journals;
using Tightcold.Jobs.Kits;
using Tightcold.Quantities;

namespace Tightcold.LogStore.Lines;

/// <summary>Whose a line is. Its text carries a sum of its own and stands at several places, so that it can be told of
/// a damaged line whose it was: a copy that the damage left alone proves itself.</summary>
/// <param name="What">One of <see cref="Car"/>, <see cref="Kit"/>, <see cref="Job"/>.</param>
/// <param name="Number">Of a job; 0 otherwise.</param>
public sealed partial record LogSubject(string What, Guid Id, int Number = 0)
{
    public const string Car = "car",
        Kit = "kit",
        Job = "job";

    /// <summary>Digits of the sum: enough against chance, which is all it is held against.</summary>
    private const int SumDigits = 8;

    internal static LogSubject Of(Car car) => new(Car, car.Id);

    internal static LogSubject Of(Kit kit) => new(Kit, kit.Id);

    internal static LogSubject Of(Job job) => new(Job, job.Id, job.Number);

    /// <summary>As a person is told of it.</summary>
    internal Phrase Name =>
        What == Job ? Phrase.Of($"Job {Number}")
        : What == Car ? Phrase.Of($"The car {Id.ToString()}")
        : Phrase.Of($"The kit {Id.ToString()}");

    internal string Text
    {
        get
        {
            var plain =
                What == Job ? string.Create(CultureInfo.InvariantCulture, $"{What} {Number} {Id}") : $"{What} {Id}";
            return $"{plain} {Sum(plain)}";
        }
    }

    /// <summary>All whose text stands whole in this one, each once.</summary>
    internal static IEnumerable<LogSubject> AllIn(string text) =>
        Form()
            .Matches(text)
            .Where(found => Sum(found.Groups["plain"].Value) == found.Groups["sum"].Value)
            .Select(found =>
                int.TryParse(
                    found.Groups["number"].Value,
                    NumberStyles.None,
                    CultureInfo.InvariantCulture,
                    out var number
                )
                    ? new LogSubject(Job, Guid.Parse(found.Groups["id"].Value), number)
                    : new LogSubject(found.Groups["what"].Value, Guid.Parse(found.Groups["id"].Value))
            )
            .Distinct();

    private static string Sum(string plain) => LogLine.Hash(plain)[..SumDigits];

    [GeneratedRegex(
        "(?<plain>(?:(?<what>car|kit)|job (?<number>[1-9][0-9]{0,9})) "
            + "(?<id>[0-9a-f]{8}(?:-[0-9a-f]{4}){3}-[0-9a-f]{12})) (?<sum>[0-9a-f]{8})"
    )]
    private static partial Regex Form();
}
