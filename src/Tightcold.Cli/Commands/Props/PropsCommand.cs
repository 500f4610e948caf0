using System.Text.Json.Nodes;
using Tightcold.App.PropertyTables;
using Tightcold.Cli.Show;
using Tightcold.Cli.Wiring;
using Tightcold.Quantities;
using Tightcold.Tongues;

namespace Tightcold.Cli.Commands.Props;

/// <summary>Evaluates a CSV of state points. Exit code 1 where a row was bad; the other rows are done all the
/// same.</summary>
internal sealed class PropsCommand(Surroundings surroundings) : Command<PropsSettings>
{
    private const int ShownProblems = 20;
    private const int BufferLength = 1 << 16;

    public override async Task<int> ExecuteAsync(PropsSettings settings, CancellationToken cancellation)
    {
        var fluid = FluidNames.Find(settings.Fluid);
        var layer = (settings.Layer ?? "reference") switch
        {
            "reference" => PropertyLayer.Reference,
            "fast" => PropertyLayer.Fast,
            var other => throw new RefusedException("layer", other, "reference or fast is allowed"),
        };
        var from = settings.In ?? throw new RefusedException("in", "", "a file of state points is needed");
        Files.CheckInput("--in", from);
        var to = settings.To ?? throw new RefusedException("out", "", "a file for the results is needed");
        if (Path.GetFullPath(from) == Path.GetFullPath(to))
            throw new RefusedException("out", to, "another file than the input is needed");

        // What was not finished does not become the result.
        using var unfinished = Files.Begin(to);
        PropertyTableSummary summary;
        var problems = new JsonArray();
        try
        {
            using var input = new StreamReader(
                from,
                new System.Text.UTF8Encoding(false, throwOnInvalidBytes: true),
                detectEncodingFromByteOrderMarks: true,
                new FileStreamOptions
                {
                    BufferSize = BufferLength,
                    Options = FileOptions.SequentialScan | FileOptions.Asynchronous,
                }
            );
            var output = new StreamWriter(
                unfinished.Beside,
                new System.Text.UTF8Encoding(false),
                new FileStreamOptions
                {
                    Mode = FileMode.Create,
                    Access = FileAccess.Write,
                    BufferSize = BufferLength,
                }
            );
            await using (output.ConfigureAwait(false))
            {
                summary = await new PropertyTableEvaluator(fluid, layer)
                    .RunAsync(
                        input,
                        output,
                        Problem,
                        settings.Json ? null : new ProgressLine(surroundings),
                        cancellation
                    )
                    .ConfigureAwait(false);
            }
        }
        catch (System.Text.DecoderFallbackException)
        {
            throw new RefusedException("--in", from, "it is not written in UTF-8; save the file as UTF-8 first");
        }
        catch (PropertyTableException refused)
        {
            throw new RefusedException("in", from, Phrase.Verbatim(refused.Message));
        }

        unfinished.Finish();
        var code = summary.BadRows > 0 ? ExitCode.Refused : ExitCode.Done;
        var inputs = $"{summary.Header.First.Name}, {summary.Header.Second.Name}";
        if (settings.Json)
        {
            Page.Machine(
                surroundings.Out,
                new JsonObject
                {
                    ["fluid"] = fluid.Name,
                    ["layer"] = layer == PropertyLayer.Fast ? "fast" : "reference",
                    ["inputs"] = inputs,
                    ["rows"] = summary.Rows,
                    ["bad-rows"] = summary.BadRows,
                    ["problems"] = problems,
                    ["out"] = to,
                }
            );
            return code;
        }

        var count = summary.Rows.ToString("N0", Say.Tongue.Culture);
        Page.Line(
            surroundings.Out,
            Say.It(
                $"{count} rows from {inputs} for {fluid.DisplayName} written to {to}; {summary.BadRows} could not be "
                    + $"evaluated."
            )
        );
        if (summary.Header.Ignored.Count > 0)
            Page.Line(surroundings.Out, Say.It($"Columns not used: {string.Join(", ", summary.Header.Ignored)}."));
        return code;

        void Problem(RowProblem problem)
        {
            if (problems.Count < ShownProblems)
            {
                problems.Add(new JsonObject { ["line"] = problem.Line, ["reason"] = problem.Reason });
                if (!settings.Json)
                    Page.Line(surroundings.Trouble, Say.It($"line {problem.Line}: {problem.Reason}"));
            }
            else if (problems.Count == ShownProblems)
            {
                problems.Add(
                    new JsonObject
                    {
                        ["line"] = problem.Line,
                        ["reason"] = "and more; every bad row has the phase error in the result",
                    }
                );
                if (!settings.Json)
                    Page.Line(
                        surroundings.Trouble,
                        Say.It("… and more; every bad row has the phase \"error\" in the result")
                    );
            }
        }
    }
}
