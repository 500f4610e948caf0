using System.Collections.Immutable;
using Tightcold.Jobs.Entries;
using Tightcold.Jobs.Fields;
using Tightcold.Picture.Pressures;
using Tightcold.Procedures.Cold;
using static Tightcold.Picture.Pressures.Evidence;

namespace Tightcold.Picture.Cold;

/// <summary>Where the second proof stands.</summary>
public enum ColdOutcome
{
    Proven,

    /// <summary>Warmer than sound cars blow.</summary>
    NotCold,

    /// <summary>It was cold before, and a settled reading at the end is not.</summary>
    WarmAgain,

    /// <summary>What was not written down decides in this weather: it is asked for before anything is said.</summary>
    AsksFirst,
    CannotTell,
}

/// <summary>The second proof as one number: the odds that it cools as a sound car, by all vent readings since the
/// circuit was last changed.</summary>
/// <param name="Readings">In their order.</param>
/// <param name="Proof">All of them together.</param>
/// <param name="Odds">The number that every page and print shows.</param>
public sealed record ColdPicture(ColdOutcome Outcome, ImmutableArray<VentJudged> Readings, ColdProof Proof, double Odds)
{
    public const double Sure = 0.8;

    /// <summary>The gauges tell of the coil while they were read so near in time.</summary>
    private static readonly TimeSpan Near = TimeSpan.FromMinutes(45);

    /// <summary>The reading that tells most.</summary>
    public VentJudged Shown { get; private init; } = Readings[^1];
    public IcingRisk Icing { get; private init; }

    /// <summary>Charge over the right charge, 95 % limits as weighed; null when nothing was weighed in.</summary>
    public (double Least, double Most)? Charge { get; private init; }

    public static ColdPicture? Of(JobPicture picture)
    {
        ArgumentNullException.ThrowIfNull(picture);
        var (record, timeline) = (picture.Record, picture.Timeline);
        var vents = timeline
            .OfKind(EntryKinds.VentReading)
            .Where(entry => timeline.Before(entry).HoldsRefrigerant)
            .ToArray();
        if (vents.Length == 0)
            return null;
        // What it blew before the circuit was changed says nothing of the car as it is.
        var epoch = timeline.Before(vents[^1]).Epoch;
        ImmutableArray<VentJudged> judged =
        [
            .. vents
                .Where(entry => timeline.Before(entry).Epoch == epoch)
                .Select(entry => VentJudged.Of(record, entry, picture.VentCars)),
        ];
        var proof = ColdProof.Of([.. judged.Select(reading => reading.Observation)]);
        // All readings together decide; a settled last one that no healthy car gives stands against earlier good ones:
        // it got warm again.
        var last = proof.Each[^1];
        var warmAgain = last < 1 - Sure && proof.Each.Max() > Sure && judged[^1].IsSettled;
        var odds = warmAgain ? Math.Min(last, proof.OddsHealthy) : proof.OddsHealthy;
        var telling = judged.LastOrDefault(reading => reading.IsSettled) ?? judged[^1];
        var outcome =
            warmAgain ? ColdOutcome.WarmAgain
            : odds <= 1 - Sure ? ColdOutcome.NotCold
            : odds < Sure ? ColdOutcome.CannotTell
            : telling.AsksFirst ? ColdOutcome.AsksFirst
            : ColdOutcome.Proven;
        return new(outcome, judged, proof, odds)
        {
            Shown = warmAgain ? judged[^1] : telling,
            Icing = IcingRisk.Of(telling.Observation, BoilingK(picture, telling.Entry)),
            Charge = ChargeShare(picture),
        };
    }

    /// <summary>What the low side boiled at near that time; null when nobody read it.</summary>
    private static double? BoilingK(JobPicture picture, Entry vent)
    {
        var record = picture.Record;
        var gauge = picture
            .Timeline.OfKind(EntryKinds.RunningReading)
            .LastOrDefault(entry =>
                Gauges.Read(record, entry, FieldNames.LowSide) is not null
                && (entry.ObservedAt - vent.ObservedAt).Duration() < Near
            );
        return
            gauge is not null
            && Gauges.Read(record, gauge, FieldNames.LowSide) is { Pascals: > 5e4 and < 1e6 and var pascals }
            ? FluidOf(record.Car).SaturationAtPressure(pascals).TemperatureK
            : null;
    }

    private static (double Least, double Most)? ChargeShare(JobPicture picture)
    {
        var live = picture.WeighIn;
        if (live is not { TargetKg: { } target, Begun: true, Balance.SystemKnown: true })
            return null;
        var off = SigmasInPlusMinus * live.SigmaKg;
        return (
            Math.Max(0, (live.Balance.SystemKg - off) / target),
            Math.Max(0, (live.Balance.SystemKg + off) / target)
        );
    }
}
