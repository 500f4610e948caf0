using System.Collections.Immutable;
using Tightcold.Diagnosis.Measurement;
using Tightcold.Jobs.Entries;
using Tightcold.Jobs.Journals;
using Tightcold.Procedures.Standing;
using Tightcold.Quantities;
using static Tightcold.Findings.Evidence;

namespace Tightcold.Findings.Diagnosing;

/// <summary>The journal's readings of one state of repair, as evidence: the last state that has readings. What came
/// before an opening, a part or a charge speaks of another car.</summary>
/// <param name="Evidence">For the diagnosis.</param>
/// <param name="RestsOn">Entries it was made from, points first in their order.</param>
/// <param name="Assumptions">What stood in for readings.</param>
/// <param name="Missing">What would sharpen it.</param>
public sealed record JobEvidence(DiagnosisEvidence Evidence, ImmutableArray<Guid> RestsOn, ImmutableArray<Assumption> Assumptions, ImmutableArray<Phrase> Missing)
{
    /// <summary>The last filling, where it counts; null without one.</summary>
    public LastFilling? Filling { get; init; }

    /// <summary>An identifier that contradicts the label: then faults are not weighed; else null.</summary>
    public Identification? Otherwise { get; init; }

    /// <summary>Other refrigerants at whose own pressure the car stood, where the label's would not have.</summary>
    public ImmutableArray<OtherRefrigerant> MayBe { get; init; } = [];

    // Oil and hoses keep a little back, and a recovery never ends at nothing; common practice.
    private const double KeptBackShare = 0.03;
    private const double KeptBackKg = 0.010;

    /// <summary>The evidence of a job; null while there is none.</summary>
    /// <param name="earlier">Earlier jobs of the same car: what they left in it.</param>
    public static JobEvidence? Of(JobRecord record, ImmutableArray<JobRecord> earlier = default)
    {
        ArgumentNullException.ThrowIfNull(record);
        var states = States(record);
        var last = states.FindLastIndex(state => state.Exists(entry => entry.Kind is EntryKinds.RunningReading));
        if (last < 0) last = states.FindLastIndex(state => state.Exists(entry => entry.Kind is EntryKinds.StandingReading));
        if (last < 0) return null;
        var assumptions = new List<Assumption>();
        var missing = new List<Phrase>();
        var rests = new List<Guid>();
        var points = new List<OperatingPoint>();
        foreach (var entry in states[last].Where(entry => entry.Kind == EntryKinds.RunningReading))
        {
            if (PointMaker.Of(record, entry, assumptions, missing) is not { } point) continue;
            points.Add(point);
            rests.Add(entry.Id);
        }

        var standing = new List<StandingPressure>();
        var atRest = new List<StandingReading>();
        foreach (var entry in states[last].Where(entry => entry.Kind == EntryKinds.StandingReading))
        {
            if (Steps.StandingFinding.Read(record, entry) is not { } read) continue;
            standing.Add(Of(read.Standing));
            if (read.AtRest) atRest.Add(read.Standing);
            rests.Add(entry.Id);
        }

        if (points.Count == 0 && standing.Count == 0) return null;
        var otherwise = Identification.Otherwise(record, [.. rests]);
        var weighed = (last + 1 < states.Count ? Weighed(record, states, last, rests) : null) ?? WeighedIn(record, states[last]);
        var car = CarMaker.Of(record.Car, assumptions);
        // A history speaks of the circuit as it came, and a scale knows better.
        var filling = last == 0 && weighed is null ? LastFilling.Of(record, earlier) : null;
        if (filling is not null)
        {
            rests.AddRange(filling.Entries);
            assumptions.Add(HistoryWords.Assumption(filling));
        }

        return new(new(car) { Points = [.. points], Standing = [.. standing], Weighed = weighed, History = filling?.History },
            [.. rests], [.. assumptions.Distinct()], [.. missing.Distinct()])
        {
            Filling = filling,
            Otherwise = otherwise,
            MayBe = OtherRefrigerant.Fitting(FluidOf(record.Car), [.. atRest]),
        };
    }

    /// <summary>The standing journal, cut wherever something changed inside the circuit.</summary>
    private static List<List<Entry>> States(JobRecord record)
    {
        var states = new List<List<Entry>> { new() };
        foreach (var entry in record.Journal.Standing)
        {
            if (entry.Kind is EntryKinds.Recovery or EntryKinds.Opened or EntryKinds.Closed or EntryKinds.PartChanged or EntryKinds.SealChanged
                or EntryKinds.OilMoved or EntryKinds.Pump or EntryKinds.ContainerMoved or EntryKinds.PressureTest) states.Add([]);
            states[^1].Add(entry);
        }

        return states;
    }

    /// <summary>What was recovered next, before the circuit was opened, is the charge these readings were taken with.</summary>
    private static WeighedCharge? Weighed(JobRecord record, List<List<Entry>> states, int last, List<Guid> rests)
    {
        double kilograms = 0, variance = 0;
        foreach (var first in states.Skip(last + 1).Select(state => state[0]))
        {
            if (first.Kind != EntryKinds.Recovery) break;
            var sigma = MassSigma(first, "gross-after", record.KitAt(first.ObservedAt));
            kilograms += first.Fields.Si("gross-after")!.Value - first.Fields.Si("gross-before")!.Value;
            variance += 2 * sigma * sigma;
            rests.Add(first.Id);
        }

        if (kilograms <= 0) return null;
        return new((kilograms * (1 + KeptBackShare)) + KeptBackKg, Math.Sqrt(variance + Math.Pow(0.04 * kilograms, 2) + (0.015 * 0.015)));
    }

    /// <summary>What was weighed into an empty circuit before these readings is the charge they were taken with.</summary>
    private static WeighedCharge? WeighedIn(JobRecord record, List<Entry> state)
    {
        var first = state.First(entry => entry.Kind is EntryKinds.RunningReading or EntryKinds.StandingReading).ObservedAt;
        var (until, _) = Journal.Create(record.Journal.Standing.Where(entry => entry.ObservedAt <= first));
        var balance = MassBalance.Of(record with { Journal = until! });
        return !balance.SystemKnown || balance.DrawnKg <= 0 || balance.SystemKg < 0.02 ? null
            : new(balance.SystemKg, Math.Sqrt(balance.SystemVarianceKg2 + (0.015 * 0.015)));
    }

    private static StandingPressure Of(StandingReading reading) =>
        new(reading.PressurePa, reading.PressureSigmaPa, reading.TemperatureK, reading.TemperatureSigmaK);
}
