using Tightcold.Diagnosis.Inference;
using Tightcold.Diagnosis.Measurement;
using Tightcold.Picture.Pressures;
using Tightcold.Quantities;

namespace Tightcold.Findings.Diagnosing;

/// <summary>Readings in the trade's words, pressures as the gauge shows them.</summary>
public static class ReadingWords
{
    [Said]
    public static string Name(Channel channel) =>
        channel switch
        {
            Channel.LowSide => "low side",
            Channel.LowSwingTop => "top of the low side's swing",
            Channel.HighSide => "high side",
            Channel.Vent => "vent",
            Channel.SuctionLine => "suction line",
            Channel.LiquidLine => "liquid line",
            Channel.HighSwingTop => "top of the high side's swing",
            Channel.LineStep => "fall along the liquid line",
            _ => "discharge line",
        };

    public static Measure Value(Channel channel, double si, double barometricPa) =>
        IsPressure(channel) ? Gauges.Shown(si, barometricPa)
        : channel == Channel.LineStep ? new(QuantityKind.TemperatureDifference, si)
        : Measure.AbsoluteTemperature(si);

    public static bool IsPressure(Channel channel) =>
        channel is Channel.LowSide or Channel.LowSwingTop or Channel.HighSide or Channel.HighSwingTop;

    /// <summary>“high side 21 bar, where this fault puts it at 19 to 24 bar and a sound car at 13 to 16 bar”.</summary>
    public static Phrase Reason(Reason reason, DiagnosisEvidence evidence)
    {
        ArgumentNullException.ThrowIfNull(reason);
        ArgumentNullException.ThrowIfNull(evidence);
        if (reason.IsHistory)
            return HistoryWords.Speaks(evidence.History!, reason.Expected);
        var point = evidence.Points[reason.Point];
        // Which one is said only where there are several.
        var (several, number) = (evidence.Points.Length > 1, reason.Point + 1);
        if (reason.Seen is { } seen)
            return several ? Phrase.Of($"{Seen(seen, point)} (reading {number})") : Phrase.Words(Seen(seen, point));
        var channel = reason.Channel!.Value;
        Measure M(double si) => Value(channel, si, point.BarometricPa);
        var fault = (M(reason.Expected.Low), M(reason.Expected.High));
        var sound = (M(reason.Healthy.Low), M(reason.Healthy.High));
        return several
            ? Phrase.Of(
                $"{Name(channel)} {M(reason.Observed)} (reading {number}), with this fault {fault}, sound {sound}"
            )
            : Phrase.Of($"{Name(channel)} {M(reason.Observed)}, with this fault {fault}, sound {sound}");
    }

    /// <summary>“high side 14 bar (12 to 21 bar)”: where no fault is named, only what a sound car shows.</summary>
    public static Phrase Sound(Reason reason, DiagnosisEvidence evidence)
    {
        ArgumentNullException.ThrowIfNull(reason);
        ArgumentNullException.ThrowIfNull(evidence);
        if (reason.Channel is not { } channel)
            return Reason(reason, evidence);
        var airPa = evidence.Points[reason.Point].BarometricPa;
        Measure M(double si) => Value(channel, si, airPa);
        return Phrase.Of($"{Name(channel)} {M(reason.Observed)} ({(M(reason.Healthy.Low), M(reason.Healthy.High))})");
    }

    /// <summary>The same in a few words, for a table: “high side 21 bar (19 to 24 bar if so)”.</summary>
    public static Phrase Brief(Reason reason, DiagnosisEvidence evidence)
    {
        ArgumentNullException.ThrowIfNull(reason);
        ArgumentNullException.ThrowIfNull(evidence);
        if (reason.Channel is not { } channel)
            return Reason(reason, evidence);
        var barometric = evidence.Points[reason.Point].BarometricPa;
        var read = Value(channel, reason.Observed, barometric);
        var fault = (Value(channel, reason.Expected.Low, barometric), Value(channel, reason.Expected.High, barometric));
        return evidence.Points.Length > 1
            ? Phrase.Of($"{Name(channel)} {read} in reading {reason.Point + 1} ({fault} if so)")
            : Phrase.Of($"{Name(channel)} {read} ({fault} if so)");
    }

    /// <summary>“This reading does not fit: high side 12 bar in reading 2; what fits the others best puts it at 18 to 22
    /// bar.”</summary>
    public static Phrase DoesNotFit(ReadingCheck reading, DiagnosisEvidence evidence)
    {
        ArgumentNullException.ThrowIfNull(reading);
        ArgumentNullException.ThrowIfNull(evidence);
        Measure M(double si) => Value(reading.Channel, si, evidence.Points[reading.Point].BarometricPa);
        var range = (M(reading.Leading.Low), M(reading.Leading.High));
        return evidence.Points.Length > 1
            ? Phrase.Of(
                $"This reading does not fit: {Name(reading.Channel)} {M(reading.Observed)} in reading "
                    + $"{reading.Point + 1}; what fits the others best puts it at {range}. Read it again."
            )
            : Phrase.Of(
                $"This reading does not fit: {Name(reading.Channel)} {M(reading.Observed)}; what fits the others best "
                    + $"puts it at {range}. Read it again."
            );
    }

    public static Phrase Of(Contradiction one, DiagnosisEvidence evidence)
    {
        ArgumentNullException.ThrowIfNull(one);
        ArgumentNullException.ThrowIfNull(evidence);
        var barometer =
            one.Point >= 0 && one.Point < evidence.Points.Length ? evidence.Points[one.Point].BarometricPa : 101_325;
        Measure Gauge(double si) => Gauges.Shown(si, barometer);
        var name = one.Channel is { } channel ? Name(channel) : "standing pressure";
        Measure M(double si) => one.Channel is { } of && !IsPressure(of) ? Measure.AbsoluteTemperature(si) : Gauge(si);
        return one.Kind switch
        {
            ContradictionKind.BelowVacuum => Phrase.Of(
                $"The {name} of {M(one.Value)} lies below a perfect vacuum: gauge or unit is wrong"
            ),
            ContradictionKind.AboveRelief => Phrase.Of(
                $"The {name} of {M(one.Value)} is more than relief valves let stand: gauge or unit is wrong"
            ),
            ContradictionKind.SidesSwapped => Phrase.Of(
                $"Low side {Gauge(one.Value)} above high side {Gauge(one.Limit)} with the compressor running cannot be: hoses changed over, or a gauge off"
            ),
            ContradictionKind.WeatherOutsideModel => Phrase.Of(
                $"At {Measure.AbsoluteTemperature(one.Value)} the model does not speak; that reading is set aside"
            ),
            ContradictionKind.VentTooWarm => Phrase.Of(
                $"A vent of {M(one.Value)} is warmer than anything that air could meet here"
            ),
            ContradictionKind.ColderThanRefrigerant => Phrase.Of(
                $"The {name} of {M(one.Value)} is colder than the refrigerant at that low side, {Measure.AbsoluteTemperature(one.Limit)}: one of the two is misread"
            ),
            ContradictionKind.LiquidAboveDischarge => Phrase.Of(
                $"The liquid line of {M(one.Value)} is hotter than the discharge line of {M(one.Limit)} that feeds it: clamps changed over"
            ),
            _ => Phrase.Of(
                $"The liquid line of {M(one.Value)} is colder than the air that cools it, {M(one.Limit)}: clamp on the wrong pipe, or another place was measured"
            ),
        };
    }

    [Said]
    private static string Seen(SeenKind seen, OperatingPoint point) =>
        seen switch
        {
            SeenKind.Glass => point.Glass switch
            {
                GlassSeen.Clear => "clear sight glass",
                GlassSeen.Bubbles => "bubbles in the sight glass",
                _ => "milky sight glass",
            },
            SeenKind.Frost => point.Frost switch
            {
                FrostSeen.AtThrottle => "frost at the expansion device",
                FrostSeen.OnSuctionLine => "frost on the suction line",
                FrostSeen.OnDrier => "frost on the drier",
                _ => "no frost anywhere",
            },
            SeenKind.Clutch => point.Clutch switch
            {
                ClutchSeen.On => "clutch steadily on",
                ClutchSeen.Off => "clutch off",
                _ => "clutch cycling",
            },
            _ => "how often the clutch cycles",
        };
}
