using System.Buffers;
using Tightcold.Properties;
using Tightcold.Tongues;

namespace Tightcold.App.PropertyTables;

/// <summary>
/// Evaluates a table of state points as it streams by: blocks of whole lines are evaluated side by side and written
/// in their order, so memory stays small however long the table is.
/// </summary>
public sealed class PropertyTableEvaluator(Fluid fluid, PropertyLayer layer)
{
    /// <summary>The header line of every result.</summary>
    public const string OutputHeader =
        "temperature_k,pressure_pa,density_kg_per_m3,enthalpy_j_per_kg,entropy_j_per_kg_k,vapor_quality,cp_j_per_kg_k,cv_j_per_kg_k,speed_of_sound_m_per_s,viscosity_pa_s,conductivity_w_per_m_k,phase";

    // About two thousand rows of two numbers: long enough to be worth a task, short enough to keep memory small.
    private const int BlockLength = 1 << 16;

    /// <summary>Reads all of <paramref name="input"/> and writes one result row for each row of it, in the same
    /// order.</summary>
    /// <param name="input">A header line and the rows; see <see cref="PropertyHeader"/>.</param>
    /// <param name="output">Where the results go.</param>
    /// <param name="onProblem">Told of each bad row, in order; the others go on.</param>
    /// <param name="progress">Told the rows done, now and then.</param>
    /// <param name="cancellation">Stops between blocks.</param>
    /// <exception cref="PropertyTableException">No header, or one that names no supported pair.</exception>
    public async Task<PropertyTableSummary> RunAsync(
        TextReader input,
        TextWriter output,
        Action<RowProblem>? onProblem = null,
        IProgress<long>? progress = null,
        CancellationToken cancellation = default
    )
    {
        var headerLine = await input.ReadLineAsync(cancellation).ConfigureAwait(false)
            ?? throw new PropertyTableException(Say.It("The table is empty: a header line is needed."));
        var header = PropertyHeader.Parse(headerLine);
        var evaluator = new RowEvaluator(fluid, layer, header.First.Quantity, header.Second.Quantity);
        await output.WriteAsync(OutputHeader.AsMemory(), cancellation).ConfigureAwait(false);
        await output.WriteAsync("\n".AsMemory(), cancellation).ConfigureAwait(false);

        var pending = new Queue<Task<PropertyChunk>>();
        var carry = Array.Empty<char>();
        long line = 2,
            rows = 0,
            bad = 0;
        var more = true;
        try
        {
            while (more || pending.Count > 0)
            {
                while (more && pending.Count <= Environment.ProcessorCount)
                {
                    cancellation.ThrowIfCancellationRequested();
                    (var block, more, carry) = await ReadBlockAsync(input, carry, cancellation).ConfigureAwait(false);
                    pending.Enqueue(Task.Run(() => Evaluate(block, header, evaluator), cancellation));
                }

                using var chunk = await pending.Dequeue().ConfigureAwait(false);
                await output.WriteAsync(chunk.Output, cancellation).ConfigureAwait(false);
                foreach (var problem in chunk.Problems)
                    onProblem?.Invoke(problem with { Line = problem.Line + line });
                line += chunk.Lines;
                rows += chunk.Rows;
                bad += chunk.Problems.Count;
                progress?.Report(rows);
            }
        }
        finally
        {
            // After a stop the blocks under way still hold pooled memory: let them end and give it back.
            while (pending.TryDequeue(out var left))
                await left.ContinueWith(
                        static done =>
                        {
                            if (done.IsCompletedSuccessfully)
                                done.Result.Dispose();
                        },
                        CancellationToken.None,
                        TaskContinuationOptions.None,
                        TaskScheduler.Default
                    )
                    .ConfigureAwait(false);
        }

        return new PropertyTableSummary(rows, bad, header);
    }

    private static PropertyChunk Evaluate(ArraySegment<char> block, PropertyHeader header, RowEvaluator evaluator)
    {
        try
        {
            return PropertyChunk.Evaluate(block, header, evaluator);
        }
        finally
        {
            ArrayPool<char>.Shared.Return(block.Array!);
        }
    }

    /// <summary>The next whole lines, whether there is more, and the beginning of the line that was cut.</summary>
    private static async Task<(ArraySegment<char> Block, bool More, char[] Carry)> ReadBlockAsync(
        TextReader input,
        char[] carry,
        CancellationToken cancellation
    )
    {
        var buffer = ArrayPool<char>.Shared.Rent(BlockLength + carry.Length);
        carry.CopyTo(buffer, 0);
        var length = carry.Length;
        var searched = 0;
        while (true)
        {
            var read = await input.ReadBlockAsync(buffer.AsMemory(length), cancellation).ConfigureAwait(false);
            length += read;
            if (length < buffer.Length)
                return (new ArraySegment<char>(buffer, 0, length), false, []);
            var cut = buffer.AsSpan(searched, length - searched).LastIndexOf('\n');
            if (cut >= 0)
            {
                var end = searched + cut + 1;
                return (new ArraySegment<char>(buffer, 0, end), true, buffer.AsSpan(end, length - end).ToArray());
            }

            // A line longer than the buffer: take a larger one.
            searched = length;
            var larger = ArrayPool<char>.Shared.Rent(2 * buffer.Length);
            buffer.AsSpan(0, length).CopyTo(larger);
            ArrayPool<char>.Shared.Return(buffer);
            buffer = larger;
        }
    }
}
