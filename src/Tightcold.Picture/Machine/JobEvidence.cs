using System.Collections.Immutable;
using Tightcold.Diagnosis.Measurement;
using Tightcold.Jobs.Entries;
using Tightcold.Jobs.Fields;
using Tightcold.Jobs.Journals;
using Tightcold.Picture.Circuit;
using Tightcold.Picture.Standing;
using Tightcold.Procedures.Standing;
using Tightcold.Quantities;
using static Tightcold.Picture.Pressures.Evidence;

namespace Tightcold.Picture.Machine;

/// <summary>The journal's readings of one state of repair, as evidence: the last state that has readings. What came
/// before an opening, a part or a charge speaks of another car.</summary>
/// <param name="Evidence">For the diagnosis.</param>
/// <param name="RestsOn">Entries it was made from, points first in their order.</param>
/// <param name="Assumptions">What stood in for readings.</param>
/// <param name="Missing">What would sharpen it.</param>
public sealed record JobEvidence(
    DiagnosisEvidence Evidence,
    ImmutableArray<Guid> RestsOn,
    ImmutableArray<Assumption> Assumptions,
    ImmutableArray<Phrase> Missing
)
{
    /// <summary>The last filling, where it counts; null without one.</summary>
    public LastFilling? Filling { get; init; }

    /// <summary>The stretch of the timeline that its readings were taken in.</summary>
    public int Epoch { get; init; }

    /// <summary>Why they were taken, and who says so.</summary>
    public required Told Told { get; init; }

    /// <summary>What was seen, felt, heard or tried then.</summary>
    public required SeenSigns Seen { get; init; }

    /// <summary>An identifier that contradicts the label: then faults are not weighed; else null.</summary>
    public Identification? Otherwise { get; init; }

    /// <summary>Other refrigerants at whose own pressure the car stood, where the label's would not have.</summary>
    public ImmutableArray<OtherRefrigerant> MayBe { get; init; } = [];

    // Oil and hoses keep a little back, and a recovery never ends at nothing; common practice.
    private const double KeptBackShare = 0.03;
    private const double KeptBackKg = 0.010;

    /// <summary>The evidence of a job; null while there is none, or while no refrigerant stood in the
    /// circuit.</summary>
    public static JobEvidence? Of(JobPicture picture)
    {
        ArgumentNullException.ThrowIfNull(picture);
        var (record, timeline) = (picture.Record, picture.Timeline);
        if (Latest(timeline) is not { } epoch)
            return null;
        var assumptions = new List<Assumption>();
        var missing = new List<Phrase>();
        var rests = new List<Guid>();
        var points = new List<OperatingPoint>();
        var readings = timeline
            .Moments.Where(moment => Speaks(moment) && moment.After.Epoch == epoch)
            .Select(moment => moment.Entry)
            .ToArray();
        foreach (var entry in readings.Where(entry => entry.Kind == EntryKinds.RunningReading))
        {
            if (PointMaker.Of(record, entry, assumptions, missing) is not { } point)
                continue;
            points.Add(point);
            rests.Add(entry.Id);
        }

        var standing = new List<StandingPressure>();
        var atRest = new List<StandingReading>();
        foreach (var entry in readings.Where(entry => entry.Kind == EntryKinds.StandingReading))
        {
            if (RestingReading.Of(record, entry) is not { } read)
                continue;
            standing.Add(Of(read.Standing));
            if (read.AtRest)
                atRest.Add(read.Standing);
            rests.Add(entry.Id);
        }

        var told = Told.Of(timeline, epoch);
        var seen = SeenSigns.Of(timeline, epoch, told.Why);
        if (points.Count == 0 && standing.Count == 0 && seen.Signs.IsEmpty)
            return null;
        var otherwise = Identification.Otherwise(record, [.. rests]);
        var weighed = Recovered(record, timeline, epoch, rests) ?? WeighedIn(picture, readings[0].ObservedAt);
        var car = CarMaker.Of(record.Car, assumptions);
        // A history speaks of the circuit as it came, and a scale knows better.
        var filling =
            weighed is null && timeline.Before(readings[0]).Inside == Inside.AsItCame ? LastFilling.Of(picture) : null;
        if (filling is not null)
            rests.AddRange(filling.Entries);
        // A trait is measured against other cars of its kind: where the kind is not known, it says nothing.
        var (earlier, lastSound) =
            points.Count > 0 && car is { Compressor: not null, Expansion: not null }
                ? EarlierVisits.Of(picture, readings[0].ObservedAt)
                : ([], null);
        if (lastSound is { } day)
            assumptions.Add(
                new(
                    Phrase.Of($"This car as it read on {Day(day)}, when it was sound"),
                    Phrase.Words("what a sound car reads today is judged by this car first; replaced parts end that")
                )
            );
        rests.AddRange(seen.Entries);
        if (told.Entry is { } story)
            rests.Add(story);
        return new(
            new(car)
            {
                Points = [.. points],
                Standing = [.. standing],
                Weighed = weighed,
                History = filling?.History,
                Why = told.Why,
                Signs = seen.Signs,
                Earlier = earlier,
            },
            [.. rests],
            [.. assumptions.Distinct()],
            [.. missing.Distinct()]
        )
        {
            Filling = filling,
            Epoch = epoch,
            Told = told,
            Seen = seen,
            Otherwise = otherwise,
            MayBe = OtherRefrigerant.Fitting(FluidOf(record.Car), [.. atRest]),
        };
    }

    /// <summary>The last stretch without a change that has running readings; without any, the last with a standing
    /// one, or with something seen.</summary>
    private static int? Latest(Timeline timeline)
    {
        var speaking = timeline.Moments.Where(Speaks).ToArray();
        var last = Array.FindLastIndex(speaking, moment => moment.Entry.Kind == EntryKinds.RunningReading);
        return last >= 0 ? speaking[last].After.Epoch
            : speaking.Length > 0 ? speaking[^1].After.Epoch
            : null;
    }

    /// <summary>A believed reading, or something seen, of a circuit that holds refrigerant and nothing else.</summary>
    private static bool Speaks(Timeline.Moment moment) =>
        moment.Doubt is null
        && moment.Entry.Kind is EntryKinds.RunningReading or EntryKinds.StandingReading or EntryKinds.Sign
        && moment.After is { HoldsRefrigerant: true, ChargedOnto: Foreign.Nothing };

    /// <summary>What was recovered next, before the circuit was opened, is the charge these readings were taken
    /// with.</summary>
    private static WeighedCharge? Recovered(JobRecord record, Timeline timeline, int epoch, List<Guid> rests)
    {
        double kilograms = 0,
            variance = 0;
        foreach (
            var first in timeline
                .Moments.Where(moment => moment.After.Epoch > epoch && moment.After.Epoch != moment.Before.Epoch)
                .Select(moment => moment.Entry)
        )
        {
            if (first.Kind != EntryKinds.Recovery)
                break;
            var sigma = MassSigma(first, FieldNames.GrossAfter, record.KitAt(first.ObservedAt));
            kilograms += first.Fields.Si(FieldNames.GrossAfter)!.Value - first.Fields.Si(FieldNames.GrossBefore)!.Value;
            variance += 2 * sigma * sigma;
            rests.Add(first.Id);
        }

        if (kilograms <= 0)
            return null;
        return new(
            (kilograms * (1 + KeptBackShare)) + KeptBackKg,
            Math.Sqrt(variance + Math.Pow(0.04 * kilograms, 2) + (0.015 * 0.015))
        );
    }

    /// <summary>What was weighed into an empty circuit before these readings is the charge they were taken
    /// with.</summary>
    private static WeighedCharge? WeighedIn(JobPicture picture, DateTimeOffset first) =>
        picture.Mass.ChargeAt(first) is { SystemKg: >= 0.02 } charge
            ? new(charge.SystemKg, Math.Sqrt(charge.VarianceKg2 + (0.015 * 0.015)))
            : null;

    /// <summary>“4 July 2026”: a language has its own order, and its own form of a month with a day.</summary>
    private static Phrase Day(DateTimeOffset at)
    {
        var (day, year) = (at.Day, at.Year);
        return at.Month switch
        {
            1 => Phrase.Of($"{day} January {year}"),
            2 => Phrase.Of($"{day} February {year}"),
            3 => Phrase.Of($"{day} March {year}"),
            4 => Phrase.Of($"{day} April {year}"),
            5 => Phrase.Of($"{day} May {year}"),
            6 => Phrase.Of($"{day} June {year}"),
            7 => Phrase.Of($"{day} July {year}"),
            8 => Phrase.Of($"{day} August {year}"),
            9 => Phrase.Of($"{day} September {year}"),
            10 => Phrase.Of($"{day} October {year}"),
            11 => Phrase.Of($"{day} November {year}"),
            _ => Phrase.Of($"{day} December {year}"),
        };
    }

    private static StandingPressure Of(StandingReading reading) =>
        new(reading.PressurePa, reading.PressureSigmaPa, reading.TemperatureK, reading.TemperatureSigmaK);
}
