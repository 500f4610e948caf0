using System.ComponentModel;
using Tightcold.Cli.Wiring;

namespace Tightcold.Cli.Commands.Charge;

internal sealed class ChargeCanSettings : DeskSettings
{
    [CommandOption("--refrigerant <NAME>")]
    [Description("R-134a, R-1234yf, R-152a or R-12.")]
    public string? Refrigerant { get; init; }

    [CommandOption("--net <MASS>")]
    [Description("In the can now, e.g. \"300 g\".")]
    public string? Net { get; init; }

    [CommandOption("--sold <MASS>")]
    [Description("Net as sold, when the can is part used: tells its size.")]
    public string? Sold { get; init; }

    [CommandOption("--tare <MASS>")]
    [Description("Empty mass, if known.")]
    public string? Tare { get; init; }

    [CommandOption("--air <TEMPERATURE>")]
    [Description("Air around, and the can at the start.")]
    public string? Air { get; init; }

    [CommandOption("--bath <TEMPERATURE>")]
    [Description("Warm-water bath; never above 52 °C (125 °F).")]
    public string? Bath { get; init; }

    [CommandOption("--water <MASS>")]
    [Description("Water in the bath; 2 kg unless given.")]
    public string? Water { get; init; }

    [CommandOption("--low-side <PRESSURE>")]
    [Description("Running low side, above the air; left out, the system stands at rest.")]
    public string? LowSide { get; init; }

    [CommandOption("--barometer <PRESSURE>")]
    [Description("Air pressure here, absolute; sea level is assumed and said unless given.")]
    public string? Barometer { get; init; }

    [CommandOption("--system-volume <VOLUME>")]
    [Description("Of a system at rest; 2.5 L unless given.")]
    public string? SystemVolume { get; init; }

    [CommandOption("--inverted")]
    [Description("Can upside down: liquid leaves.")]
    public bool Inverted { get; init; }

    [CommandOption("--want <MASS>")]
    [Description("Stop when this has left; all unless given.")]
    public string? Want { get; init; }
}
