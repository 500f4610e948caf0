using System.Collections.Immutable;
using System.Diagnostics;
using System.Globalization;
using Tightcold.Diagnosis.Inference;
using Tightcold.Diagnosis.Measurement;
using Tightcold.Diagnosis.NextTest;
using Tightcold.Studies.Faults;

namespace Tightcold.Bench.Diagnosing;

/// <summary>
/// How long an answer takes on one core, over invented cars with both gauges and some thermometers: once at a single
/// operating point, once at five that the same car showed.
/// </summary>
internal static class DiagnosisSpread
{
    private const int Cars = 20;
    private const int From = 700;

    private static readonly ImmutableArray<(double Rpm, Aid Aid)> Five =
    [
        (850, Aid.None),
        (1500, Aid.None),
        (2000, Aid.None),
        (1500, Aid.Fan),
        (1200, Aid.None),
    ];

    public static void Write(TextWriter to)
    {
        var cars = Enumerable.Range(From, Cars).Select(CarLottery.Draw).ToArray();
        // Twice first, so that nothing is compiled while the clock runs.
        for (var i = 0; i < 2; i++)
            _ = NextTests.Of(Diagnoser.Diagnose(At(cars[0], Five), Effort.Full, 1), 1);
        foreach (var points in new[] { Five[1..2], Five })
        {
            var evidence = cars.Select(car => At(car, points)).ToArray();
            _ = Row(
                to,
                $"{points.Length} point(s), first picture",
                evidence,
                one => Diagnoser.Diagnose(one, Effort.Quick, 1),
                answer => answer.Solves,
                "solves"
            );
            var answers = Row(
                to,
                $"{points.Length} point(s), answer",
                evidence,
                one => Diagnoser.Diagnose(one, Effort.Full, 1),
                answer => answer.Solves,
                "solves"
            );
            _ = Row(
                to,
                $"{points.Length} point(s), next tests on top",
                answers,
                one => NextTests.Of(one, 1),
                tests => tests.Length,
                "tests"
            );
        }
    }

    private static DiagnosisEvidence At(SimulatedCar car, ImmutableArray<(double Rpm, Aid Aid)> points)
    {
        var first = car.Evidence.Points[0];
        var channels = first.Readings.Select(reading => reading.Channel).Distinct().ToImmutableArray();
        var chance = new Chance(9);
        var read = points
            .Select(point =>
                car.Read(first with { EngineRpm = point.Rpm, Aid = point.Aid, Readings = [] }, channels, chance)
            )
            .OfType<OperatingPoint>();
        return car.Evidence with { Points = [.. read] };
    }

    private static TAnswer[] Row<T, TAnswer>(
        TextWriter to,
        string what,
        T[] questions,
        Func<T, TAnswer> work,
        Func<TAnswer, int> count,
        string counted
    )
    {
        var times = new double[questions.Length];
        var answers = new TAnswer[questions.Length];
        for (var i = 0; i < questions.Length; i++)
        {
            var start = Stopwatch.GetTimestamp();
            answers[i] = work(questions[i]);
            times[i] = Stopwatch.GetElapsedTime(start).TotalMilliseconds;
        }

        Array.Sort(times);
        to.WriteLine(
            string.Create(
                CultureInfo.InvariantCulture,
                $"{what, -36} {Cars} cars: median {times[Cars / 2], 5:F0} ms, 9 in 10 within {times[Cars * 9 / 10], 5:F0}, worst {times[^1], 5:F0}; {answers.Average(count):F0} {counted}"
            )
        );
        return answers;
    }
}
