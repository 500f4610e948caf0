using System.Globalization;
using System.Text.Json.Nodes;
using Microsoft.AspNetCore.Builder;
using Spectre.Console;
using Tightcold.Cli.Wiring;
using Tightcold.Pages.Parts;
using Tightcold.Storage;
using Tightcold.Tongues;
using Tightcold.Web;
using Tightcold.Web.Http;
using Tightcold.Web.Lan;
using Page = Tightcold.Cli.Show.Page;

namespace Tightcold.Cli.Commands;

/// <summary>Runs the site until Ctrl-C: on this machine alone, or for paired devices of the network too.</summary>
internal sealed class Serve(Surroundings surroundings) : Command<ServeSettings>
{
    private static readonly TimeSpan Patience = TimeSpan.FromMilliseconds(300);

    public override async Task<int> ExecuteAsync(ServeSettings settings, CancellationToken cancellation)
    {
        if (settings.Port is < 0 or > 65535)
            throw new RefusedException(
                "port",
                settings.Port.ToString(CultureInfo.InvariantCulture),
                "0 to 65535 is allowed"
            );
        var lan = ServeLan.Of(settings, surroundings.Clock.GetUtcNow());
        var place = DataPlace.Resolve(settings.Data);
        Remembered.Keep(place.Folder, settings.Units, settings.Language);
        var options = new SiteOptions(place.Folder, settings.Port, surroundings.Clock)
        {
            Connection = place.Connection,
            Lan = lan,
            Log = line => Page.Line(surroundings.Trouble, line),
            PhoneFolder = Phone(settings.Phone),
            LogFolder = Path.Combine(place.Folder, SiteLog.FolderName),
        };
        var site = Site.Build(options);
        await using (site.ConfigureAwait(false))
        {
            await site.StartAsync(cancellation).ConfigureAwait(false);
            if (settings.Json)
                Page.Machine(surroundings.Out, Machine(site, lan));
            else
                Person(site, lan);
            try
            {
                await Task.Delay(Timeout.Infinite, cancellation).ConfigureAwait(false);
            }
            catch (OperationCanceledException)
            {
                // Open pages are not waited for: what they sent is on disk or was not acknowledged.
                using var patience = new CancellationTokenSource(Patience);
                await site.StopAsync(patience.Token).ConfigureAwait(false);
            }
        }
        return ExitCode.Done;
    }

    /// <summary>What was asked for must be there; else what lies beside the program, if anything does.</summary>
    private static string? Phone(string? asked)
    {
        var folder = asked
            ?? Environment.GetEnvironmentVariable(SiteOptions.PhoneVariable)
            ?? Path.Combine(AppContext.BaseDirectory, "phone");
        return SiteOptions.HoldsPhone(folder) ? folder
            : asked is null ? null
            : throw new RefusedException("phone", asked, "a folder that ./package phone made is needed");
    }

    private static JsonObject Machine(WebApplication site, LanOptions? lan)
    {
        var (owner, serves) = Site.NewOwnerLink(site);
        var answer = new JsonObject
        {
            ["address"] = Site.Address(site).ToString(),
            ["owner-link"] = owner.ToString(),
            ["owner-link-ends"] = serves.ToString("O", CultureInfo.InvariantCulture),
        };
        if (lan is null)
            return answer;
        var (code, link, ends) = Site.NewPairing(site);
        if (Site.Phone(site) is { } phone)
            answer["phone"] = phone;
        answer["network"] = new JsonArray([
            .. Site.NetworkAddresses(site).Select(address => (JsonNode)address.ToString()),
        ]);
        answer["pairing-code"] = code;
        answer["pairing-link"] = link.ToString();
        answer["pairing-ends"] = ends.ToString("O", CultureInfo.InvariantCulture);
        return answer;
    }

    private string Clock(DateTimeOffset moment) =>
        TimeZoneInfo
            .ConvertTime(moment, surroundings.Clock.LocalTimeZone)
            .ToString("HH:mm", CultureInfo.InvariantCulture);

    private void Person(WebApplication site, LanOptions? lan)
    {
        Page.Line(
            surroundings.Out,
            lan is null
                ? Say.It($"Tightcold is at {Site.Address(site).ToString()} on this machine; stop it with Ctrl-C.")
                : Say.It(
                    $"Tightcold is at {Site.Address(site).ToString()} on this machine, and for paired devices of this "
                        + $"network at {string.Join(Say.It(" and "), Site.NetworkAddresses(site))}; stop it with "
                        + $"Ctrl-C."
                )
        );
        var (owner, serves) = Site.NewOwnerLink(site);
        var devices = new Uri(Site.Address(site), "/devices").ToString();
        // What is not read by a person now is a log, and no key or code belongs there.
        if (!surroundings.Out.Profile.Out.IsTerminal)
        {
            Page.Line(
                surroundings.Out,
                lan is null
                    ? Say.It("tightcold owner prints a link that lets a browser of this machine in.")
                    : Say.It(
                        $"tightcold owner prints a link that lets a browser of this machine in; {devices} there pairs "
                            + $"phones."
                    )
            );
            return;
        }
        Page.Line(
            surroundings.Out,
            Say.It($"A browser that is new here opens this, once, until {Clock(serves)}: {owner.ToString()}")
        );
        if (lan is null)
            return;
        var (code, link, ends) = Site.NewPairing(site);
        var picture = QrPicture.Of(link.ToString()).Lines().ToList();
        // Black on white whatever the terminal's colours are: not every phone reads a negative.
        if (picture.Max(line => line.Length) <= surroundings.Out.Profile.Width)
        {
            Page.Line(surroundings.Out, Say.It("To pair a phone, scan this:"));
            foreach (var line in picture)
                surroundings.Out.Write(new Text(line + "\n", new Style(Color.White, Color.Black)));
        }
        else
            Page.Line(
                surroundings.Out,
                Say.It($"To pair a phone, open {link.ToString()} there; this window is too narrow for a QR code.")
            );
        Page.Line(
            surroundings.Out,
            Say.It(
                $"Or open {link.GetLeftPart(UriPartial.Path)} there and type {code}. The code lets one device in, "
                    + $"until {Clock(ends)}."
            )
        );
        if (Site.Phone(site) is { } phone)
            Page.Line(surroundings.Out, Say.It($"The whole tool in a phone, without this machine: {phone}"));
        Page.Line(surroundings.Out, Say.It($"Another code, and the list of paired devices: {devices}"));
        if (lan.Certificate is null)
            Page.Line(
                surroundings.Out,
                Say.It("Without --certificate others in the same network can read along what phones send.")
            );
    }
}
