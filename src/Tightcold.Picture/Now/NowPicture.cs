using System.Collections.Immutable;
using Tightcold.Diagnosis.Inference;
using Tightcold.Jobs.Entries;
using Tightcold.Jobs.Journals;
using Tightcold.Picture.Circuit;
using Tightcold.Picture.Cold;
using Tightcold.Picture.Standing;
using Tightcold.Picture.Tight;
using Tightcold.Procedures.Evacuation;

namespace Tightcold.Picture.Now;

/// <summary>What a job waits for. What can hurt comes first, then what cannot be, then the way from the complaint to
/// the card.</summary>
public enum NowKind
{
    // What can hurt, or spoils the work while it waits.
    TooMuchIsIn,
    CylinderTooFull,
    CircuitStandsOpen,
    ContainerGives,
    MixedWithForeign,

    // What must be cleared up before anything is judged.
    ReadingCannotBe,
    NotTheLabels,
    PerhapsAnother,

    // What runs.
    PumpRuns,
    Holding,

    // The way.
    Weather,
    ReadStanding,
    FindTheHole,
    SearchBeforeAdding,
    RecoverAndWeigh,
    ReadAtAnotherTemperature,
    ReadRunning,
    TestFurther,
    MendTheFault,
    Recover,
    RecoverOn,
    MendLeaks,
    OilDue,
    CheckMended,
    PumpDown,
    PumpOn,
    HoldIt,
    FindTheLeak,
    ProveTightFurther,
    LabelCharge,
    WeighIn,
    NoContainer,
    ReadVent,
    ColdAsksFirst,
    ReadVentAgain,
    NotCold,
    Close,

    /// <summary>It waits for something outside the job.</summary>
    Waits,

    /// <summary>It waits for a day, to be looked at again then: <see cref="NowPicture.Since"/>.</summary>
    LookAgain,
    Done,
}

/// <summary>The one thing to do next, over all steps, and what it is about.</summary>
/// <param name="Kind">What.</param>
/// <param name="Step">The step it belongs to.</param>
/// <param name="EntryKind">The entry that records it; null when none does.</param>
public sealed record NowPicture(NowKind Kind, Step Step, string? EntryKind)
{
    /// <summary>Spots or containers that it is about.</summary>
    public ImmutableArray<string> Where { get; private init; } = [];

    /// <summary>Since when; null where that says nothing.</summary>
    public DateTimeOffset? Since { get; private init; }

    /// <summary>It can hurt or spoil while it waits.</summary>
    public bool IsUrgent => Kind <= NowKind.MixedWithForeign;

    public static NowPicture Of(JobPicture picture)
    {
        ArgumentNullException.ThrowIfNull(picture);
        var record = picture.Record;
        if (record.State == "closed")
            return new(NowKind.Done, Step.Ledger, null);
        if ((Hurts(picture) ?? CannotBe(picture) ?? Running(picture)) is { } first)
            return first;
        return Waits(record) ?? Way(picture);
    }

    /// <summary>A job waits until something is written down after it was let wait. Looking again means reading the
    /// standing pressure.</summary>
    private static NowPicture? Waits(JobRecord record)
    {
        if (
            record.State != "waiting"
            || record.Journal.Standing[^1].Kind is not (EntryKinds.JobState or EntryKinds.Note)
        )
            return null;
        return record.LookAgainAt is { } day
            ? new(NowKind.LookAgain, Step.StandingPressure, EntryKinds.StandingReading) { Since = day }
            : new(NowKind.Waits, Step.Ledger, EntryKinds.JobState);
    }

    private static NowPicture? Hurts(JobPicture picture)
    {
        var state = picture.Timeline.Now;
        if (picture.WeighIn.Overshoot is { MustStop: true })
            return new(NowKind.TooMuchIsIn, Step.WeighIn, EntryKinds.Recovery);
        if (
            picture.Recovery is { } recovery
            && recovery.Cylinders.FirstOrDefault(cylinder => cylinder.Overfilled) is { Name: { } full }
        )
            return new(NowKind.CylinderTooFull, Step.Recover, EntryKinds.Recovery) { Where = [full] };
        if (!state.Open.IsEmpty && Mended(picture))
            return new(NowKind.CircuitStandsOpen, Step.Mend, EntryKinds.Closed)
            {
                Where = [.. state.Open.Select(open => open.Spot)],
                Since = state.Open[0].Since,
            };
        if (state.Giving is { } giving && Enough(picture))
            return new(NowKind.ContainerGives, Step.WeighIn, EntryKinds.ContainerMoved)
            {
                Where = [giving.Name],
                Since = giving.Since,
            };
        return state.ChargedOnto == Foreign.Nothing
            ? null
            : new(NowKind.MixedWithForeign, Step.Recover, EntryKinds.Recovery);
    }

    private static NowPicture? CannotBe(JobPicture picture)
    {
        var last = picture.Timeline.Moments.LastOrDefault(moment =>
            moment.Entry.Kind is EntryKinds.StandingReading or EntryKinds.RunningReading
        );
        if (last is { Entry: not null, Doubt: not null })
            return new(NowKind.ReadingCannotBe, StepOf(last.Entry.Kind), last.Entry.Kind)
            {
                Since = last.Entry.ObservedAt,
            };
        if (!picture.Timeline.Now.HoldsRefrigerant)
            return null;
        if (Identification.Otherwise(picture.Record, []) is not null)
            return new(NowKind.NotTheLabels, Step.Recover, EntryKinds.Recovery);
        return picture.Came.Says == StandingSays.MayBeAnother && picture.Timeline.Now.Inside == Inside.AsItCame
            ? new(NowKind.PerhapsAnother, Step.StandingPressure, EntryKinds.StandingReading)
            : null;
    }

    private static NowPicture? Running(JobPicture picture)
    {
        var state = picture.Timeline.Now;
        if (state.Holding is { } hold && HoldGoesOn(picture))
            return new(NowKind.Holding, Step.Hold, EntryKinds.VacuumReading) { Since = hold.First };
        return state is { PumpingSince: { } since, Holding: null } && !DeepAndLong(picture)
            ? new(NowKind.PumpRuns, Step.PumpDown, EntryKinds.VacuumReading) { Since = since }
            : null;
    }

    /// <summary>Four readings over half an hour tell what a hold can tell.</summary>
    private static bool HoldGoesOn(JobPicture picture) =>
        picture.Hold is not { } hold || hold.Readings.Length < 4 || hold.SpanSeconds < 25 * 60;

    /// <summary>Pumped deep enough for water to boil in the coldest part, and as long as this pump needs at the
    /// least.</summary>
    private static bool DeepAndLong(JobPicture picture)
    {
        if (picture.Pump.Observed is not [.., var last] || last.OnDial)
            return false;
        return last.PressurePa < Dryness.HeldPa(picture.Pump.Setup.PartTemperatureK)
            && last.Seconds >= (picture.Pump.Forecast.EnoughSeconds ?? double.MaxValue);
    }

    private static NowPicture Way(JobPicture picture) =>
        picture.Timeline.Now.Inside switch
        {
            Inside.AsItCame => AsItCame(picture),
            Inside.Recovered => Repair(picture) ?? Evacuate(picture),
            Inside.Air or Inside.Nitrogen => Repair(picture) ?? Evacuate(picture),
            Inside.Vacuum => Vacuum(picture),
            _ => Charged(picture),
        };

    private static NowPicture AsItCame(JobPicture picture)
    {
        var record = picture.Record;
        var leaking = Leaking(picture);
        if (!leaking.IsEmpty)
            return new(NowKind.Recover, Step.Recover, EntryKinds.Recovery) { Where = leaking };
        var running = picture.Running;
        if (
            record.Journal.Standing.Length == 0
            || (
                record.WeatherAt(record.Job.OpenedAt) is null
                && picture.Came.Says == StandingSays.NotRead
                && running is null
            )
        )
            return new(NowKind.Weather, Step.ComplaintAndWeather, EntryKinds.Weather);
        // Only the vent was read: the proof is asked for what it lacks, or is done.
        if (picture is { Came.Says: StandingSays.NotRead, Cold: not null } && running is null)
            return ProveCold(picture);
        switch (picture.Came.Says)
        {
            case StandingSays.NotRead when running is null:
                return new(NowKind.ReadStanding, Step.StandingPressure, EntryKinds.StandingReading);
            case StandingSays.VapourOnly:
                return new(NowKind.SearchBeforeAdding, Step.LeakSearch, EntryKinds.LeakCheck);
            case StandingSays.OtherGas:
                return new(NowKind.RecoverAndWeigh, Step.Recover, EntryKinds.Recovery);
            case StandingSays.CannotTell when running is null:
                return new(NowKind.ReadAtAnotherTemperature, Step.StandingPressure, EntryKinds.StandingReading);
            default:
                break;
        }
        if (running is null)
            return new(NowKind.ReadRunning, Step.RunningPressures, EntryKinds.RunningReading);
        return Fault(picture) ?? new(NowKind.TestFurther, Step.WhatIsWrong, EntryKinds.RunningReading);
    }

    /// <summary>The leading fault, where it is told; nothing wrong leads to the proof of cold.</summary>
    private static NowPicture? Fault(JobPicture picture)
    {
        if (picture.Machine is not { } machine || !machine.Answer.Contradictions.IsEmpty)
            return null;
        var (leading, odds, _) = machine.Answer.ByFault()[0];
        if (odds < JobPictureLines.Told || leading.IsNoneOfThese || machine.Answer.Fit < FaultOdds.FitsAbove)
            return null;
        return leading.IsNothingWrong ? ProveCold(picture) : new(NowKind.MendTheFault, Step.WhatIsWrong, null);
    }

    private static NowPicture? Repair(JobPicture picture)
    {
        var state = picture.Timeline.Now;
        if (state.Inside == Inside.Recovered && picture.Recovery is { Ended: false })
            return new(NowKind.RecoverOn, Step.Recover, EntryKinds.Recovery);
        var leaking = Leaking(picture);
        if (!leaking.IsEmpty)
            return new(NowKind.MendLeaks, Step.Mend, EntryKinds.SealChanged) { Where = leaking };
        // It came open: somewhere is a hole, and pulling a vacuum on it finds nothing.
        if (
            picture.Timeline.Moments.Any(moment => moment.After.CameOpen)
            && picture.Leaks.States.All(spot => spot.Leak is null)
            && picture.Mend.Changed.IsEmpty
        )
            return new(NowKind.FindTheHole, Step.LeakSearch, EntryKinds.LeakCheck);
        if (picture.Tight.Outcome == TightOutcome.Leaks)
            return new(NowKind.FindTheLeak, Step.LeakSearch, EntryKinds.LeakCheck);
        return picture.Mend.Oil.TooLittle ? new(NowKind.OilDue, Step.Mend, EntryKinds.OilMoved) : null;
    }

    private static NowPicture Evacuate(JobPicture picture)
    {
        // Under nitrogen the mended joints can be soaped at once.
        var untested = Untested(picture);
        return picture.Timeline.Now.Inside == Inside.Nitrogen && !untested.IsEmpty
            ? new(NowKind.CheckMended, Step.LeakSearch, EntryKinds.LeakCheck) { Where = untested }
            : new(NowKind.PumpDown, Step.PumpDown, EntryKinds.Pump);
    }

    private static NowPicture Vacuum(JobPicture picture)
    {
        var leaking = Leaking(picture);
        if (!leaking.IsEmpty)
            return new(NowKind.MendLeaks, Step.Mend, EntryKinds.SealChanged) { Where = leaking };
        if (picture.Mend.Oil.TooLittle)
            return new(NowKind.OilDue, Step.Mend, EntryKinds.OilMoved);
        if (picture.Hold is not { } hold)
            return new(NowKind.HoldIt, Step.Hold, EntryKinds.VacuumReading);
        if (picture.Tight.Outcome == TightOutcome.Leaks)
            return new(NowKind.FindTheLeak, Step.LeakSearch, EntryKinds.LeakCheck);
        if (hold.Odds.Wet >= 0.5)
            return new(NowKind.PumpOn, Step.PumpDown, EntryKinds.Pump);
        if (picture.Tight.Outcome == TightOutcome.NotShown)
            return new(NowKind.ProveTightFurther, Step.Hold, EntryKinds.PressureTest);
        return Fill(picture);
    }

    private static NowPicture Fill(JobPicture picture) =>
        picture.WeighIn.TargetKg is null ? new(NowKind.LabelCharge, Step.WeighIn, null)
        : picture.WeighIn.Plan is not { Steps.Length: > 0 } ? new(NowKind.NoContainer, Step.WeighIn, null)
        : new(NowKind.WeighIn, Step.WeighIn, EntryKinds.ScaleReading)
        {
            Where = [picture.WeighIn.Plan.Steps[0].Container],
        };

    private static NowPicture Charged(JobPicture picture)
    {
        if (
            picture.Timeline.Now is { OntoARest: true } or { Unwritten: true }
            && picture.WeighIn is { TargetKg: not null }
        )
            return picture.Cold is null ? ProveCold(picture) : Finish(picture);
        if (picture.WeighIn.TargetKg is null || !Enough(picture))
            return Fill(picture);
        return picture.Cold is null ? ProveCold(picture) : Finish(picture);
    }

    /// <summary>What the label asks for is in, as nearly as this scale can say, or too much of it.</summary>
    private static bool Enough(JobPicture picture) =>
        picture.WeighIn is { TargetKg: not null, Begun: true } live && live.ToGoKg <= live.ToleranceKg;

    private static NowPicture ProveCold(JobPicture picture) =>
        picture.Cold switch
        {
            null => new(NowKind.ReadVent, Step.ProveCold, EntryKinds.VentReading),
            { Outcome: ColdOutcome.Proven } => Finish(picture),
            _ => AfterCold(picture.Cold),
        };

    private static NowPicture AfterCold(ColdPicture cold) =>
        cold.Outcome switch
        {
            ColdOutcome.AsksFirst => new(NowKind.ColdAsksFirst, Step.ProveCold, EntryKinds.VentReading),
            ColdOutcome.NotCold or ColdOutcome.WarmAgain => new(
                NowKind.NotCold,
                Step.RunningPressures,
                EntryKinds.RunningReading
            ),
            _ => new(NowKind.ReadVentAgain, Step.ProveCold, EntryKinds.VentReading),
        };

    private static NowPicture Finish(JobPicture picture)
    {
        if (picture.Cold is { Outcome: not ColdOutcome.Proven } cold)
            return AfterCold(cold);
        var untested = Untested(picture);
        return untested.IsEmpty
            ? new(NowKind.Close, Step.Ledger, EntryKinds.JobState)
            : new(NowKind.CheckMended, Step.LeakSearch, EntryKinds.LeakCheck) { Where = untested };
    }

    private static bool Mended(JobPicture picture) => Leaking(picture).IsEmpty;

    private static ImmutableArray<string> Leaking(JobPicture picture) =>
        [.. picture.Leaks.States.Where(spot => spot.Leaking).Select(spot => spot.Spot)];

    private static ImmutableArray<string> Untested(JobPicture picture) =>
        [.. picture.Leaks.States.Where(spot => spot.MendedUntested).Select(spot => spot.Spot)];

    private static Step StepOf(string kind) =>
        kind == EntryKinds.StandingReading ? Step.StandingPressure : Step.RunningPressures;
}
