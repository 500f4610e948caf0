using Tightcold.Jobs.Entries;
using Tightcold.Jobs.Fields;
using Tightcold.Jobs.Journals;
using Tightcold.Picture.Circuit;
using Tightcold.Picture.Pressures;
using Tightcold.Procedures.Hold;
using Tightcold.Procedures.Vacuum;
using static Tightcold.Picture.Pressures.Evidence;

namespace Tightcold.Picture.Vacuum;

/// <summary>Vacuum entries in absolute terms, whichever gauge they were read on.</summary>
public static class VacuumReadings
{
    /// <summary>Share of the reading that an absolute gauge may be off: 10 to 15 %; common practice.</summary>
    private const double GaugeShare = 0.12;

    /// <summary>People read a dial to about a fifth of its step; assumed.</summary>
    private const double DialScatterShare = 0.2;

    /// <summary>Scatter of an absolute gauge between its own readings, as a share; common practice.</summary>
    private const double AbsoluteScatterShare = 0.02;

    public sealed record Row(Entry Entry, VacuumReading Reading, HoldReading Held, bool OnDial, bool Isolated)
    {
        /// <summary>Hoses and gauge set shut off from the car.</summary>
        public bool HosesAlone => Entry.Fields.Text(FieldNames.HeldPart) == Chosen.HosesAlone;
    }

    /// <summary>All vacuum readings since the pump was last started, in the order of observing; none once the circuit
    /// was opened or put under nitrogen after them: that vacuum is gone.</summary>
    public static Row[] SincePumpStart(JobPicture picture)
    {
        ArgumentNullException.ThrowIfNull(picture);
        var (record, moments) = (picture.Record, picture.Timeline.Moments);
        var start = moments
            .LastOrDefault(moment =>
                moment.Entry.Kind == EntryKinds.Pump && moment.Entry.Fields.Text(FieldNames.Action) == Chosen.Started
            )
            .Entry?.ObservedAt
            ?? DateTimeOffset.MinValue;
        var gone = moments
            .LastOrDefault(moment =>
                moment.After.Inside is Inside.Air or Inside.Nitrogen && moment.Before.Inside is Inside.Vacuum
            )
            .Entry?.ObservedAt
            ?? DateTimeOffset.MinValue;
        var entries = record
            .Journal.OfKind(EntryKinds.VacuumReading)
            .Where(entry => entry.ObservedAt >= start && entry.ObservedAt > gone)
            .ToArray();
        return [.. entries.Select(entry => Interpret(record, entry, entries[0].ObservedAt)).OfType<Row>()];
    }

    internal static Row? Interpret(JobRecord record, Entry entry, DateTimeOffset zero)
    {
        var kit = record.KitAt(entry.ObservedAt);
        var seconds = (entry.ObservedAt - zero).TotalSeconds;
        var temperature = entry.Fields.Si(FieldNames.PartTemperature) ?? entry.Fields.Si(FieldNames.AmbientTemperature);
        var isolated = entry.Fields.Text(FieldNames.PumpValve) == Chosen.Shut;
        if (entry.Fields.Si(FieldNames.AbsolutePressure) is { } absolute)
        {
            var plusMinus = entry.Fields.PlusMinusSi(FieldNames.AbsolutePressure)
                ?? (kit.HasAbsoluteVacuumGauge ? kit.VacuumGaugePlusMinusPa : 7);
            var step = kit.HasAbsoluteVacuumGauge ? kit.VacuumGaugeStepPa : 1.3;
            var sigma = Math.Max(plusMinus / SigmasInPlusMinus, GaugeShare / SigmasInPlusMinus * absolute);
            // The share is one gauge's fixed slope: it mostly cancels between its own readings; 2 % scatter is left.
            var scatter = Math.Max(0.3 * step, AbsoluteScatterShare * absolute);
            return new(
                entry,
                new(seconds, absolute, sigma, Math.Sqrt(step * step / 12 + scatter * scatter), temperature),
                new(seconds, absolute, step, scatter, temperature),
                false,
                isolated
            );
        }
        if (Gauges.Read(record, entry, "dial") is { } dial)
        {
            var plusMinus = entry.Fields.PlusMinusSi(FieldNames.Dial)
                ?? (kit.HasAbsoluteVacuumGauge ? 1700 : kit.VacuumGaugePlusMinusPa);
            var step = kit.HasAbsoluteVacuumGauge ? 1700 : kit.VacuumGaugeStepPa;
            var sigma = Math.Sqrt(Math.Pow(plusMinus / SigmasInPlusMinus, 2) + (dial.AirSigmaPa * dial.AirSigmaPa));
            return new(
                entry,
                new(seconds, dial.Pascals, sigma, Math.Max(step, 300) / Math.Sqrt(12), temperature),
                new(seconds, dial.Pascals, Math.Max(step, 300), DialScatterShare * Math.Max(step, 300), temperature),
                true,
                isolated
            );
        }
        return null;
    }
}
