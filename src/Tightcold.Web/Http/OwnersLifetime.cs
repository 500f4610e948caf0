using Microsoft.Extensions.Hosting;

namespace Tightcold.Web.Http;

/// <summary>The program that runs the site decides when it ends. The host's own lifetime would swallow the signals
/// to stop (SIGTERM, Ctrl-C) and leave a program running whose site is gone.</summary>
internal sealed class OwnersLifetime : IHostLifetime
{
    public Task WaitForStartAsync(CancellationToken cancellationToken) => Task.CompletedTask;

    public Task StopAsync(CancellationToken cancellationToken) => Task.CompletedTask;
}
