using System.ComponentModel;
using Tightcold.Cli.Wiring;
using Tightcold.Web;

namespace Tightcold.Cli.Commands;

internal sealed class ServeSettings : DeskSettings
{
    [CommandOption("--port <PORT>")]
    [Description("Port on this machine; 5217 unless given, 0 for any free one.")]
    public int Port { get; init; } = SiteOptions.UsualPort;

    [CommandOption("--phone <FOLDER>")]
    [Description(
        "The program for phones, as ./package phone makes it, handed out at /phone/; else TIGHTCOLD_PHONE, else the folder phone beside the program, where there is one."
    )]
    public string? Phone { get; init; }

    [CommandOption("--lan")]
    [Description("Let paired phones of the same network in; prints a QR code that pairs one.")]
    public bool Lan { get; init; }

    [CommandOption("--address <ADDRESS>")]
    [Description(
        "With --lan: which of this machine's private addresses to answer at; all of them unless given. May be repeated."
    )]
    public string[] Addresses { get; init; } = [];

    [CommandOption("--name <HOST>")]
    [Description("With --lan: a name of this machine that phones may use, as the certificate has it.")]
    public string? Name { get; init; }

    [CommandOption("--certificate <FILE>")]
    [Description("With --lan: encrypt with this certificate; PEM, or PFX without a password.")]
    public string? Certificate { get; init; }

    [CommandOption("--certificate-key <FILE>")]
    [Description("The private key of a PEM certificate, unless it stands in the same file.")]
    public string? CertificateKey { get; init; }
}
