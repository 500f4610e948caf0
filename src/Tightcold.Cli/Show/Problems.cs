using System.Text.Json.Nodes;
using Tightcold.App.Units;
using Tightcold.Cli.Wiring;
using Tightcold.Jobs.Fields;
using Tightcold.Tongues;

namespace Tightcold.Cli.Show;

/// <summary>Refusals: one sentence each.</summary>
internal static class Problems
{
    public static int Show(
        IReadOnlyCollection<InputProblem> problems,
        bool machine,
        Surroundings surroundings,
        ReaderUnits? reader = null
    )
    {
        var units = reader ?? new ReaderUnits(UnitSystem.Metric, Say.Tongue);
        if (machine)
        {
            Page.Machine(
                surroundings.Out,
                new JsonObject
                {
                    ["refused"] = new JsonArray([
                        .. problems.Select(problem =>
                            (JsonNode)
                                new JsonObject
                                {
                                    ["field"] = problem.Field,
                                    ["value"] = problem.Value,
                                    ["allowed"] = problem.Allowed.Render(units),
                                    ["sentence"] = problem.Sentence.Render(units),
                                }
                        ),
                    ]),
                }
            );
        }
        else
        {
            foreach (var problem in problems)
                Page.Line(surroundings.Trouble, problem.Sentence.Render(units));
        }
        return ExitCode.Refused;
    }
}
