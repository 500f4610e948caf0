using System.Collections.Immutable;
using Tightcold.Diagnosis.Leaks;
using Tightcold.Jobs.Circuit;
using Tightcold.Jobs.Entries;
using Tightcold.Jobs.Fields;
using Tightcold.Jobs.Journals;
using Tightcold.LeakTests;
using Tightcold.Quantities;

namespace Tightcold.Picture.Leaks;

/// <summary>One spot by what was written down of it.</summary>
/// <param name="Check">The last look at it.</param>
/// <param name="Leak">The last look that showed a clear leak.</param>
/// <param name="Mended">What mended it since.</param>
/// <param name="Retest">A look after that, which found nothing and could have seen.</param>
/// <param name="Blindness">Why the last look's “nothing” is no evidence.</param>
public sealed record SpotState(
    [Said] string Spot,
    Look? Check,
    Look? Leak,
    Entry? Mended,
    Look? Retest,
    LeakBlindness Blindness
)
{
    public bool Blind => Blindness != LeakBlindness.None;
    public bool Leaking => Leak is not null && Mended is null;
    public bool MendedUntested => Leak is not null && Mended is not null && Retest is null;
    public bool Clear => !Leaking && !MendedUntested && Check is not null && !Blind;
    public bool Trace => Leak is null && Check?.Outcome == LeakTestOutcome.Trace;

    /// <summary>Nobody wrote down the pressure that the last look needed, and no reading tells it.</summary>
    public bool PressureUnknown =>
        Check is { Outcome: LeakTestOutcome.Nothing, Test.PressurePa: null } && Check.Test.Kind.Goes(Feels.Pressure);

    /// <summary>What it rests on.</summary>
    public IEnumerable<Entry> Entries =>
        new[] { Leak?.Entry, Mended, Retest?.Entry, Check?.Entry }.OfType<Entry>().Distinct();

    public static ImmutableArray<SpotState> All(JobRecord record) =>
        [.. Names(record).Select(([Said] string spot) => Of(record, spot))];

    [Said]
    internal static ImmutableArray<string> Names(JobRecord record)
    {
        ArgumentNullException.ThrowIfNull(record);
        return CircuitMap.Spots(record.Car);
    }

    private static SpotState Of(JobRecord record, [Said] string spot)
    {
        var looks = Look.At(record, spot).ToArray();
        var leak = looks.LastOrDefault(look => look.Outcome == LeakTestOutcome.Clear);
        var mended = leak is null
            ? null
            : record.Journal.Standing.LastOrDefault(entry =>
                entry.Kind is EntryKinds.PartChanged or EntryKinds.SealChanged
                && string.Equals(entry.Fields.Text(FieldNames.Spot), spot, StringComparison.OrdinalIgnoreCase)
                && entry.ObservedAt >= leak.Entry.ObservedAt
            );
        LeakBlindness Blindness(Look look) =>
            look.Outcome == LeakTestOutcome.Nothing
                ? LeakDetection.Blindness(look.Test, LeakComponents.FromName(spot), LeakView.Setting(record))
                : LeakBlindness.None;
        var retest = mended is null
            ? null
            : looks.LastOrDefault(look =>
                look.Entry.ObservedAt > mended.ObservedAt
                && look.Outcome == LeakTestOutcome.Nothing
                && Blindness(look) == LeakBlindness.None
            );
        var last = looks.LastOrDefault();
        return new(spot, last, leak, mended, retest, last is null ? LeakBlindness.None : Blindness(last));
    }
}
