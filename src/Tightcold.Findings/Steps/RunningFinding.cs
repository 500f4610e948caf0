using System.Collections.Immutable;
using Tightcold.Diagnosis.Inference;
using Tightcold.Diagnosis.Measurement;
using Tightcold.Findings.Diagnosing;
using Tightcold.Jobs.Cars;
using Tightcold.Jobs.Entries;
using Tightcold.Jobs.Fields;
using Tightcold.Picture;
using Tightcold.Picture.Running;
using Tightcold.Procedures.Substances;
using Tightcold.Quantities;
using static Tightcold.Picture.Pressures.Evidence;

namespace Tightcold.Findings.Steps;

/// <summary>The gauges with the engine running, beside what a sound car shows today. What it means is weighed once, in
/// “what is wrong”: here stand no odds of its own.</summary>
internal static class RunningFinding
{
    private const string Title = "Running pressures";

    private static readonly ImmutableArray<Caution> Hazards =
    [
        new(
            "high-valve",
            Danger.Life,
            Phrase.Words("The high hand valve stays shut while the engine runs: high-side pressure bursts a can."),
            "common practice"
        ),
        StepCautions.MovingParts,
    ];

    private static readonly NextAction Lines = new(
        Phrase.Words("Clamp the thermometer on suction and liquid line"),
        Phrase.Words("superheat and subcooling: too little charge, a restriction or a weak compressor"),
        5,
        EntryKinds.RunningReading,
        Doing.RunsCompressor
    );

    private static readonly NextAction ReadAgain = new(
        Phrase.Words("Read again with both gauges, air, vent and line temperatures"),
        Phrase.Words("a picture that can be weighed"),
        10,
        EntryKinds.RunningReading,
        Doing.RunsCompressor
    );

    public static Finding Of(JobPicture picture)
    {
        var last = picture.Timeline.Moments.LastOrDefault(moment => moment.Entry.Kind == EntryKinds.RunningReading);
        if (last is { Entry: not null, Doubt: { } doubt })
            return DoubtWords.Finding(Step.RunningPressures, Title, picture, last.Entry, doubt) with
            {
                Hazards = Hazards,
            };
        if (picture.Running is not { } running)
        {
            return new(
                Step.RunningPressures,
                Title,
                Certainty.NothingYet,
                Judgement.Open,
                last.Entry is null
                    ? Phrase.Words("Not read yet.")
                    : Phrase.Words("Read while no refrigerant was inside: that tells nothing of this car.")
            )
            {
                Hazards = Hazards,
                Next =
                [
                    new(
                        Phrase.Words(
                            "Run it cold on full blower for ten minutes, then read both gauges, vent and line "
                                + "temperatures"
                        ),
                        Phrase.Words("which faults fit"),
                        12,
                        EntryKinds.RunningReading,
                        Doing.RunsCompressor
                    ),
                ],
            };
        }
        var checks = Checks(picture, running);
        var (certainty, judgement, verdict) = Say(running, checks);
        return new(Step.RunningPressures, Title, certainty, judgement, verdict)
        {
            Why = LinesSay(picture.Record.Car, running),
            Estimates = [.. Estimates(running, checks)],
            RestsOn = picture.Record.WeatherAt(running.Entry.ObservedAt) is { } weather
                ? [weather.Id, running.Entry.Id]
                : [running.Entry.Id],
            Assumptions = running.Air.Assumption is { } assumed ? [assumed] : [],
            Missing = [.. Missing(picture, running)],
            Hazards = Hazards,
            Next =
                running is { Low: null } or { High: null } or { AmbientK: null } ? [ReadAgain]
                : running is { Superheat: not null, Subcooling: not null } ? []
                : [Lines],
        };
    }

    /// <summary>This reading's channels against a sound car, as the diagnosis weighed them; empty at a
    /// glance.</summary>
    private static ImmutableArray<ReadingCheck> Checks(JobPicture picture, RunningPicture running)
    {
        if (picture.Machine is not { Evidence: { } evidence, Answer: var answer })
            return [];
        var point = evidence.RestsOn.Take(evidence.Evidence.Points.Length).ToList().IndexOf(running.Entry.Id);
        return
        [
            .. answer.Readings.Where(check =>
                check.Point == point && check.Channel is Channel.LowSide or Channel.HighSide
            ),
        ];
    }

    private static (Certainty, Judgement, Phrase) Say(RunningPicture running, ImmutableArray<ReadingCheck> checks)
    {
        var read = Both(running);
        if (running.Low is null || running.High is null)
            return (Certainty.Weak, Judgement.CannotTell, Phrase.Of($"{read}. One side alone never gives a picture."));
        if (running.AmbientK is not { } outside)
            return (
                Certainty.Weak,
                Judgement.CannotTell,
                Phrase.Of($"{read}. Without the air temperature nobody can say whether that is right.")
            );
        if (checks.Length < 2)
            return (Certainty.Weak, Judgement.Open, Phrase.Of($"{read}, at {At(outside)} outside."));
        var off = checks.Where(check => Off(check) != 0).ToArray();
        if (off.Length == 0)
            return (Certainty.Stands, Judgement.Good, Phrase.Of($"{read}: where a sound car stands today."));
        var what = off.Select(check =>
            Off(check) < 0
                ? Phrase.Of($"{ReadingWords.Name(check.Channel)} lower than a sound car's {Band(check, running)}")
                : Phrase.Of($"{ReadingWords.Name(check.Channel)} higher than a sound car's {Band(check, running)}")
        );
        return (Certainty.Stands, Judgement.Bad, Phrase.Of($"{read}: {Phrase.Join(", ", what)}."));
    }

    private static int Off(ReadingCheck check) =>
        check.Observed < check.Healthy.Low - check.SigmaInstrument ? -1
        : check.Observed > check.Healthy.High + check.SigmaInstrument ? 1
        : 0;

    private static Phrase Band(ReadingCheck check, RunningPicture running) =>
        Phrase.Of(
            $"{(ReadingWords.Value(check.Channel, check.Healthy.Low, running.Air.Pascals), ReadingWords.Value(check.Channel, check.Healthy.High, running.Air.Pascals))}"
        );

    private static Phrase Both(RunningPicture running)
    {
        var (low, high) = (
            running.Entry.Fields.Get<GaugePressure>(FieldNames.LowSide),
            running.Entry.Fields.Get<GaugePressure>(FieldNames.HighSide)
        );
        return low is { } l && high is { } h ? Phrase.Of($"Low side {l}, high side {h}")
            : low is { } one ? Phrase.Of($"Low side {one}")
            : high is { } other ? Phrase.Of($"High side {other}")
            : Phrase.Words("No pressure was read");
    }

    private static IEnumerable<Estimate> Estimates(RunningPicture running, ImmutableArray<ReadingCheck> checks)
    {
        if (running.Low is { SaturationK: { } boils } low)
            yield return Estimate.Normal(
                "low-saturation",
                "Low side boils at",
                QuantityKind.Temperature,
                boils,
                low.SaturationSigmaK
            );
        if (running.High is { SaturationK: { } condenses } high)
            yield return Estimate.Normal(
                "high-saturation",
                "High side condenses at",
                QuantityKind.Temperature,
                condenses,
                high.SaturationSigmaK
            );
        foreach (var check in checks)
        {
            Measure Shown(double pascals) => ReadingWords.Value(check.Channel, pascals, running.Air.Pascals);
            yield return Estimate.Between(
                $"sound-{(check.Channel == Channel.LowSide ? "low" : "high")}",
                check.Channel == Channel.LowSide ? "A sound car’s low side" : "A sound car’s high side",
                QuantityKind.GaugePressure,
                Shown(check.Healthy.Median).Si,
                Shown(check.Healthy.Low).Si,
                Shown(check.Healthy.High).Si,
                EstimateOrigin.Modelled
            );
        }
        if (running.Superheat is { } superheat)
            yield return Estimate.Normal(
                "superheat",
                "Superheat at the suction line",
                QuantityKind.TemperatureDifference,
                superheat.Kelvins,
                superheat.SigmaK
            );
        if (running.Subcooling is { } subcooling)
            yield return Estimate.Normal(
                "subcooling",
                "Subcooling at the liquid line",
                QuantityKind.TemperatureDifference,
                subcooling.Kelvins,
                subcooling.SigmaK
            );
        if (running is { Ratio: { } ratio, Low: { } l, High: { } h })
        {
            yield return Estimate.Normal(
                "pressure-ratio",
                "Pressure ratio",
                QuantityKind.Number,
                ratio,
                ratio * Math.Sqrt(Math.Pow(l.SigmaPa / l.Pascals, 2) + Math.Pow(h.SigmaPa / h.Pascals, 2)),
                floor: 0
            );
        }
    }

    private static IEnumerable<Phrase> Missing(JobPicture picture, RunningPicture running)
    {
        var fluid = Phrase.Verbatim(FluidOf(picture.Record.Car).DisplayName);
        foreach (var (side, isLow) in new[] { (running.Low, true), (running.High, false) })
        {
            if (side is null)
                yield return Phrase.Words(isLow ? "the low-side pressure" : "the high-side pressure");
            else if (side.SaturationK is null)
                yield return Phrase.Of(
                    $"a saturation temperature: {Absolute(side.Pascals)} lies outside what {fluid} condenses at"
                );
        }
        if (running.AmbientK is null)
            yield return Phrase.Words(
                "today's air temperature: the same pressures are right in one weather and wrong in another"
            );
        if (running is { Low.SaturationK: not null, Superheat: null })
            yield return Phrase.Words(
                "the suction line temperature: superheat tells a starved coil from a flooded one"
            );
        if (running is { High.SaturationK: not null, Subcooling: null })
            yield return Phrase.Words(
                "the liquid line temperature: subcooling tells how much liquid stands in the condenser"
            );
    }

    /// <summary>What superheat and subcooling add. Healthy: superheat 3 to 8 K with an expansion valve, subcooling 5 to
    /// 12 K; common practice. Judged by the whole interval, so a poor clamp says nothing. Behind an orifice tube the
    /// accumulator keeps superheat near nothing: there it says nothing of a fault.</summary>
    private static Phrase LinesSay(Car car, RunningPicture running)
    {
        if (running is not { Superheat: { } superheat, Subcooling: { } subcooling })
            return Phrase.Empty;
        var (hotLow, hotHigh) = (
            superheat.Kelvins - (Estimate.Z90 * superheat.SigmaK),
            superheat.Kelvins + (Estimate.Z90 * superheat.SigmaK)
        );
        var (coldLow, coldHigh) = (
            subcooling.Kelvins - (Estimate.Z90 * subcooling.SigmaK),
            subcooling.Kelvins + (Estimate.Z90 * subcooling.SigmaK)
        );
        if (hotLow > 8 && coldHigh < 5)
            return Phrase.Words(
                "Superheat is high and hardly any liquid stands before the expansion device: the coil starves for "
                    + "want of refrigerant."
            );
        if (hotLow > 8 && coldLow > 5)
            return Phrase.Words(
                "Superheat is high though liquid stands before the expansion device: something holds it back."
            );
        if (hotHigh < 3 && car.Device == Car.ExpansionValve)
            return Phrase.Words(
                "Hardly any superheat: liquid comes back to the compressor, as with a valve stuck open or too little "
                    + "air over the coil."
            );
        return coldLow > 12
            ? Phrase.Words("Much liquid stands in the condenser: too much refrigerant, or a restriction after it.")
            : Phrase.Empty;
    }
}
