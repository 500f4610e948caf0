using System.ComponentModel;
using System.Text.Json.Nodes;
using Tightcold.Cli.Show;
using Tightcold.Cli.Wiring;
using Tightcold.Jobs.Fields;
using Tightcold.Procedures.Charging;
using Tightcold.Procedures.Rules;
using Tightcold.Quantities;
using Tightcold.Tongues;

namespace Tightcold.Cli.Commands.Charge;

internal sealed class CylinderSettings : DeskSettings
{
    [CommandOption("--refrigerant <NAME>")]
    [Description("R-134a, R-1234yf, R-152a or R-12.")]
    public string? Refrigerant { get; init; }

    [CommandOption("--water-capacity <MASS>")]
    [Description("WC as stamped.")]
    public string? WaterCapacity { get; init; }

    [CommandOption("--tare <MASS>")]
    [Description("TW as stamped.")]
    public string? Tare { get; init; }

    [CommandOption("--gross <MASS>")]
    [Description("What the scale shows now.")]
    public string? Gross { get; init; }

    [CommandOption("--hottest <TEMPERATURE>")]
    [Description("Where it may stand; 25 °C (77 °F) unless hotter.")]
    public string? Hottest { get; init; }

    [CommandOption("--place <WORDS>")]
    [Description("Country or region, for the rules: a code such as DE or US-CA; see tightcold places.")]
    public string? Place { get; init; }
}

/// <summary>How much a recovery cylinder may hold, and the room left.</summary>
internal sealed class CylinderCommand(Surroundings surroundings) : DeskCommand<CylinderSettings>(surroundings)
{
    protected override bool NeedsData(CylinderSettings settings) => settings.Place is null;

    protected override async Task<int> RunAsync(CylinderSettings settings, CancellationToken cancellation)
    {
        var fluid = Typing.Refrigerant(settings.Refrigerant);
        var capacity = Typing.Need(
            "water-capacity",
            QuantityKind.Mass,
            settings.WaterCapacity,
            0.1,
            500,
            "the stamped water capacity is needed, e.g. --water-capacity \"47.6 lb\""
        );
        var tare = Typing.Read("tare", QuantityKind.Mass, settings.Tare, 0.1, 200);
        var gross = Typing.Read("gross", QuantityKind.Mass, settings.Gross, 0.1, 700);
        if (gross < tare)
            throw new RefusedException("gross", settings.Gross!, "nothing weighs less than its own tare");
        var hottest = Typing.Read("hottest", QuantityKind.Temperature, settings.Hottest, 253.15, 338.15)
            ?? CylinderFill.ReferenceK;
        var most = CylinderFill.MostNetKg(fluid, capacity, hottest);
        var field = CylinderFill.FieldRuleKg(capacity);
        double? net = gross is { } g && tare is { } t ? g - t : null;
        var fullAt = CylinderFill.FullAtK(fluid, capacity, most);
        var place = RuleBook.Of(
            settings.Place
                ?? (await Desk.KitAsync(cancellation).ConfigureAwait(false)).Fields.Text(FieldNames.Jurisdiction)
        );
        if (settings.Place is { } typed && !place.Reading.IsKnown)
            throw new RefusedException("place", typed, $"{place.Reading.Sentence} See tightcold places.");
        return Answer(
            settings,
            () =>
                new JsonObject
                {
                    ["most-net-kg"] = most,
                    ["most-gross-kg"] = tare is { } empty ? most + empty : null,
                    ["field-rule-net-kg"] = field,
                    ["room-kg"] = net is { } held ? most - held : null,
                    ["overfilled"] = net > most,
                    ["liquid-full-at-k"] = fullAt,
                    ["rules"] = new JsonObject
                    {
                        ["place"] = place.Name,
                        ["always"] = RuleBook.AlwaysSay,
                        ["list"] = RulesCommand.List(place),
                    },
                },
            () =>
            {
                string Shown(double kilograms) => Units.Format(Measure.Kilograms(kilograms));
                Page.Heading(
                    Out,
                    tare is { } empty
                        ? Say.It(
                            $"At most {Shown(most)} of {fluid.DisplayName} net, {Shown(most + empty)} on the scale"
                        )
                        : Say.It($"At most {Shown(most)} of {fluid.DisplayName} net")
                );
                var at = Units.Format(Measure.AbsoluteTemperature(hottest));
                Page.Line(
                    Out,
                    field > most
                        ? Say.It(
                            $"80 % of its volume as liquid at {at}; the field rule without density gives "
                                + $"{Shown(field)}: too much for this refrigerant."
                        )
                        : Say.It(
                            $"80 % of its volume as liquid at {at}; the field rule without density gives "
                                + $"{Shown(field)}."
                        )
                );
                if (fullAt is { } full)
                    Page.Line(
                        Out,
                        Say.It(
                            $"Filled so, liquid would fill it to the last corner at "
                                + $"{Units.Format(Measure.AbsoluteTemperature(full))}; beyond that it bursts."
                        )
                    );
                if (net is { } held)
                    Page.Line(
                        Out,
                        held > most
                            ? Say.It(
                                $"caution: it holds {Shown(held)}, {Shown(held - most)} too much: move some to another "
                                    + $"cylinder now."
                            )
                            : Say.It($"It holds {Shown(held)}; room for {Shown(most - held)}.")
                    );
                Page.Line(Out, Say.It($"Rules of {Units.Says(place.Called)}. {Say.It(RuleBook.AlwaysSay)}"));
                foreach (var sentence in place.Unknown)
                    Page.Line(Out, $"  {Units.Says(sentence)}");
                foreach (var line in place.Of(Question.Recover).Concat(place.Of(Question.Cylinder)))
                    Page.Line(Out, $"  {Units.Says(RuleWords.Plain(line))} [{Units.Says(RuleWords.ReadOn(line))}]");
            }
        );
    }
}
