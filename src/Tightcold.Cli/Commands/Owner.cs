using System.Globalization;
using System.Text.Json.Nodes;
using Tightcold.Cli.Show;
using Tightcold.Cli.Wiring;
using Tightcold.Storage;
using Tightcold.Tongues;
using Tightcold.Web.Lan;

namespace Tightcold.Cli.Commands;

/// <summary>Prints a link that makes one browser of this machine the owner's: who can write the data folder
/// may.</summary>
internal sealed class Owner(Surroundings surroundings) : Command<DeskSettings>
{
    public override Task<int> ExecuteAsync(DeskSettings settings, CancellationToken cancellation)
    {
        var folder = DataPlace.Resolve(settings.Data).Folder;
        DataFolder.Make(folder);
        var (link, ends) = new OwnerBook(folder, surroundings.Clock).NewLink(null);
        if (settings.Json)
            Page.Machine(
                surroundings.Out,
                new JsonObject
                {
                    ["owner-link"] = link.ToString(),
                    ["owner-link-ends"] = ends.ToString("O", CultureInfo.InvariantCulture),
                }
            );
        else
        {
            var until = TimeZoneInfo
                .ConvertTime(ends, surroundings.Clock.LocalTimeZone)
                .ToString("HH:mm", CultureInfo.InvariantCulture);
            Page.Line(
                surroundings.Out,
                Say.It(
                    $"While the site runs, open this in a browser of this machine, once, until {until}: "
                        + $"{link.ToString()}"
                )
            );
        }
        return Task.FromResult(ExitCode.Done);
    }
}
