using System.Collections.Immutable;
using Tightcold.Diagnosis.Acceptance;
using Tightcold.Diagnosis.Inference;
using Tightcold.Diagnosis.Tightness;
using Tightcold.Jobs.Cars;
using Tightcold.Jobs.Journals;
using Tightcold.Picture.Charge;
using Tightcold.Picture.Circuit;
using Tightcold.Picture.Cold;
using Tightcold.Picture.Leaks;
using Tightcold.Picture.Machine;
using Tightcold.Picture.Mass;
using Tightcold.Picture.Mend;
using Tightcold.Picture.Now;
using Tightcold.Picture.Recover;
using Tightcold.Picture.Running;
using Tightcold.Picture.Standing;
using Tightcold.Picture.Tight;
using Tightcold.Picture.Vacuum;
using Tightcold.Picture.WeighIn;

namespace Tightcold.Picture;

/// <summary>What a job's journal means, worked out once: findings, card, drawings, <c>--json</c> and the “now” line
/// only read it. Each part is computed when first asked for and kept; the same record gives the same picture, bit for
/// bit.</summary>
public sealed class JobPicture
{
    private readonly Lazy<Timeline> timeline;
    private readonly Lazy<StandingPicture> came;
    private readonly Lazy<MassBalance> mass;
    private readonly Lazy<RunningPicture?> running;
    private readonly Lazy<RecoveryPicture?> recovery;
    private readonly Lazy<TightPicture> tight;
    private readonly Lazy<bool> struckFailure;
    private readonly Lazy<MendPicture> mend;
    private readonly Lazy<HoldView?> hold;
    private readonly Lazy<LeakView> leaks;
    private readonly Lazy<PumpView> pump;
    private readonly Lazy<LiveWeighIn> weighIn;
    private readonly Lazy<JobEvidence?> evidence;
    private readonly Lazy<JobDiagnosis?> machine;
    private readonly Lazy<LoopCars> ventCars;
    private readonly Lazy<ColdPicture?> cold;
    private readonly Lazy<ChargeBelief> charge;
    private readonly Lazy<NowPicture> now;
    private readonly Lazy<ImmutableArray<JobPicture>> earlierPictures;

    /// <param name="record">The job.</param>
    /// <param name="earlier">Earlier jobs of the same car; what they left in it tells how fast it leaks.</param>
    /// <param name="shelf">What other jobs left in cans and cylinders.</param>
    /// <param name="before">The same job's picture of a moment ago; what still says the same is not weighed
    /// again.</param>
    /// <param name="atAGlance">Leaves out what takes a second: faults that were not weighed before stay
    /// unweighed.</param>
    /// <param name="effort">For the faults; the full one unless said otherwise.</param>
    /// <param name="tightness">For the leaks; what a person is told is always the full one.</param>
    public JobPicture(
        JobRecord record,
        ImmutableArray<JobRecord> earlier = default,
        ImmutableArray<ShelfContent> shelf = default,
        JobPicture? before = null,
        bool atAGlance = false,
        Effort? effort = null,
        TightnessEffort tightness = TightnessEffort.Full
    )
    {
        ArgumentNullException.ThrowIfNull(record);
        Record = record;
        Earlier = earlier.IsDefault ? [] : earlier;
        Shelf = shelf.IsDefault ? [] : shelf;
        // Of the very same record a glance already worked out the rest.
        var same =
            before is not null
            && ReferenceEquals(before.Record, record)
            && before.Earlier == Earlier
            && before.Shelf == Shelf
                ? before
                : null;
        earlierPictures = same?.earlierPictures
            ?? new(() =>
                [
                    .. Earlier
                        .Where(job => job.Car.Id == record.Car.Id && job.Job.OpenedAt < record.Job.OpenedAt)
                        .OrderBy(job => job.Job.OpenedAt)
                        .Select(job => new JobPicture(job)),
                ]
            );
        timeline = same?.timeline ?? new(() => Timeline.Of(record));
        came = same?.came ?? new(() => StandingPicture.Of(record, Timeline));
        mass = same?.mass ?? new(() => MassBalance.Of(record, Timeline, Came, Shelf));
        running = same?.running ?? new(() => RunningPicture.Of(this));
        tight = same?.tight ?? new(() => new TightPicture(Leaks.Belief));
        struckFailure = same?.struckFailure ?? new(() => StruckTests.AnyFailed(this));
        recovery = same?.recovery ?? new(() => RecoveryPicture.Of(this));
        mend = same?.mend ?? new(() => MendPicture.Of(this));
        // Values and not the picture: else each would keep all before it.
        var heldBefore = before is { hold.IsValueCreated: true } ? before.hold.Value : null;
        var pumped =
            before is { pump.IsValueCreated: true } && before.Record.Job == record.Job ? before.pump.Value : null;
        var believed = before is { leaks.IsValueCreated: true } ? before.leaks.Value.Belief : null;
        hold = same?.hold ?? new(() => HoldView.Of(this, heldBefore));
        leaks = same?.leaks ?? new(() => LeakView.Of(this, tightness, believed));
        pump = same?.pump ?? new(() => PumpView.Of(this, pumped));
        weighIn = same?.weighIn ?? new(() => LiveWeighIn.Of(this));
        evidence = same?.evidence ?? new(() => JobDiagnosis.ToWeigh(this));
        ventCars = before is not null && before.Record.Car == record.Car ? before.ventCars : VentCarsOf(record.Car);
        var weighed =
            before is { machine.IsValueCreated: true } && before.Record.Job == record.Job ? before.machine.Value : null;
        machine = new(() =>
            evidence.Value is not { Otherwise: null } found
                ? null
                : weighed?.For(found) ?? (atAGlance ? null : JobDiagnosis.Of(record, found, effort ?? Effort.Full))
        );
        cold = same?.cold ?? new(() => ColdPicture.Of(this));
        charge = new(() => ChargeBelief.Of(this));
        now = new(() => NowPicture.Of(this));
    }

    /// <summary>Of the car alone: a question that is handed on from picture to picture must not hold the first of
    /// them, with all that it drew, for as long as nobody asks.</summary>
    private static Lazy<LoopCars> VentCarsOf(Car car) => new(() => LoopCars.Of(CarMaker.Of(car, [])));

    public JobRecord Record { get; }
    public ImmutableArray<JobRecord> Earlier { get; }
    public ImmutableArray<ShelfContent> Shelf { get; }

    /// <summary>Pictures of the car's earlier jobs, the earliest first.</summary>
    public ImmutableArray<JobPicture> EarlierPictures => earlierPictures.Value;

    /// <summary>What is in the circuit from when to when.</summary>
    public Timeline Timeline => timeline.Value;

    /// <summary>What the car came with.</summary>
    public StandingPicture Came => came.Value;

    /// <summary>Where every gram is.</summary>
    public MassBalance Mass => mass.Value;

    /// <summary>The last running reading that can be believed; null without one.</summary>
    public RunningPicture? Running => running.Value;

    /// <summary>The first proof.</summary>
    public TightPicture Tight => tight.Value;

    /// <summary>A test that spoke against the first proof was struck out.</summary>
    public bool AFailedTestWasStruck => struckFailure.Value;

    /// <summary>Null while nothing was recovered.</summary>
    public RecoveryPicture? Recovery => recovery.Value;

    /// <summary>Parts, oil and drier.</summary>
    public MendPicture Mend => mend.Value;

    /// <summary>Null without a hold of two readings.</summary>
    public HoldView? Hold => hold.Value;
    public LeakView Leaks => leaks.Value;

    /// <summary>When to look at this car again: the day that somebody set, else while one such car in ten has come to
    /// cool badly.</summary>
    public DateTimeOffset NextCheckAt => Record.LookAgainAt ?? Leaks.NextCheckAt;
    public PumpView Pump => pump.Value;
    public LiveWeighIn WeighIn => weighIn.Value;

    /// <summary>Faults with odds; null while there are no readings, at a glance, or on a refrigerant that is not the
    /// label's.</summary>
    public JobDiagnosis? Machine => machine.Value;

    /// <summary>What there is to weigh; null while there are no readings.</summary>
    public JobEvidence? Evidence => evidence.Value;

    /// <summary>Readings that a glance leaves unweighed; else null.</summary>
    public JobEvidence? Unweighed => Machine is null && evidence.Value is { Otherwise: null } found ? found : null;

    /// <summary>The cars that a vent reading is held against.</summary>
    public LoopCars VentCars => ventCars.Value;

    /// <summary>The second proof; null while no vent was read for it.</summary>
    public ColdPicture? Cold => cold.Value;

    /// <summary>How much refrigerant stands in the circuit now, stated once.</summary>
    public ChargeBelief Charge => charge.Value;

    /// <summary>What the job waits for, and the one thing to do.</summary>
    public NowPicture Now => now.Value;
}
