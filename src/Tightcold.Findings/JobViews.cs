using System.Collections.Immutable;
using Tightcold.Diagnosis.Acceptance;
using Tightcold.Diagnosis.Inference;
using Tightcold.Findings.Diagnosing;
using Tightcold.Jobs.Journals;

namespace Tightcold.Findings;

/// <summary>A job's record with what is weighed from it, each part once and when first asked for: sentences and drawings
/// of one page speak of the same numbers and pay for them once.</summary>
public sealed class JobViews
{
    private readonly Lazy<LeakView> leaks;
    private readonly Lazy<HoldView?> hold;
    private readonly Lazy<PumpView> pump;
    private readonly Lazy<JobDiagnosis?> diagnosis;
    private readonly Lazy<JobEvidence?> evidence;
    private readonly Lazy<LoopCars> ventCars;

    /// <param name="record">The job.</param>
    /// <param name="earlier">Earlier jobs of the same car; what they left in it tells how fast it leaks.</param>
    /// <param name="before">The same job's views of a moment ago; what still says the same is not weighed again.</param>
    /// <param name="atAGlance">Leaves out what takes a second: faults that were not weighed before stay unweighed.</param>
    public JobViews(JobRecord record, ImmutableArray<JobRecord> earlier = default, JobViews? before = null, bool atAGlance = false)
    {
        ArgumentNullException.ThrowIfNull(record);
        Record = record;
        Earlier = earlier.IsDefault ? [] : earlier;
        // Of the very same record a glance already drew the rest.
        var same = before is not null && ReferenceEquals(before.Record, record) && before.Earlier == Earlier ? before : null;
        hold = same?.hold ?? new(() => HoldView.Of(record));
        leaks = same?.leaks ?? new(() => LeakView.Of(record, Earlier, hold.Value));
        pump = same?.pump ?? new(() => PumpView.Of(record));
        evidence = same?.evidence ?? new(() => JobDiagnosis.ToWeigh(record, Earlier));
        ventCars = before is not null && before.Record.Car == record.Car ? before.ventCars : new(() => LoopCars.Of(CarMaker.Of(record.Car, [])));
        // The value and not the views: else each would keep all before it.
        var weighed = before is { diagnosis.IsValueCreated: true } && before.Record.Job == record.Job ? before.diagnosis.Value : null;
        diagnosis = new(() => evidence.Value is not { Otherwise: null } found ? null : weighed?.For(found) ?? (atAGlance ? null : JobDiagnosis.Of(record, found, Effort.Full)));
    }

    public JobRecord Record { get; }
    public ImmutableArray<JobRecord> Earlier { get; }
    public LeakView Leaks => leaks.Value;

    /// <summary>Null without a hold of two readings.</summary>
    public HoldView? Hold => hold.Value;
    public PumpView Pump => pump.Value;

    /// <summary>Null while there are no readings, at a glance, or on a refrigerant that is not the label's.</summary>
    public JobDiagnosis? Diagnosis => diagnosis.Value;

    /// <summary>Readings that a glance leaves unweighed; else null.</summary>
    public JobEvidence? Unweighed => Diagnosis is null && evidence.Value is { Otherwise: null } found ? found : null;

    /// <summary>The cars that a vent reading is held against.</summary>
    public LoopCars VentCars => ventCars.Value;
}
