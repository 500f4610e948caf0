using System.Text.Json.Nodes;
using Spectre.Console.Cli;
using Tightcold.Cli.Show;
using Tightcold.Cli.Wiring;
using Tightcold.Storage;
using Tightcold.Web;

namespace Tightcold.Cli.Commands;

/// <summary>Runs the site on this machine alone until Ctrl-C.</summary>
internal sealed class Serve(Surroundings surroundings) : AsyncCommand<ServeSettings>
{
    public override async Task<int> ExecuteAsync(CommandContext context, ServeSettings settings, CancellationToken cancellationToken)
    {
        if (settings.Port is < 0 or > 65535)
            throw new RefusedException("port", settings.Port.ToString(System.Globalization.CultureInfo.InvariantCulture), "0 to 65535 is allowed");
        var folder = DataFolder.Resolve(settings.Data);
        Remembered.Units(folder, settings.Units);
        var options = new SiteOptions(folder, settings.Port, surroundings.Clock) { Log = line => Page.Line(surroundings.Trouble, line) };
        var site = Site.Build(options);
        await using (site.ConfigureAwait(false))
        {
            await site.StartAsync(cancellationToken).ConfigureAwait(false);
            var address = Site.Address(site);
            if (settings.Json) Page.Machine(surroundings.Out, new JsonObject { ["address"] = address.ToString() });
            else Page.Line(surroundings.Out, $"Tightcold is at {address} on this machine; stop it with Ctrl-C.");
            try
            {
                await Task.Delay(Timeout.Infinite, cancellationToken).ConfigureAwait(false);
            }
            catch (OperationCanceledException)
            {
                await site.StopAsync(CancellationToken.None).ConfigureAwait(false);
            }
        }
        return ExitCode.Done;
    }
}
