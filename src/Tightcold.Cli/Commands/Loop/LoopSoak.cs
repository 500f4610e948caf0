using System.Globalization;
using System.Text.Json.Nodes;
using Tightcold.Cli.Show;
using Tightcold.Cli.Wiring;
using Tightcold.Loop.Trials;

namespace Tightcold.Cli.Commands.Loop;

/// <summary>Random questions to the model, counted.</summary>
internal static class LoopSoak
{
    public static int Run(int count, int seed, bool json, Surroundings surroundings, CancellationToken cancellation)
    {
        if (count is < 1 or > 100_000_000)
            throw new RefusedException(
                "soak",
                count.ToString(CultureInfo.InvariantCulture),
                "1 to 100000000 questions are allowed"
            );
        var questions = new TrialQuestions(seed);
        var tally = new TrialTally();
        var start = surroundings.Clock.GetTimestamp();
        for (var i = 0; i < count; i++)
        {
            if ((i & 1023) == 0)
                cancellation.ThrowIfCancellationRequested();
            tally.Ask(questions.Next());
        }

        var seconds = surroundings.Clock.GetElapsedTime(start).TotalSeconds;
        if (json)
            Page.Machine(surroundings.Out, Machine(tally, seed, seconds));
        else
            Print(tally, seed, seconds, surroundings);
        return tally.Broken == 0 ? ExitCode.Done : ExitCode.Trouble;
    }

    private static void Print(TrialTally tally, int seed, double seconds, Surroundings surroundings)
    {
        void Line(FormattableString text) => Page.Line(surroundings.Out, text.ToString(CultureInfo.InvariantCulture));
        Line(
            $"{tally.Questions} random questions, seed {seed}, in {seconds:F1} s ({1e6 * seconds / tally.Questions:F1} µs each with drawing and counting)"
        );
        foreach (var (state, count) in tally.States)
            Line($"  {state, -20}{count, 12}  {100.0 * count / tally.Questions:F4} %");
        Line($"broken (no number, not balanced, no reason): {tally.Broken}");
        Line($"worst closure of flow, energy or charge: {tally.WorstClosure:E2} (allowed {TrialTally.Closure:E0})");
        Line(
            $"solver rungs: first Newton {tally.Rungs[0]}, second {tally.Rungs[1]}, other starts or walk {tally.Rungs[2]}, bracket {tally.Rungs[3]}, nested brackets {tally.Rungs[4]}"
        );
        Line(
            $"walks round the circuit: median {tally.MarchesWithin(0.5)}, 95 % within {tally.MarchesWithin(0.95)}, 99 % within {tally.MarchesWithin(0.99)}"
        );
    }

    private static JsonObject Machine(TrialTally tally, int seed, double seconds) =>
        new()
        {
            ["questions"] = tally.Questions,
            ["seed"] = seed,
            ["seconds"] = seconds,
            ["states"] = new JsonObject(
                tally.States.Select(pair => new KeyValuePair<string, JsonNode?>(
                    FindingText.Kebab(pair.State.ToString()),
                    pair.Count
                ))
            ),
            ["broken"] = tally.Broken,
            ["worst-closure"] = tally.WorstClosure,
            ["rungs"] = new JsonArray([.. tally.Rungs.Select(count => (JsonNode)count)]),
            ["walks-median"] = tally.MarchesWithin(0.5),
            ["walks-95"] = tally.MarchesWithin(0.95),
        };
}
