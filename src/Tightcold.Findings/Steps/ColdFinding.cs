using System.Collections.Immutable;
using Tightcold.Jobs.Entries;
using Tightcold.Picture;
using Tightcold.Picture.Cold;
using Tightcold.Procedures.Cold;
using Tightcold.Procedures.Substances;
using Tightcold.Quantities;
using static Tightcold.Picture.Pressures.Evidence;

namespace Tightcold.Findings.Steps;

/// <summary>The second proof: as cold as a sound car in today's weather?</summary>
internal static class ColdFinding
{
    private const string Title = "Vent";

    private static readonly ImmutableArray<Caution> Hazards =
    [
        StepCautions.MovingParts with
        {
            Says = Phrase.Words(
                "Parking brake on, exhaust outside, hands and probe clear of the blower and the engine's belts."
            ),
        },
    ];

    public static Finding Of(JobPicture picture)
    {
        if (picture.Cold is not { } cold)
        {
            return new(Step.ProveCold, Title, Certainty.NothingYet, Judgement.Open, Phrase.Words("Not measured yet."))
            {
                Hazards = Hazards,
                Next =
                [
                    new(
                        Phrase.Words("Full blower, coldest setting, ten minutes; thermometer in the centre vent"),
                        Phrase.Words("whether it cools as a sound car would today"),
                        12,
                        EntryKinds.VentReading,
                        Doing.RunsCompressor
                    ),
                ],
            };
        }
        var (judgement, verdict) = Say(cold);
        var missing = Missing(cold.Shown);
        return new(Step.ProveCold, Title, missing.Length == 0 ? Certainty.Stands : Certainty.Weak, judgement, verdict)
        {
            Why = Why(cold),
            Estimates = [.. Estimates(cold)],
            RestsOn = [.. cold.Readings.Select(reading => reading.Entry.Id)],
            Assumptions = [.. Assumptions(cold.Shown)],
            Missing = missing,
            Hazards = [.. Icing(cold).Select(StepCautions.Mind), .. Hazards],
            Next = Next(cold),
            Table = cold.Readings.Length > 1 ? Table(cold) : null,
        };
    }

    private static (Judgement, Phrase) Say(ColdPicture cold)
    {
        var band = (At(cold.Shown.Observation.Band.LowK), At(cold.Shown.Observation.Band.HighK));
        var vent = At(cold.Shown.Observation.VentK);
        return cold.Outcome switch
        {
            ColdOutcome.WarmAgain => (
                Judgement.Bad,
                Phrase.Of(
                    $"It got warm again: {vent} at the vent at the end, where a sound car blows {band}. {Sure(cold)}"
                )
            ),
            ColdOutcome.Proven => (
                Judgement.Good,
                Phrase.Of($"Proven cold: {vent} at the vent, a sound car blows {band} in this weather. {Sure(cold)}")
            ),
            ColdOutcome.NotCold => (
                Judgement.Bad,
                Phrase.Of($"Not cold: {vent} at the vent, where a sound car blows {band}. {Sure(cold)}")
            ),
            ColdOutcome.AsksFirst => (
                Judgement.CannotTell,
                (cold.Shown.HumidityMissing, cold.Shown.CabinMissing) switch
                {
                    (true, true) => Phrase.Of(
                        $"{vent} at the vent. In this heat the humidity and the cabin air decides whether that is "
                            + $"cold: write it down."
                    ),
                    (true, false) => Phrase.Of(
                        $"{vent} at the vent. In this heat the humidity decides whether that is cold: write it down."
                    ),
                    _ => Phrase.Of(
                        $"{vent} at the vent. In this heat the cabin air decides whether that is cold: write it down."
                    ),
                }
            ),
            _ => (
                Judgement.CannotTell,
                Phrase.Of($"Cannot tell: {vent} at the vent, a sound car blows {band}. {Sure(cold)}")
            ),
        };
    }

    private static Phrase Sure(ColdPicture cold) => Phrase.Of($"It cools as a sound car: {Odds(cold.Odds)} sure.");

    private static Phrase Again(VentJudged shown) =>
        Phrase.Words(
            shown is { HumidityMissing: true, CabinMissing: true }
                ? "Read the vent again, with the humidity and the cabin air"
            : shown.HumidityMissing ? "Read the vent again, with the humidity"
            : "Read the vent again, with the cabin air"
        );

    private static IEnumerable<Estimate> Estimates(ColdPicture cold)
    {
        var (shown, proof) = (cold.Shown.Observation, cold.Proof);
        yield return Estimate.Normal(
            "vent",
            "Vent",
            QuantityKind.Temperature,
            shown.VentK,
            shown.ThermometerSigmaK,
            EstimateOrigin.Measured
        );
        yield return Estimate.Between(
            "healthy-vent",
            "A sound car would blow",
            QuantityKind.Temperature,
            shown.Band.MedianK,
            shown.Band.LowK,
            shown.Band.HighK,
            EstimateOrigin.Modelled
        );
        // All the weight on a sound car: the share would say nothing more.
        if (proof.ShareLow < 0.98)
            yield return Estimate.Between(
                "cooling-share",
                "Cooling, of a sound car's",
                QuantityKind.Ratio,
                proof.ShareMedian,
                proof.ShareLow,
                proof.ShareHigh,
                EstimateOrigin.Modelled
            );
        if (
            PullDown.Fit([
                .. cold
                    .Readings.Where(reading => reading.SinceStartS is not null)
                    .Select(reading => (reading.SinceStartS!.Value, reading.Observation.VentK)),
            ])
                is { Falling: true } fit
            && fit.EndK > 255
        )
            yield return Estimate.Normal(
                "pull-down-end",
                "The vent is on its way to",
                QuantityKind.Temperature,
                fit.EndK,
                1 + fit.ResidualK,
                EstimateOrigin.Computed
            );
        if (cold is { Outcome: not ColdOutcome.Proven, Charge: { } charge })
            yield return Estimate.Between(
                "charge-explains",
                "Warmer at the most by the charge being off",
                QuantityKind.TemperatureDifference,
                0,
                0,
                shown.Band.WarmerByK(charge.Least, charge.Most),
                EstimateOrigin.Modelled
            );
    }

    private static Phrase Why(ColdPicture cold)
    {
        var shown = cold.Shown;
        var intake = At(shown.Observation.Weather.IntakeK);
        var why = shown.Recirculated
            ? Phrase.Of(
                $"The blower takes recirculated air at {intake}; the coil must cool it and wring the water out of it."
            )
            : Phrase.Of(
                $"The blower takes fresh air at {intake}; the coil must cool it and wring the water out of it."
            );
        if (
            cold.Readings.FirstOrDefault(reading => reading.ParkedInSun && reading.Observation.Weather.IntakeK > 313) is
            { } hot
        )
            why = why.Then(
                Phrase.Of(
                    $"A car standing in the sun stores heat that takes a drive to get out: "
                        + $"{At(hot.Observation.VentK)} at the vent then is no failure by itself."
                )
            );
        var off = shown.Observation.VentK - shown.Observation.Band.MedianK;
        if (cold is not { Outcome: not ColdOutcome.Proven, Charge: { } charge } || off <= 1)
            return why;
        var explains = shown.Observation.Band.WarmerByK(charge.Least, charge.Most);
        return why.Then(
            explains >= off
                ? Phrase.Of(
                    $"It is {Kelvins(off)} warmer than the middle car; a charge off by what the scale leaves open "
                        + $"could explain all of it."
                )
                : Phrase.Of(
                    $"It is {Kelvins(off)} warmer than the middle car; the charge as weighed explains at most "
                        + $"{Kelvins(explains)} of it: look at airflow over the condenser, blend door, compressor."
                )
        );
    }

    private static ImmutableArray<Phrase> Missing(VentJudged shown)
    {
        var missing = ImmutableArray.CreateBuilder<Phrase>();
        if (shown.HumidityMissing)
            missing.Add(Phrase.Words("humidity: from dry to damp air the vent differs by several degrees"));
        if (shown.CabinMissing)
            missing.Add(
                Phrase.Words(
                    "the cabin air temperature at the blower's intake: on recirculation that is what gets cooled"
                )
            );
        if (shown.BlowerMissing)
            missing.Add(Phrase.Words("the blower setting: less air comes out colder"));
        return missing.ToImmutable();
    }

    private static IEnumerable<Assumption> Assumptions(VentJudged shown)
    {
        if (shown.HumidityMissing)
            yield return new(
                Phrase.Of($"Relative humidity {Share(VentJudged.AssumedHumidity)}"),
                Phrase.Of($"dry or damp air moves the band by up to {Kelvins(6)}")
            );
        if (shown.CabinMissing)
        {
            yield return new(
                shown.AssumedSoakK > 0
                    ? Phrase.Of(
                        $"Cabin air {Kelvins(shown.AssumedSoakK)} warmer than outside, as a car heated by the sun"
                    )
                    : Phrase.Words("Cabin air as warm as outside"),
                Phrase.Words("a cooled cabin gives a colder vent, one heated by the sun a much warmer one")
            );
        }
        if (shown.Recirculated)
            yield return new(
                Phrase.Words("Cabin air half as dried as the coil can make it"),
                Phrase.Of($"fully damp or fully dried moves the band by about {Kelvins(1.5)}")
            );
        yield return new(
            Phrase.Words(
                "Compressor, condenser, coil and airflow as cars with such a label have them, spread wide and run "
                    + "through a model; not measured on this car"
            ),
            Phrase.Words("earlier sound readings of this car would narrow the band")
        );
    }

    private static IEnumerable<Phrase> Icing(ColdPicture cold)
    {
        if (cold.Icing.Chance >= 0.2)
            yield return Phrase.Of(
                $"The coil may ice up on a long drive ({Odds(cold.Icing.Chance)}): its fins stand near or below "
                    + $"{At(273.15)} in damp air. Watch whether the air weakens; then the freeze protection is not "
                    + $"working."
            );
    }

    private static ImmutableArray<NextAction> Next(ColdPicture cold)
    {
        var gauges = new NextAction(
            Phrase.Words("Read both gauges now"),
            Phrase.Words("which side is wrong"),
            5,
            EntryKinds.RunningReading,
            Doing.RunsCompressor
        );
        return cold.Outcome switch
        {
            ColdOutcome.Proven => [],
            ColdOutcome.AsksFirst =>
            [
                new(
                    Again(cold.Shown),
                    Phrase.Words("whether that is cold for this weather"),
                    5,
                    EntryKinds.VentReading,
                    Doing.RunsCompressor
                ),
            ],
            ColdOutcome.NotCold or ColdOutcome.WarmAgain => [gauges],
            _ =>
            [
                new(
                    Phrase.Words("Read again after ten minutes at raised speed on recirculated air, out of the sun"),
                    Phrase.Words("whether heat soak or a fault keeps it warm"),
                    12,
                    EntryKinds.VentReading,
                    Doing.RunsCompressor
                ),
                gauges,
            ],
        };
    }

    private static Phrase Air(Measure intake, bool recirculated, bool inTheSun) =>
        (recirculated, inTheSun) switch
        {
            (true, true) => Phrase.Of($"recirculated, {intake}, parked in the sun"),
            (true, false) => Phrase.Of($"recirculated, {intake}"),
            (false, true) => Phrase.Of($"fresh, {intake}, parked in the sun"),
            _ => Phrase.Of($"fresh, {intake}"),
        };

    private static FindingTable Table(ColdPicture cold) =>
        new(
            "Vent readings in time",
            ["Since on", "Air", "Vent", "A sound car"],
            [
                .. cold.Readings.Select(reading =>
                    ImmutableArray.Create(
                        reading.SinceStartS is { } seconds
                            ? Phrase.Of($"{Measure.Seconds(seconds)}")
                            : Phrase.Words("not written down"),
                        Air(At(reading.Observation.Weather.IntakeK), reading.Recirculated, reading.ParkedInSun),
                        Phrase.Of($"{At(reading.Observation.VentK)}"),
                        Phrase.Of($"{(At(reading.Observation.Band.LowK), At(reading.Observation.Band.HighK))}")
                    )
                ),
            ]
        );
}
