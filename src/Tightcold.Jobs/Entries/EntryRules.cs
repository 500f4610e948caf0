using Tightcold.Jobs.Circuit;
using Tightcold.Jobs.Fields;
using Tightcold.Jobs.Journals;
using Tightcold.Quantities;

namespace Tightcold.Jobs.Entries;

/// <summary>What may enter a journal: the schema, the clock, names that exist, masses that can be, and the refusal
/// of what can hurt. What is merely unlikely passes; findings speak of it.</summary>
public static class EntryRules
{
    /// <summary>Two devices' clocks may differ by this much; more is a clock that runs wrong.</summary>
    public static readonly TimeSpan ClockTolerance = TimeSpan.FromMinutes(10);

    /// <summary>A can is never warmed past 52 °C (125 °F): label text of small cans, common practice; there R-134a
    /// and R-1234yf stand at about 13.9 and 13.7 bar absolute.</summary>
    public const double HighestBathKelvins = 273.15 + 52;

    /// <summary>Above 20 bar (290 psig) no nitrogen test of a vehicle low side is sound; usual tests are 10 to 14
    /// bar, common practice; the plate of the vehicle rules.</summary>
    public const double HighestTestPa = 2.0e6;

    private const double HighestBarometerPa = 108_400;

    /// <param name="record">The job as it stands.</param>
    /// <param name="entry">The entry that wants in.</param>
    /// <param name="barometer">Air pressure of the place, or null when neither barometer nor altitude is known.</param>
    public static IReadOnlyList<InputProblem> Check(JobRecord record, Entry entry, AbsolutePressure? barometer)
    {
        if (EntryKinds.Find(entry.Kind) is not { } schema)
            return
            [
                InputProblem.Of(
                    "kind",
                    entry.Kind,
                    $"known kinds are "
                        + $"{Phrase.Verbatim(string.Join(", ", EntryKinds.All.Select(known => known.Name)))}"
                ),
            ];
        var problems = new List<InputProblem>(schema.Check(entry.Fields));
        problems.AddRange(CheckClock(entry));
        problems.AddRange(CheckOrder(record, entry));
        problems.AddRange(CheckCorrection(record, entry));
        return problems.Count > 0 ? problems : CheckContent(record, entry, schema, barometer);
    }

    /// <summary>The same rules for an entry that comes with its whole job, in a file: all but that it must have been
    /// written after those already there, for two devices write beside each other.</summary>
    public static IReadOnlyList<InputProblem> CheckTaken(JobRecord record, Entry entry, AbsolutePressure? barometer)
    {
        if (EntryKinds.Find(entry.Kind) is not { } schema)
            return Check(record, entry, barometer);
        var problems = new List<InputProblem>(schema.Check(entry.Fields));
        problems.AddRange(CheckClock(entry));
        problems.AddRange(CheckCorrection(record, entry));
        return problems.Count > 0 ? problems : CheckContent(record, entry, schema, barometer);
    }

    /// <summary>The rules for an entry that comes with its whole journal and the chain of it: it passed when it was
    /// written. The car and the kit may have changed since, there or here, and what the other store wrote down meanwhile
    /// it could not know; so it is held to what needs none of them.</summary>
    public static IReadOnlyList<InputProblem> CheckChained(JobRecord record, Entry entry)
    {
        ArgumentNullException.ThrowIfNull(record);
        ArgumentNullException.ThrowIfNull(entry);
        if (EntryKinds.Find(entry.Kind) is not { } schema)
            return Check(record, entry, null);
        var problems = new List<InputProblem>(schema.Check(entry.Fields));
        problems.AddRange(CheckClock(entry));
        problems.AddRange(CheckCorrection(record, entry));
        problems.AddRange(CheckVacuumFloor(entry, schema, null));
        var alone = record with { Kits = [], Journal = Journal.Create([entry]).Journal ?? Journal.Empty };
        problems.AddRange(EntryKinds.Kind(entry.Kind).Refuse(alone, entry));
        return problems;
    }

    private static List<InputProblem> CheckContent(
        JobRecord record,
        Entry entry,
        Schema schema,
        AbsolutePressure? barometer
    )
    {
        var problems = new List<InputProblem>();
        problems.AddRange(CheckNames(record, entry, schema));
        problems.AddRange(CheckVacuumFloor(entry, schema, barometer));
        problems.AddRange(CheckMasses(record, entry));
        problems.AddRange(EntryKinds.Kind(entry.Kind).Refuse(record, entry));
        return problems;
    }

    private static IEnumerable<InputProblem> CheckClock(Entry entry)
    {
        if (entry.ObservedAt > entry.WrittenAt + ClockTolerance)
            yield return InputProblem.Of(
                "observed-at",
                Stamp(entry.ObservedAt),
                $"an observation cannot lie after its writing ({Phrase.Verbatim(Stamp(entry.WrittenAt))})"
            );
    }

    private static IEnumerable<InputProblem> CheckOrder(JobRecord record, Entry entry)
    {
        if (record.Journal.LastWritten is { } last && entry.WrittenAt < last - ClockTolerance)
            yield return InputProblem.Of(
                "written-at",
                Stamp(entry.WrittenAt),
                $"the last entry was written at {Phrase.Verbatim(Stamp(last))}, so this clock went backwards; set it "
                    + $"right first (nothing recorded is lost)"
            );
    }

    private static IEnumerable<InputProblem> CheckCorrection(JobRecord record, Entry entry)
    {
        if (entry.Supersedes is { } old)
        {
            if (record.Journal.Find(old) is null)
                yield return InputProblem.Of("supersedes", old.ToString(), $"no entry of this job has that id");
            if (string.IsNullOrWhiteSpace(entry.Reason))
                yield return InputProblem.Of("reason", "", $"a correction needs a few words why");
        }
        else if (entry.Kind == EntryKinds.Struck)
        {
            yield return InputProblem.Of("supersedes", "", $"which entry is struck is needed here");
        }
    }

    private static IEnumerable<InputProblem> CheckNames(JobRecord record, Entry entry, Schema schema)
    {
        foreach (var field in schema.Fields)
        {
            if (entry.Fields.Text(field.Name) is not { } name)
                continue;
            if (field.Type is FieldType.Spot)
            {
                if (!CircuitMap.Known(record.Car).Contains(name, StringComparer.OrdinalIgnoreCase))
                    yield return InputProblem.Of(field.Name, name, $"spots of this car are {Spots(record)}");
            }
            else if (field.Type is FieldType.Spots)
            {
                var known = CircuitMap.Known(record.Car);
                foreach (var one in FieldType.Spots.Of(name))
                    if (!known.Contains(one, StringComparer.OrdinalIgnoreCase))
                        yield return InputProblem.Of(field.Name, one, $"spots of this car are {Spots(record)}");
            }
            else if (field.Type is FieldType.Container && record.KitAt(entry.ObservedAt).Find(name) is null)
            {
                var known = record.KitAt(entry.ObservedAt).Containers;
                yield return InputProblem.Of(
                    field.Name,
                    name,
                    known.Length == 0
                        ? (Phrase.Handler)$"the kit holds no can or cylinder yet; enter it in the kit first"
                        : $"the kit holds "
                            + $"{Phrase.Verbatim(string.Join(", ", known.Select(container => container.Name)))}"
                );
            }
        }
    }

    /// <summary>No gauge can read more vacuum than the surrounding air has pressure (2 kPa left for the
    /// gauge).</summary>
    private static IEnumerable<InputProblem> CheckVacuumFloor(Entry entry, Schema schema, AbsolutePressure? barometer)
    {
        // Not known: as at the highest barometer ever, so that nothing true is refused.
        var air = barometer ?? AbsolutePressure.FromPascals(HighestBarometerPa);
        foreach (var field in schema.Fields)
        {
            if (
                field.Type is FieldType.Quantity { Kind: QuantityKind.GaugePressure }
                && entry.Fields[field.Name] is FieldValue.Quantity typed
                && typed.Value.As<GaugePressure>() < AbsolutePressure.FromPascals(0).ToGauge(air.Plus(2000))
            )
            {
                yield return InputProblem.Of(
                    field.Name,
                    typed.AsTyped,
                    $"that is below perfect vacuum; where the air has {air}, "
                        + $"{AbsolutePressure.FromPascals(0).ToGauge(air)} is the lowest there can be"
                );
            }
        }
    }

    private static IEnumerable<InputProblem> CheckMasses(JobRecord record, Entry entry)
    {
        if (
            entry.Fields.Text(FieldNames.Container) is not { } name
            || record.KitAt(entry.ObservedAt).Find(name) is not { } container
        )
            yield break;
        foreach (var field in new[] { "gross", FieldNames.GrossBefore, FieldNames.GrossAfter })
        {
            if (
                entry.Fields[field] is FieldValue.Quantity typed
                && container.Tare is { } tare
                && typed.Value.Si < tare.Kilograms - 1e-9
            )
                yield return InputProblem.Of(
                    field,
                    typed.AsTyped,
                    $"{Phrase.Verbatim(container.Name)} cannot weigh less than its tare, {tare}"
                );
        }
    }

    /// <summary>The spots of the car, each as it is called; the person's own ones stay as they are.</summary>
    private static Phrase Spots(JobRecord record) =>
        Phrase.Join(", ", CircuitMap.Spots(record.Car).Select(Phrase.Words));

    private static string Stamp(DateTimeOffset moment) =>
        moment.ToString("yyyy-MM-dd HH:mm", System.Globalization.CultureInfo.InvariantCulture);
}
