using System.ComponentModel;
using Tightcold.Cli.Wiring;

namespace Tightcold.Cli.Commands;

internal sealed class LeaksSettings : JobSettings
{
    [CommandOption("--refrigerant-price <NUMBER>")]
    [Description("Price of a kilogram of refrigerant, in your currency.")]
    public double? RefrigerantPrice { get; init; }

    [CommandOption("--part-price <NUMBER>")]
    [Description("Price of the part or seal for one spot.")]
    public double? PartPrice { get; init; }

    [CommandOption("--opening-price <NUMBER>")]
    [Description("Drier, oil, nitrogen: what each opening costs besides.")]
    public double? OpeningPrice { get; init; }

    [CommandOption("--hour-worth <NUMBER>")]
    [Description("What an hour of your work is worth to you; 0 unless given.")]
    public double? HourWorth { get; init; }

    [CommandOption("--workshop-price <NUMBER>")]
    [Description("A workshop's price for finding and mending.")]
    public double? WorkshopPrice { get; init; }

    [CommandOption("--years <NUMBER>")]
    [Description("How far to look; 3 unless given.")]
    public double? Years { get; init; }

    [CommandOption("--svg <FILE>")]
    [OutputFile]
    [Description("Write the circuit with its odds as a drawing.")]
    public string? Svg { get; init; }
}

internal sealed class EvacuateSettings : JobSettings
{
    [CommandOption("--svg <FILE>")]
    [OutputFile]
    [Description("Write expected against observed as a drawing.")]
    public string? Svg { get; init; }
}

internal sealed class HoldSettings : JobSettings
{
    [CommandOption("--see <RATE>")]
    [Description("Leak to be seen, for example \"10 g/yr\": how long must it be held?")]
    public string? See { get; init; }

    [CommandOption("--svg <FILE>")]
    [OutputFile]
    [Description("Write the hold with its explanations as a drawing.")]
    public string? Svg { get; init; }
}

internal sealed class GaugeLogSettings : JobSettings
{
    [CommandArgument(1, "<FILE>")]
    [InputFile]
    [Description("CSV file of the gauge; - is standard input.")]
    public string From { get; init; } = "";

    [CommandOption("--time <COLUMN>")]
    [Description("Column of times.")]
    public string Time { get; init; } = "time";

    [CommandOption("--time-unit <UNIT>")]
    [Description("When that column counts from the start: in what.")]
    [Choices("s", "min")]
    public string? TimeUnit { get; init; }

    [CommandOption("--pressure <COLUMN>")]
    [Description("Column of pressures.")]
    public string Pressure { get; init; } = "pressure";

    [CommandOption("--unit <UNIT>")]
    [Description("Unit of the pressures: micron, mbar, Pa, or \"inHg vacuum\" for a dial.")]
    public string Unit { get; init; } = "micron";

    [CommandOption("--temperature <COLUMN>")]
    [Description("Column of part temperatures, if there is one.")]
    public string? Temperature { get; init; }

    [CommandOption("--temperature-unit <UNIT>")]
    [Description("°C or °F.")]
    public string? TemperatureUnit { get; init; }

    [CommandOption("--start <TIME>")]
    [Description("When the log began; its first time of day counts from here.")]
    public string? Start { get; init; }

    [CommandOption("--hold")]
    [Description("The valve to the pump was shut: a hold, not a pump-down.")]
    public bool Hold { get; init; }

    [CommandOption("--hoses-alone")]
    [Description("Hoses and gauges were held without the car.")]
    public bool HosesAlone { get; init; }

    [CommandOption("--who <NAME>")]
    [Description("Who read it; the kit's owner unless given.")]
    public string? Who { get; init; }
}
