using System.Globalization;
using Tightcold.Diagnosis.Inference;
using Tightcold.Diagnosis.Measurement;
using Tightcold.Diagnosis.NextTest;
using Tightcold.Diagnosis.NextTest.Tests;

namespace Tightcold.Studies.Faults;

/// <summary>Invented cars, first read at one point with both gauges only, then followed through tests: those suggested,
/// and those of a fixed order, until an explanation reaches 90 % or the steps are used up.</summary>
/// <param name="Suggested">By the expected information for the cost.</param>
/// <param name="FixedOrder">Vent, fan, lines, raised speed, standing reading: the order in which practice reads
/// them.</param>
public sealed record FollowedTests(FollowedTests.Outcome Suggested, FollowedTests.Outcome FixedOrder)
{
    private const double Reached = 0.9;

    private static readonly TestKind[] Order =
    [
        TestKind.ReadVent,
        TestKind.FanOnCondenser,
        TestKind.ClampSuctionLine,
        TestKind.ClampLiquidLine,
        TestKind.RaiseSpeed,
        TestKind.StandingReading,
        TestKind.RecoverAndWeigh,
    ];

    /// <summary>How a policy fared.</summary>
    /// <param name="Cars">Cars that had not reached 90 % before any test.</param>
    /// <param name="ReachedShare">Share that reached 90 % within the steps.</param>
    /// <param name="RightShare">Of those, the share whose leading explanation was the true one.</param>
    /// <param name="MeanTests">Mean number of tests, one more than the steps where 90 % was not reached.</param>
    /// <param name="MeanMinutes">Mean time spent testing.</param>
    /// <param name="MeanLeading">Mean odds of the leading explanation at the end.</param>
    public sealed record Outcome(
        int Cars,
        double ReachedShare,
        double RightShare,
        double MeanTests,
        double MeanMinutes,
        double MeanLeading
    );

    public static FollowedTests Run(int from, int cars, int steps, Effort effort, CancellationToken cancellation)
    {
        var suggested = new List<(bool Reached, bool Right, int Tests, double Minutes, double Odds)>();
        var inOrder = new List<(bool Reached, bool Right, int Tests, double Minutes, double Odds)>();
        for (var number = from; number < from + cars; number++)
        {
            cancellation.ThrowIfCancellationRequested();
            var car = CarLottery.Draw(number);
            var first = car.Evidence.Points[0];
            var start = new DiagnosisEvidence(car.Evidence.Car)
            {
                Points =
                [
                    new()
                    {
                        AmbientK = first.AmbientK,
                        AmbientSigmaK = first.AmbientSigmaK,
                        RelativeHumidity = first.RelativeHumidity,
                        HumiditySigma = first.HumiditySigma,
                        BarometricPa = first.BarometricPa,
                        EngineRpm = first.EngineRpm,
                        Readings =
                        [
                            .. first.Readings.Where(reading => reading.Channel is Channel.LowSide or Channel.HighSide),
                        ],
                    },
                ],
            };
            var answer = Diagnoser.Diagnose(start, effort, (ulong)number);
            if (answer.Leading.Odds >= Reached)
                continue;
            suggested.Add(Follow(car, answer, start, steps, effort, number, best: true));
            inOrder.Add(Follow(car, answer, start, steps, effort, number, best: false));
        }

        return new(Sum(suggested), Sum(inOrder));
    }

    public string Text()
    {
        static string Line(string name, Outcome one) =>
            string.Create(
                CultureInfo.InvariantCulture,
                $"{name, -14} {one.Cars, 6} {one.ReachedShare, 10:P1} {one.RightShare, 10:P1} {one.MeanTests, 8:F2} {one.MeanMinutes, 9:F1} {one.MeanLeading, 8:P1}\n"
            );
        return $"{"", -14} {"cars", 6} {"reach 90 %", 10} {"then right", 10} {"tests", 8} {"minutes", 9} {"leading", 8}\n"
            + Line("suggested", Suggested)
            + Line("fixed order", FixedOrder);
    }

    private static (bool, bool, int, double, double) Follow(
        SimulatedCar car,
        FaultOdds answer,
        DiagnosisEvidence evidence,
        int steps,
        Effort effort,
        int number,
        bool best
    )
    {
        var chance = new Chance((ulong)number + 991);
        var minutes = 0.0;
        for (var step = 1; step <= steps; step++)
        {
            var plans = TestPlan
                .For(new(evidence))
                .Where(plan => Order.Contains(plan.Kind) || plan is { Point: not null, Channels.IsEmpty: false })
                .ToDictionary(plan => plan.Kind);
            TestKind? kind = best
                ? NextTests
                    .Of(answer, (ulong)number)
                    .Where(value => plans.ContainsKey(value.Kind))
                    .Select(value => value.Kind)
                    .FirstOrDefault()
                : Order.FirstOrDefault(plans.ContainsKey);
            if (kind is not { } chosen || Done(car, evidence, plans[chosen], chance) is not { } more)
                break;
            evidence = more;
            minutes += plans[chosen].Minutes;
            answer = Diagnoser.Diagnose(evidence, effort, (ulong)number);
            if (answer.Leading.Odds >= Reached)
                return (true, answer.Leading.Hypothesis.Key == car.Truth, step, minutes, answer.Leading.Odds);
        }

        return (false, answer.Leading.Hypothesis.Key == car.Truth, steps + 1, minutes, answer.Leading.Odds);
    }

    private static DiagnosisEvidence? Done(SimulatedCar car, DiagnosisEvidence evidence, TestPlan plan, Chance chance)
    {
        if (plan.Kind == TestKind.StandingReading)
            return evidence with { Standing = [car.Stand!(evidence.Points[0].AmbientK, chance)] };
        if (plan.Kind == TestKind.RecoverAndWeigh)
            return evidence with { Weighed = new(Math.Max(0.001, car.ChargeKg + (0.02 * chance.Normal())), 0.02) };
        if (car.Read(plan.Point!, plan.Channels, chance) is not { } read)
            return null;
        var same = plan.Kind.Reads is not null;
        return same
            ? evidence with
            {
                Points =
                [
                    .. evidence.Points.SkipLast(1),
                    evidence.Points[^1] with
                    {
                        Readings = evidence.Points[^1].Readings.AddRange(read.Readings),
                    },
                ],
            }
            : evidence with
            {
                Points = evidence.Points.Add(read),
            };
    }

    private static Outcome Sum(List<(bool Reached, bool Right, int Tests, double Minutes, double Odds)> list)
    {
        if (list.Count == 0)
            return new(0, 0, 0, 0, 0, 0);
        var reached = list.Where(one => one.Reached).ToArray();
        return new(
            list.Count,
            (double)reached.Length / list.Count,
            reached.Length == 0 ? 0 : reached.Average(one => one.Right ? 1.0 : 0),
            list.Average(one => one.Tests),
            list.Average(one => one.Minutes),
            list.Average(one => one.Odds)
        );
    }
}
