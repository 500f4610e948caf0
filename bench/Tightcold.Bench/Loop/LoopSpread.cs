using System.Diagnostics;
using System.Globalization;
using Tightcold.Studies.Loops;

namespace Tightcold.Bench.Loop;

/// <summary>
/// How long solves take and how many look-ups they make, as a distribution over random questions of the whole range.
/// Each question is asked seven times and its shortest time counts, so that other work on the machine does not.
/// </summary>
internal static class LoopSpread
{
    private const int Questions = 20_000;
    private const int Repeats = 7;

    public static void Write(TextWriter to)
    {
        var trials = new TrialQuestions(3);
        for (var i = 0; i < 3000; i++)
            Ask(trials.Next(), out _);
        var times = new double[Questions];
        var calls = new int[Questions];
        for (var i = 0; i < Questions; i++)
        {
            var question = trials.Next();
            times[i] = double.PositiveInfinity;
            for (var repeat = 0; repeat < Repeats; repeat++)
                times[i] = Math.Min(times[i], Ask(question, out calls[i]));
        }

        Array.Sort(times);
        Array.Sort(calls);
        to.WriteLine(
            string.Create(
                CultureInfo.InvariantCulture,
                $"{Questions} random questions, shortest of {Repeats}: median {At(times, 0.5):F1} µs, 90 % within {At(times, 0.9):F1}, 95 % within {At(times, 0.95):F1}, 99 % within {At(times, 0.99):F1}; within 300 µs: {100.0 * times.Count(t => t <= 300) / Questions:F2} %"
            )
        );
        to.WriteLine(
            string.Create(
                CultureInfo.InvariantCulture,
                $"property look-ups a solve: median {At(calls, 0.5)}, 95 % within {At(calls, 0.95)}"
            )
        );
    }

    private static double Ask(TrialQuestion question, out int calls)
    {
        var start = Stopwatch.GetTimestamp();
        var result = question.Model.Solve(question.Conditions, question.ChargeKg, question.Faults);
        calls = result.Solver.PropertyCalls;
        return Stopwatch.GetElapsedTime(start).TotalMicroseconds;
    }

    private static T At<T>(T[] sorted, double share) => sorted[(int)(share * (sorted.Length - 1))];
}
