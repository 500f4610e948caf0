using System.Diagnostics;
using System.Globalization;
using System.Text;

namespace Tightcold.Studies.Loops;

/// <summary>Random questions to the loop model over its whole range, counted.</summary>
internal static class LoopSoak
{
    public static string Run(int count, int seed)
    {
        var questions = new TrialQuestions(seed);
        var tally = new TrialTally();
        var clock = Stopwatch.StartNew();
        for (var i = 0; i < count; i++)
            tally.Ask(questions.Next());
        var seconds = clock.Elapsed.TotalSeconds;
        var said = new StringBuilder();
        void Line(FormattableString text) => said.Append(text.ToString(CultureInfo.InvariantCulture)).Append('\n');
        Line(
            $"{tally.Questions} random questions, seed {seed}, in {seconds:F1} s ({1e6 * seconds / tally.Questions:F1} µs each with drawing and counting)"
        );
        foreach (var (state, times) in tally.States)
            Line($"  {state, -20}{times, 12}  {100.0 * times / tally.Questions:F4} %");
        Line($"broken (no number, not balanced, no reason): {tally.Broken}");
        Line($"worst closure of flow, energy or charge: {tally.WorstClosure:E2} (allowed {TrialTally.Closure:E0})");
        Line(
            $"solver rungs: first Newton {tally.Rungs[0]}, second {tally.Rungs[1]}, other starts or walk {tally.Rungs[2]}, bracket {tally.Rungs[3]}, nested brackets {tally.Rungs[4]}"
        );
        Line(
            $"walks round the circuit: median {tally.MarchesWithin(0.5)}, 95 % within {tally.MarchesWithin(0.95)}, 99 % within {tally.MarchesWithin(0.99)}"
        );
        return said.ToString();
    }
}
