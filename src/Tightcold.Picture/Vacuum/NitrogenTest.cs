using System.Collections.Immutable;
using Tightcold.Jobs.Entries;
using Tightcold.Jobs.Journals;
using Tightcold.Picture.Pressures;

namespace Tightcold.Picture.Vacuum;

/// <summary>Pressure decay with nitrogen, compared at one temperature: p/T of an ideal gas.</summary>
/// <param name="StartPa">Absolute.</param>
/// <param name="AfterRepairs">No seal or part was changed after it began: it speaks of the car as it is now.</param>
public sealed record NitrogenTest(
    double ChangePa, double SigmaPa, double Seconds, double StartPa, double BarometerPa, bool AfterRepairs, ImmutableArray<Guid> Entries)
{
    /// <summary>The gas in the pipes follows the air no closer than this, K, one standard deviation; assumed.</summary>
    private const double GasTemperatureSigmaK = 0.3;

    public static NitrogenTest? Of(JobRecord record)
    {
        var tests = record.Journal.OfKind(EntryKinds.PressureTest).ToArray();
        if (tests.Length < 2) return null;
        double Pressure(Entry entry) => Gauges.Read(record, entry, "pressure")!.Value.Pascals;
        Entry first = tests[^2], last = tests[^1];
        // The whole run of readings on the last filling: walk back while the pressure does not jump up.
        for (var i = tests.Length - 2; i > 0 && Pressure(tests[i - 1]) >= Pressure(tests[i]) - 20e3 && !OpenedBetween(record, tests[i - 1], tests[i]); i--)
            first = tests[i - 1];
        if (OpenedBetween(record, first, last)) return null;
        var seconds = (last.ObservedAt - first.ObservedAt).TotalSeconds;
        if (!(seconds > 0)) return null;
        var kit = record.KitAt(last.ObservedAt);
        var air = AirPressure.At(record, last.ObservedAt).Pascals;
        double p1 = Pressure(first), p2 = Pressure(last);
        double t1 = first.Fields.Si("gas-temperature")!.Value, t2 = last.Fields.Si("gas-temperature")!.Value;
        // Decay is read on one gauge: its fixed error cancels, the smallest step and the temperature stay.
        var step = kit.Fields.Si("high-gauge-step") ?? kit.HighGaugePlusMinusPa / 2;
        var sigma = Math.Sqrt(2 * step * step / 12 + 2 * Math.Pow(p1 * GasTemperatureSigmaK / t1, 2));
        return new(p2 * t1 / t2 - p1, sigma, seconds, p1, air, !record.Journal.Standing.Any(entry => IsWork(entry) && entry.ObservedAt > first.ObservedAt), [first.Id, last.Id]);
    }

    private static bool IsWork(Entry entry) => entry.Kind is EntryKinds.Opened or EntryKinds.SealChanged or EntryKinds.PartChanged;

    /// <summary>A seal changed between two readings means that the nitrogen was let out: they are two tests.</summary>
    private static bool OpenedBetween(JobRecord record, Entry first, Entry last) =>
        record.Journal.Standing.Any(entry => IsWork(entry) && entry.ObservedAt > first.ObservedAt && entry.ObservedAt < last.ObservedAt);

    public bool Falls => ChangePa < -3 * SigmaPa;
}
