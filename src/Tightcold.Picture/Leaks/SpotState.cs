using System.Collections.Immutable;
using Tightcold.Diagnosis.Leaks;
using Tightcold.Jobs.Circuit;
using Tightcold.Jobs.Entries;
using Tightcold.Jobs.Journals;

namespace Tightcold.Picture.Leaks;

/// <summary>One spot by what was written down of it.</summary>
/// <param name="Check">The last check.</param>
/// <param name="Leak">The last check that showed a clear leak.</param>
/// <param name="Mended">What mended it since.</param>
/// <param name="Retest">A check after that, which found nothing and could have seen.</param>
/// <param name="Blindness">Why the last check's “nothing” is no evidence.</param>
/// <param name="PressureUnknown">Nobody wrote down the pressure that the last check needed.</param>
public sealed record SpotState(
    string Spot,
    Entry? Check,
    Entry? Leak,
    Entry? Mended,
    Entry? Retest,
    LeakBlindness Blindness,
    bool PressureUnknown
)
{
    public bool Blind => Blindness != LeakBlindness.None;
    public bool Leaking => Leak is not null && Mended is null;
    public bool MendedUntested => Leak is not null && Mended is not null && Retest is null;
    public bool Clear => !Leaking && !MendedUntested && Check is not null && !Blind;
    public bool Trace => Leak is null && Check?.Fields.Text("outcome") == "trace";

    public static ImmutableArray<SpotState> All(JobRecord record)
    {
        ArgumentNullException.ThrowIfNull(record);
        return [.. CircuitMap.Spots(record.Car).Select(spot => Of(record, spot))];
    }

    private static SpotState Of(JobRecord record, string spot)
    {
        bool Here(Entry entry) => string.Equals(entry.Fields.Text("spot"), spot, StringComparison.OrdinalIgnoreCase);
        var checks = record.Journal.OfKind(EntryKinds.LeakCheck).Where(Here).ToArray();
        var leak = checks.LastOrDefault(entry => entry.Fields.Text("outcome") is "clear leak");
        var mended = leak is null
            ? null
            : record.Journal.Standing.LastOrDefault(entry =>
                entry.Kind is EntryKinds.PartChanged or EntryKinds.SealChanged
                && Here(entry)
                && entry.ObservedAt >= leak.ObservedAt
            );
        var retest = mended is null
            ? null
            : checks.LastOrDefault(entry =>
                entry.ObservedAt > mended.ObservedAt && entry.Fields.Text("outcome") == "nothing"
            );
        var last = checks.LastOrDefault();
        var blindness =
            last is null || last.Fields.Text("outcome") != "nothing"
                ? LeakBlindness.None
                : LeakDetection.Blindness(
                    LeakView.TestOf(record, last),
                    LeakComponents.FromName(spot),
                    LeakView.Setting(record)
                );
        var unknown =
            last is not null
            && last.Fields.Text("outcome") == "nothing"
            && last.Fields.Get<Quantities.GaugePressure>("system-pressure") is null
            && last.Fields.Text("test") is not ("UV lamp" or "oil trace" or "dye at the drain");
        return new(spot, last, leak, mended, blindness == LeakBlindness.None ? retest : null, blindness, unknown);
    }
}
