using System.ComponentModel;
using System.Globalization;
using System.Text.Json.Nodes;
using Microsoft.Extensions.Logging;
using Tightcold.Cli.Show;
using Tightcold.Cli.Wiring;
using Tightcold.Storage;
using Tightcold.Tongues;
using Tightcold.Web.Http;
using Tightcold.Web.Lan;

namespace Tightcold.Cli.Commands;

internal sealed class DeviceSettings : DeskSettings
{
    [CommandArgument(0, "<DEVICE>")]
    [Description("Its name, or the last digits of its id.")]
    public string Device { get; init; } = "";
}

/// <summary>The paired devices, newest last.</summary>
internal sealed class DeviceList(Surroundings surroundings) : Command<DeskSettings>
{
    public override Task<int> ExecuteAsync(DeskSettings settings, CancellationToken cancellation)
    {
        var devices = new DeviceBook(DataPlace.Resolve(settings.Data).Folder, surroundings.Clock).List();
        if (settings.Json)
            Page.Machine(
                surroundings.Out,
                new JsonObject
                {
                    ["devices"] = new JsonArray([
                        .. devices.Select(device =>
                            (JsonNode)
                                new JsonObject
                                {
                                    ["id"] = device.Id.ToString(),
                                    ["name"] = device.Name,
                                    ["paired-at"] = device.PairedAt.ToString("O", CultureInfo.InvariantCulture),
                                    ["last-seen"] = device.LastSeen.ToString("O", CultureInfo.InvariantCulture),
                                }
                        ),
                    ]),
                }
            );
        else if (devices.Count == 0)
            Page.Line(surroundings.Out, Say.It("No device is paired; tightcold serve --lan pairs one."));
        else
        {
            var table = new TextTable("id", Say.It("name"), Say.It("paired"), Say.It("last seen"));
            foreach (var device in devices)
                table.Row(Ids.Short(device.Id), device.Name, Time(device.PairedAt), Time(device.LastSeen));
            table.Show(surroundings.Out);
        }
        return Task.FromResult(ExitCode.Done);
    }

    private string Time(DateTimeOffset moment) =>
        TimeZoneInfo
            .ConvertTime(moment, surroundings.Clock.LocalTimeZone)
            .ToString("yyyy-MM-dd HH:mm", CultureInfo.InvariantCulture);
}

/// <summary>Lets a device in no longer; a running site notices.</summary>
internal sealed class DeviceRevoke(Surroundings surroundings) : Command<DeviceSettings>
{
    public override Task<int> ExecuteAsync(DeviceSettings settings, CancellationToken cancellation)
    {
        var folder = DataPlace.Resolve(settings.Data).Folder;
        using var log = SiteLog.Open(Path.Combine(folder, SiteLog.FolderName));
        var book = new DeviceBook(folder, surroundings.Clock, log.CreateLogger<DeviceBook>());
        var found = book.List()
            .Where(device => device.Name == settings.Device || Ids.Fits(device.Id, settings.Device))
            .ToList();
        if (found.Count != 1)
            throw new RefusedException(
                "device",
                settings.Device,
                found.Count == 0
                    ? "no paired device has that name or id; see tightcold devices list"
                    : "more than one device is called so; give its id"
            );
        book.Revoke(found[0].Id);
        if (settings.Json)
            Page.Machine(surroundings.Out, new JsonObject { ["revoked"] = found[0].Id.ToString() });
        else
            Page.Line(surroundings.Out, Say.It($"{found[0].Name} is let in no longer."));
        return Task.FromResult(ExitCode.Done);
    }
}
