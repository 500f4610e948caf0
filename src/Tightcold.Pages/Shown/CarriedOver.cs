using System.Collections.Immutable;
using Tightcold.Jobs.Entries;
using Tightcold.Jobs.Fields;
using Tightcold.Jobs.Journals;
using Tightcold.Pages.Asked;
using Tightcold.Pages.Forms;
using Tightcold.Pages.Words;
using Tightcold.Tongues;

namespace Tightcold.Pages.Shown;

/// <summary>What stands in a new form already, because it hardly changes between two readings: the air, the container
/// on the scale, the position of a valve. Never a reading that the form is for. Each says below its box whence it
/// comes.</summary>
internal static class CarriedOver
{
    /// <summary>Air changes slowly; after this somebody should look again.</summary>
    private static readonly TimeSpan AirLasts = TimeSpan.FromHours(2),
        ChoicesLast = TimeSpan.FromHours(3);

    public static string AsLastTime => Say.It("As last time.");

    private static readonly ImmutableHashSet<string> Air = [FieldNames.AmbientTemperature, FieldNames.RelativeHumidity];

    public static (Typed Typed, ImmutableDictionary<string, string> Notes) Of(
        JobRecord record,
        Schema schema,
        Visit visit,
        string? spot,
        Typed known
    )
    {
        var reader = visit.Reader;
        var typed = known;
        var notes = ImmutableDictionary.CreateBuilder<string, string>();
        var lately =
            record.Journal.Last(schema.Name) is { } entry && reader.Now - entry.ObservedAt < ChoicesLast ? entry : null;
        foreach (var field in schema.Fields)
        {
            if (known.Number(field.Name).Length > 0)
                continue;
            if (field.Type is FieldType.Spot && spot is not null)
                typed = typed.With(field, spot);
            else if (
                Air.Contains(field.Name)
                && schema.Name != EntryKinds.Weather
                && LastAir(record, field.Name, reader.Now) is { } air
            )
            {
                typed = typed.With(field, Shown(field, air.Fields[field.Name]!, air, visit));
                notes[field.Name] = Say.It($"From {reader.Time(air.ObservedAt)}; change it if it moved.");
            }
            else if (lately is not null && field.CarriedOver && lately.Fields[field.Name] is { } value)
            {
                typed = typed.With(field, Shown(field, value, lately, visit));
                notes[field.Name] = AsLastTime;
            }
            else if (FromTheCar(record, field) is { } label)
            {
                typed = typed.With(field, label);
                notes[field.Name] = Say.It("From the car’s label data.");
            }
            else if (OnlyOne(record, schema.Name, field, reader.Now) is { } only)
            {
                typed = typed.With(field, only);
                notes[field.Name] = Say.It("The only one in the kit.");
            }
        }
        return (typed, notes.ToImmutable());
    }

    /// <summary>A value as it was typed; in the units of now where they were switched since.</summary>
    public static string Shown(FieldSpec field, FieldValue value, Entry entry, Visit visit)
    {
        ArgumentNullException.ThrowIfNull(entry);
        var typed = EntryWords.AsTyped(value);
        return
            entry.WrittenAt < visit.UnitsSince && UnitOptions.Rewrite(field, typed, visit.System) is var (number, unit)
            ? unit.StartsWith(Typed.BelowZero, StringComparison.Ordinal)
                ? $"-{number} {unit[Typed.BelowZero.Length..]}"
                : $"{number} {unit}"
            : typed;
    }

    private static string? FromTheCar(JobRecord record, FieldSpec field) =>
        field.Name == FieldNames.OilType ? record.Car.Fields.Text(FieldNames.OilType) : null;

    /// <summary>Into what is recovered, where the kit has one cylinder for it.</summary>
    private static string? OnlyOne(JobRecord record, string kind, FieldSpec field, DateTimeOffset now) =>
        kind == EntryKinds.Recovery
        && field.Type is FieldType.Container
        && record.KitAt(now).Containers.Where(container => container.IsRecovery).Take(2).ToArray() is [var only]
            ? only.Name
            : null;

    private static Entry? LastAir(JobRecord record, string field, DateTimeOffset now) =>
        record.Journal.Standing.LastOrDefault(entry =>
            entry.Fields[field] is not null && entry.ObservedAt <= now && now - entry.ObservedAt < AirLasts
        );
}
