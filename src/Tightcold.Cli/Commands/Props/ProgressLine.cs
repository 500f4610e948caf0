using Tightcold.Cli.Show;
using Tightcold.Cli.Wiring;
using Tightcold.Tongues;

namespace Tightcold.Cli.Commands.Props;

/// <summary>Tells the rows done, each time another half million is.</summary>
internal sealed class ProgressLine(Surroundings surroundings) : IProgress<long>
{
    private const long Stride = 500_000;
    private long _next = Stride;

    public void Report(long value)
    {
        if (value < _next)
            return;
        _next = ((value / Stride) + 1) * Stride;
        Page.Line(surroundings.Trouble, Say.It($"{value.ToString("N0", Say.Tongue.Culture)} rows …"));
    }
}
