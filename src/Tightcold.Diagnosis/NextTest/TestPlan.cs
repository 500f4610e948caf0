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
    private const double SafeToBlockPa = 17e5;

    /// <summary>The point to run at; null where the test runs no point of its own.</summary>
    public OperatingPoint? Point { get; init; }

    /// <summary>Every test that adds to what was read.</summary>
    public static IEnumerable<TestPlan> For(DiagnosisEvidence evidence)
    {
        var last = evidence.Points.IsEmpty ? new OperatingPoint { AmbientK = evidence.Standing.IsEmpty ? 298.15 : evidence.Standing[0].TemperatureK } : evidence.Points[^1];
        var bare = last with { Readings = [], Glass = GlassSeen.NotLooked, Frost = FrostSeen.NotLooked, Clutch = ClutchSeen.NotLooked, CyclesPerMinute = null, Aid = Aid.None };
        var same = bare with { Aid = last.Aid };
        bool Lacks(Channel channel) => !last.Readings.Any(reading => reading.Channel == channel);
        if (evidence.Points.IsEmpty || (Lacks(Channel.LowSide) && Lacks(Channel.HighSide)))
            yield return new(TestKind.RaiseSpeed, 10, 0, [Channel.LowSide, Channel.HighSide, Channel.Vent]) { Point = bare with { EngineRpm = 1500 } };
        if (Lacks(Channel.Vent)) yield return new(TestKind.ReadVent, 3, 0, [Channel.Vent]) { Point = same };
        if (Lacks(Channel.SuctionLine)) yield return new(TestKind.ClampSuctionLine, 4, 0, [Channel.SuctionLine]) { Point = same };
        if (Lacks(Channel.LiquidLine)) yield return new(TestKind.ClampLiquidLine, 4, 0, [Channel.LiquidLine]) { Point = same };
        if (Lacks(Channel.DischargeLine)) yield return new(TestKind.ClampDischargeLine, 4, 0, [Channel.DischargeLine]) { Point = same };
        if (last.Frost == FrostSeen.NotLooked) yield return new(TestKind.LookForFrost, 2, 0, []) { Point = same };
        if (last.Clutch == ClutchSeen.NotLooked && last.CyclesPerMinute is null) yield return new(TestKind.WatchClutch, 3, 0, []) { Point = same };
        if (evidence.Points.All(point => point.Aid != Aid.Fan))
            yield return new(TestKind.FanOnCondenser, 5, 0, [Channel.HighSide, Channel.LowSide, Channel.Vent]) { Point = bare with { Aid = Aid.Fan } };
        if (evidence.Points.All(point => point.Aid != Aid.Mist))
            yield return new(TestKind.MistOnCondenser, 5, 0, [Channel.HighSide, Channel.LowSide, Channel.Vent]) { Point = bare with { Aid = Aid.Mist } };
        if (evidence.Points.All(point => point.EngineRpm < RaisedRpm - 400))
            yield return new(TestKind.RaiseSpeed, 5, 0, [Channel.LowSide, Channel.HighSide, Channel.Vent]) { Point = bare with { EngineRpm = RaisedRpm } };
        if (evidence.Points.All(point => point.BlowerShare > LowBlower + 0.1))
            yield return new(TestKind.BlowerLow, 5, 0, [Channel.LowSide, Channel.Vent, Channel.HighSide]) { Point = bare with { BlowerShare = LowBlower } };
        if (evidence.Points.All(point => point.Aid != Aid.Blocked) && last.Readings.Any(reading => reading.Channel == Channel.HighSide && reading.Value < SafeToBlockPa))
            yield return new(TestKind.BlockCondenser, 6, 0, [Channel.HighSide, Channel.LowSide]) { Point = bare with { Aid = Aid.Blocked } };
        if (evidence.Points.All(point => point.FreshShare > 0.5))
            yield return new(TestKind.Recirculate, 10, 0, [Channel.LowSide, Channel.HighSide, Channel.Vent]) { Point = bare with { FreshShare = 0.05, CabinK = bare.AmbientK - 5, CabinSigmaK = 2 } };
        if (evidence.Standing.IsEmpty) yield return new(TestKind.StandingReading, 60, 0, []);
        yield return new(TestKind.PinchHeaterHose, 5, 0, []);
        if (evidence.Weighed is null) yield return new(TestKind.RecoverAndWeigh, 35, 2, []);
        yield return new(TestKind.VacuumHold, 90, 2, []);
    }
}
