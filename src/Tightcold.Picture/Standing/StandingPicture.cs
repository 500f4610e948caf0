using System.Collections.Immutable;
using Tightcold.Jobs.Entries;
using Tightcold.Jobs.Journals;
using Tightcold.Picture.Circuit;
using Tightcold.Picture.Pressures;
using Tightcold.Procedures.Standing;
using Tightcold.Properties;

namespace Tightcold.Picture.Standing;

/// <summary>What a resting circuit says.</summary>
public enum StandingSays
{
    /// <summary>No pressure was read with the engine off before refrigerant was moved.</summary>
    NotRead,

    /// <summary>No pressure above the surrounding air, or vacuum: there is a hole, air and water are inside.</summary>
    OpenToAir,

    /// <summary>An identifier said another refrigerant than the label's.</summary>
    NotTheLabels,

    /// <summary>Liquid of another refrigerant would stand here, liquid of the label's would not.</summary>
    MayBeAnother,
    VapourOnly,
    LiquidPresent,
    OtherGas,

    /// <summary>The readings do not decide.</summary>
    CannotTell,
}

/// <summary>What the car came with, from the pressures with the engine off: the last such reading before refrigerant
/// was moved.</summary>
public sealed record StandingPicture(StandingSays Says)
{
    /// <summary>Odds from which one of the three is called so.</summary>
    public const double Sure = 0.90;

    /// <summary>The reading, and an earlier one at another temperature; null where none was.</summary>
    public Entry? Entry { get; private init; }
    public Entry? Earlier { get; private init; }
    public RestingReading? Reading { get; private init; }
    public StandingOdds Odds { get; private init; }

    /// <summary>With liquid of the label's refrigerant inside it would stand at this, Pa absolute.</summary>
    public double SaturationPa { get; private init; }

    /// <summary>Standard deviation of that, by the temperature alone.</summary>
    public double SaturationSigmaPa { get; private init; }

    /// <summary>Vapour only: what is left.</summary>
    public MassBelief? Left { get; private init; }

    /// <summary>Liquid present: at least this, kg.</summary>
    public double? LeastKg { get; private init; }
    public Identification? Otherwise { get; private init; }
    public ImmutableArray<OtherRefrigerant> MayBe { get; private init; } = [];

    /// <summary>Pressure above what the refrigerant alone can have, Pa, and its standard deviation.</summary>
    public double ExcessPa => (Reading?.Standing.PressurePa ?? 0) - SaturationPa;
    public double ExcessSigmaPa { get; private init; }

    /// <summary>Standing readings that cannot be, in their order.</summary>
    public ImmutableArray<(Entry Entry, Doubt Doubt)> Doubted { get; private init; } = [];

    public bool IsSure =>
        Says is StandingSays.OpenToAir or StandingSays.NotTheLabels
        || Math.Max(Odds.VapourOnly, Math.Max(Odds.LiquidPresent, Odds.OtherGas)) >= Sure;

    public static StandingPicture Of(JobRecord record, Timeline timeline)
    {
        ArgumentNullException.ThrowIfNull(record);
        ArgumentNullException.ThrowIfNull(timeline);
        ImmutableArray<(Entry, Doubt)> doubted =
        [
            .. timeline
                .Moments.Where(moment => moment.Entry.Kind == EntryKinds.StandingReading && moment.Doubt is not null)
                .Select(moment => (moment.Entry, moment.Doubt!.Value)),
        ];
        // Only readings of the circuit as it came tell how it came.
        var came = timeline
            .OfKind(EntryKinds.StandingReading)
            .Where(entry =>
                timeline.Before(entry) is { Inside: Inside.AsItCame }
                || (timeline.Before(entry) is { CameOpen: true, Inside: Inside.Air, Openings: 0 })
            )
            .ToArray();
        var entry = came.LastOrDefault(one => RestingReading.Of(record, one) is not null);
        if (entry is null || RestingReading.Of(record, entry) is not { } reading)
            return new(StandingSays.NotRead) { Doubted = doubted };
        var fluid = Evidence.FluidOf(record.Car);
        var earlier = EarlierAtOtherTemperature(record, timeline, entry, reading);
        var odds = earlier is { } other
            ? StandingOdds.From(fluid, other.Reading, reading.Standing)
            : StandingOdds.From(fluid, reading.Standing);
        var found = new StandingPicture(Judge(timeline.After(entry), odds))
        {
            Entry = entry,
            Earlier = earlier?.Entry,
            Reading = reading,
            Odds = odds,
            SaturationPa = fluid.SaturationAtTemperature(reading.Standing.TemperatureK).PressurePa,
            SaturationSigmaPa = StandingOdds.Sigma(fluid, reading.Standing with { PressureSigmaPa = 0 }),
            ExcessSigmaPa = StandingOdds.Sigma(fluid, reading.Standing),
            Otherwise = Identification.Otherwise(record, [entry.Id]),
            Doubted = doubted,
        };
        if (found.Otherwise is not null)
            return found with { Says = StandingSays.NotTheLabels };
        if (found.Says == StandingSays.OpenToAir)
            return found;
        var mayBe = !reading.AtRest
            ? []
            : OtherRefrigerant.Fitting(
                fluid,
                earlier is { } first ? [first.Reading, reading.Standing] : [reading.Standing]
            );
        return found with
        {
            Says = mayBe.IsEmpty ? found.Says : StandingSays.MayBeAnother,
            MayBe = mayBe,
            Left = odds.VapourOnly >= Sure ? VapourOf(record, fluid, reading.Standing) : null,
            LeastKg = odds.LiquidPresent >= Sure ? LeastOf(record, fluid, reading.Standing) : null,
        };
    }

    private static StandingSays Judge(CircuitState after, StandingOdds odds) =>
        after is { CameOpen: true } ? StandingSays.OpenToAir
        : odds.VapourOnly >= Sure ? StandingSays.VapourOnly
        : odds.LiquidPresent >= Sure ? StandingSays.LiquidPresent
        : odds.OtherGas >= Sure ? StandingSays.OtherGas
        : StandingSays.CannotTell;

    private static MassBelief VapourOf(JobRecord record, Fluid fluid, StandingReading reading)
    {
        var volume = Evidence.VolumeOf(record.Car);
        return StandingMass.VapourOnly(fluid, reading, volume.M3, volume.RelativeSigma, Evidence.OilM3(record.Car));
    }

    private static double LeastOf(JobRecord record, Fluid fluid, StandingReading reading)
    {
        var volume = Evidence.VolumeOf(record.Car);
        return StandingMass.LiquidPresentLeastKg(fluid, reading, volume.M3, volume.RelativeSigma);
    }

    /// <summary>Two temperatures tell vapour from liquid where one cannot; both of the same epoch.</summary>
    private static (Entry Entry, StandingReading Reading)? EarlierAtOtherTemperature(
        JobRecord record,
        Timeline timeline,
        Entry last,
        RestingReading now
    )
    {
        var epoch = timeline.Before(last).Epoch;
        foreach (
            var entry in timeline
                .OfKind(EntryKinds.StandingReading)
                .Where(entry => entry.ObservedAt < last.ObservedAt)
                .Reverse()
        )
        {
            if (timeline.Before(entry).Epoch != epoch)
                return null;
            if (
                RestingReading.Of(record, entry) is { } earlier
                && Math.Abs(earlier.Standing.TemperatureK - now.Standing.TemperatureK) >= 5
            )
                return (entry, earlier.Standing);
        }
        return null;
    }
}
