using Tightcold.Cli.Commands;

namespace Tightcold.Cli.Wiring;

/// <summary>Something a person can ask the program to do.</summary>
internal abstract class Command<TSettings>
    where TSettings : DeskSettings, new()
{
    /// <returns>The exit code.</returns>
    public abstract Task<int> ExecuteAsync(TSettings settings, CancellationToken cancellation);
}
