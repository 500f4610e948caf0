using System.Collections.Immutable;
using Tightcold.Diagnosis.Measurement;

namespace Tightcold.Diagnosis.NextTest;

/// <summary>One test: how the car is run, what is read, what it takes.</summary>
/// <param name="Kind">Which test.</param>
/// <param name="Minutes">Own time, waiting included; common practice.</param>
/// <param name="Money">Outlay in the price of a can of refrigerant; assumed.</param>
/// <param name="Channels">What is read.</param>
internal sealed record TestPlan(TestKind Kind, double Minutes, double Money, ImmutableArray<Channel> Channels)
{
    private const double RaisedRpm = 2200;
    private const double LowBlower = 0.4;

    // Cardboard is taken off by 20 bar gauge, 21 absolute; it needs room below that to begin with.
    private const double SafeToBlockPa = 15e5;

    // Both sides at rest below this: next to nothing is in, and no compressor is run.
    private const double NearlyEmptyPa = 2.5e5;

    /// <summary>Above this the high side is not led on purpose, Pa absolute.</summary>
    public const double BlockedStopPa = 21e5;

    /// <summary>What may be found, where the test is looked, felt or tried; empty where numbers are read.</summary>
    public ImmutableArray<Sign> Signs { get; init; } = [];

    /// <summary>The point to run at; null where the test runs no point of its own.</summary>
    public OperatingPoint? Point { get; init; }

    /// <summary>Every test that adds to what was read.</summary>
    public static IEnumerable<TestPlan> For(DiagnosisEvidence evidence) =>
        evidence.Standing.Any(reading => reading.PressurePa < NearlyEmptyPa)
            ? AtRest(evidence)
            : [.. Running(evidence), .. Looked(evidence), .. AtRest(evidence)];

    private static IEnumerable<TestPlan> Running(DiagnosisEvidence evidence)
    {
        var last = Last(evidence);
        var bare = last with
        {
            Readings = [],
            Glass = GlassSeen.NotLooked,
            Frost = FrostSeen.NotLooked,
            Clutch = ClutchSeen.NotLooked,
            CyclesPerMinute = null,
            Aid = Aid.None,
        };
        var same = bare with { Aid = last.Aid };
        bool Lacks(Channel channel) => !last.Readings.Any(reading => reading.Channel == channel);
        TestPlan At(TestKind kind, double minutes, OperatingPoint point, params ImmutableArray<Channel> channels) =>
            new(kind, minutes, 0, channels) { Point = point };
        if (evidence.Points.IsEmpty || (Lacks(Channel.LowSide) && Lacks(Channel.HighSide)))
            yield return At(
                TestKind.RaiseSpeed,
                10,
                bare with
                {
                    EngineRpm = 1500,
                },
                Channel.LowSide,
                Channel.HighSide,
                Channel.Vent
            );
        if (Lacks(Channel.Vent))
            yield return At(TestKind.ReadVent, 3, same, Channel.Vent);
        if (Lacks(Channel.SuctionLine))
            yield return At(TestKind.ClampSuctionLine, 4, same, Channel.SuctionLine);
        if (Lacks(Channel.LiquidLine))
            yield return At(TestKind.ClampLiquidLine, 4, same, Channel.LiquidLine);
        if (Lacks(Channel.DischargeLine))
            yield return At(TestKind.ClampDischargeLine, 4, same, Channel.DischargeLine);
        if (last.Frost == FrostSeen.NotLooked)
            yield return At(TestKind.LookForFrost, 2, same);
        if (last.Clutch == ClutchSeen.NotLooked && last.CyclesPerMinute is null)
            yield return At(TestKind.WatchClutch, 3, same);
        if (evidence.Points.All(point => point.Aid != Aid.Fan))
            yield return At(
                TestKind.FanOnCondenser,
                5,
                bare with
                {
                    Aid = Aid.Fan,
                },
                Channel.HighSide,
                Channel.LowSide,
                Channel.Vent
            );
        if (evidence.Points.All(point => point.Aid != Aid.Mist))
            yield return At(
                TestKind.MistOnCondenser,
                5,
                bare with
                {
                    Aid = Aid.Mist,
                },
                Channel.HighSide,
                Channel.LowSide,
                Channel.Vent
            );
        if (evidence.Points.All(point => point.EngineRpm < RaisedRpm - 400))
            yield return At(
                TestKind.RaiseSpeed,
                5,
                bare with
                {
                    EngineRpm = RaisedRpm,
                },
                Channel.LowSide,
                Channel.HighSide,
                Channel.Vent
            );
        if (evidence.Points.All(point => point.BlowerShare > LowBlower + 0.1))
            yield return At(
                TestKind.BlowerLow,
                5,
                bare with
                {
                    BlowerShare = LowBlower,
                },
                Channel.LowSide,
                Channel.Vent,
                Channel.HighSide
            );
        var roomAbove = last.Readings.Any(reading =>
            reading.Channel == Channel.HighSide && reading.Value < SafeToBlockPa
        );
        if (evidence.Points.All(point => point.Aid != Aid.Blocked) && roomAbove)
            yield return At(
                TestKind.BlockCondenser,
                6,
                bare with
                {
                    Aid = Aid.Blocked,
                },
                Channel.HighSide,
                Channel.LowSide
            );
        if (evidence.Points.All(point => point.FreshShare > 0.5))
        {
            var shut = bare with
            {
                FreshShare = 0.05,
                IntakeSaid = true,
                CabinK = bare.AmbientK - 5,
                CabinSigmaK = 2,
                Doors = DoorsAre.Closed,
            };
            yield return At(TestKind.Recirculate, 10, shut, Channel.LowSide, Channel.HighSide, Channel.Vent);
        }
    }

    private static readonly (TestKind Kind, double Minutes, Sign First)[] ByLooking =
    [
        (TestKind.PinchHeaterHose, 5, Sign.HosePinchedColder),
        (TestKind.LookAtFan, 1, Sign.FanRuns),
        (TestKind.WatchAfterStop, 3, Sign.SidesEqualAtOnce),
        (TestKind.FeelLiquidLine, 2, Sign.NoStepAlongLiquidLine),
        (TestKind.RestTenMinutes, 12, Sign.ColdAgainAfterRest),
        (TestKind.MeasureClutchVoltage, 5, Sign.VoltageAtClutch),
        (TestKind.ReadValveDuty, 6, Sign.ValveAskedFor),
        (TestKind.FeelVentAir, 1, Sign.AirStrong),
    ];

    private static IEnumerable<TestPlan> Looked(DiagnosisEvidence evidence)
    {
        foreach (var (kind, minutes, first) in ByLooking)
        {
            var group = SignGroups.Of(first);
            if (!evidence.Signs.Any(group.Contains))
                yield return new(kind, minutes, 0, []) { Signs = group };
        }
    }

    private static IEnumerable<TestPlan> AtRest(DiagnosisEvidence evidence)
    {
        if (evidence.Standing.IsEmpty)
            yield return new(TestKind.StandingReading, 60, 0, []);
        if (evidence.Weighed is null)
            yield return new(TestKind.RecoverAndWeigh, 35, 2, []);
        yield return new(TestKind.VacuumHold, 90, 2, []);
    }

    private static OperatingPoint Last(DiagnosisEvidence evidence) =>
        evidence.Points.IsEmpty
            ? new OperatingPoint { AmbientK = evidence.Standing.IsEmpty ? 298.15 : evidence.Standing[0].TemperatureK }
            : evidence.Points[^1];
}
