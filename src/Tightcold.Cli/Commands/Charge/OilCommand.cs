using System.ComponentModel;
using System.Text.Json.Nodes;
using Tightcold.Cli.Show;
using Tightcold.Cli.Wiring;
using Tightcold.Jobs.Cars;
using Tightcold.Procedures.Oil;
using Tightcold.Procedures.Parts;
using Tightcold.Quantities;
using Tightcold.Tongues;

namespace Tightcold.Cli.Commands.Charge;

internal sealed class OilSettings : DeskSettings
{
    [CommandArgument(0, "[PART]")]
    [Description("Parts changed.")]
    [Choices(
        "condenser",
        "evaporator",
        "accumulator",
        "receiver-drier",
        "liquid line",
        "discharge hose",
        "suction hose",
        "orifice tube",
        "expansion valve",
        "compressor",
        "compressor body"
    )]
    public string[]? Parts { get; init; }

    [CommandOption("--drained <VOLUME>")]
    [Description("Out of the old compressor or accumulator.")]
    public string? Drained { get; init; }

    [CommandOption("--new-part-holds <VOLUME>")]
    [Description("Oil that the new compressor came filled with.")]
    public string? NewPartHolds { get; init; }

    [CommandOption("--compressor <KIND>")]
    [Description("What drives it; any of the belt's unless given.")]
    [Choices("electric", "fixed, cycling", "fixed", "variable")]
    public string? Compressor { get; init; }

    [CommandOption("--refrigerant <NAME>")]
    [Description("R-134a unless given.")]
    public string? Refrigerant { get; init; }

    [CommandOption("--car-oil <TYPE>")]
    [Description("As on the compressor's label.")]
    public string? CarOil { get; init; }

    [CommandOption("--bottle <TYPE>")]
    [Description("What stands on the bottle you want to pour from.")]
    public string? Bottle { get; init; }

    [CommandOption("--dye <TYPE>")]
    [Description("What stands on the dye you want to add.")]
    public string? Dye { get; init; }
}

/// <summary>Oil due for the parts changed, and whether a bottle fits.</summary>
internal sealed class OilCommand(Surroundings surroundings) : DeskCommand<OilSettings>(surroundings)
{
    protected override bool NeedsData(OilSettings settings) => false;

    protected override Task<int> RunAsync(OilSettings settings, CancellationToken cancellation)
    {
        var refrigerant = settings.Refrigerant is null
            ? "R-134a"
            : Typing.Refrigerant(settings.Refrigerant).DisplayName;
        bool? electric = settings.Compressor is { } kind
            ? string.Equals(kind, Car.Electric, StringComparison.OrdinalIgnoreCase)
            : null;
        var drained = Typing.Read("drained", QuantityKind.LiquidVolume, settings.Drained, 0, 0.9e-3) ?? 0;
        var filled = Typing.Read("new-part-holds", QuantityKind.LiquidVolume, settings.NewPartHolds, 0, 0.9e-3);
        var parts = settings.Parts ?? [];
        var compressor =
            parts.Contains("compressor body", StringComparer.OrdinalIgnoreCase)
            || parts.Contains("compressor", StringComparer.OrdinalIgnoreCase);
        var dues = parts
            .Where(part => !part.StartsWith("compressor", StringComparison.OrdinalIgnoreCase))
            .Select(part => (Part: part, Due: OilDue.With(part.ToLowerInvariant())))
            .ToList();
        CompressorOil? replaced = compressor ? CompressorOil.Of(drained, filled) : null;
        var low = dues.Sum(due => due.Due.LowM3) + (replaced?.LowM3 ?? drained);
        var high = dues.Sum(due => due.Due.HighM3) + (replaced?.HighM3 ?? drained);
        var needed = OilType.Needed(electric == true, refrigerant);
        (OilFit Fit, Phrase Why)? bottle = settings.Bottle is { } typed
            ? OilType.Judge(electric, refrigerant, settings.CarOil, typed)
            : null;
        (OilFit Fit, Phrase Why)? dye = settings.Dye is { } colour
            ? OilType.JudgeDye(electric, refrigerant, settings.CarOil, colour)
            : null;
        Measure Volume(double cubicMetres) => new(QuantityKind.LiquidVolume, cubicMetres);
        return Task.FromResult(
            Answer(
                settings,
                () =>
                    new JsonObject
                    {
                        ["due-low-m3"] = low,
                        ["due-high-m3"] = high,
                        ["pour-out-m3"] = replaced?.PourOutM3,
                        ["needed"] = needed,
                        ["parts"] = new JsonArray([
                            .. dues.Select(due =>
                                (JsonNode)
                                    new JsonObject
                                    {
                                        ["part"] = due.Part,
                                        ["low-m3"] = due.Due.LowM3,
                                        ["high-m3"] = due.Due.HighM3,
                                        ["says"] = due.Due.Says,
                                    }
                            ),
                        ]),
                        ["bottle"] = bottle is { } judged
                            ? new JsonObject
                            {
                                ["fit"] = judged.Fit.ToString().ToLowerInvariant(),
                                ["why"] = Units.Says(judged.Why),
                            }
                            : null,
                        ["dye"] = dye is { } dyed
                            ? new JsonObject
                            {
                                ["fit"] = dyed.Fit.ToString().ToLowerInvariant(),
                                ["why"] = Units.Says(dyed.Why),
                            }
                            : null,
                        ["tightening"] = new JsonArray([
                            .. Tightening.All.Select(line =>
                                (JsonNode)
                                    new JsonObject
                                    {
                                        ["joint"] = line.Joint,
                                        ["low-nm"] = line.LowNm,
                                        ["high-nm"] = line.HighNm,
                                        ["how"] = line.How,
                                        ["source"] = "practice",
                                    }
                            ),
                        ]),
                    },
                () =>
                {
                    Page.Heading(
                        Out,
                        Say.It($"Oil due: {Units.Format(Volume(low), Volume(high))}; the vehicle maker's figure rules")
                    );
                    foreach (var (part, due) in dues)
                    {
                        var range = Units.Format(Volume(due.LowM3), Volume(due.HighM3));
                        Page.Line(Out, "  " + Say.It($"{Say.It(part)}: {range} ({Units.Says(due.Says)})"));
                    }
                    if (replaced is { } fresh)
                    {
                        var all = Units.Format(Volume(fresh.LowM3), Volume(fresh.HighM3));
                        Page.Line(
                            Out,
                            "  "
                                + (
                                    fresh.PourOutM3 is { } pour
                                        ? Say.It(
                                            $"new compressor: {all} in all by three published rules that disagree; "
                                                + $"pour about {Units.Format(Volume(pour))} out of it first"
                                        )
                                        : Say.It($"new compressor: {all} in all by three published rules that disagree")
                                )
                        );
                    }
                    Page.Line(Out, Say.It($"Type: {Units.Says(needed)} (common practice)"));
                    if (bottle is { } judged)
                        Page.Line(Out, Judged(judged.Fit, Units.Says(judged.Why)));
                    if (dye is { } coloured)
                        Page.Line(Out, Say.It($"Dye. {Judged(coloured.Fit, Units.Says(coloured.Why))}"));
                    Page.Line(Out, Say.It("Tightening, common practice; maker's figure rules:"));
                    foreach (var line in Tightening.All)
                        Page.Line(Out, "  " + Tight(line));
                }
            )
        );
    }

    private static string Judged(OilFit fit, string why) =>
        fit switch
        {
            OilFit.Stop => Say.It($"caution: stop: {why}."),
            OilFit.Unsure => Say.It($"Do not pour yet: {why}."),
            OilFit.AskGrade => Say.It($"Family fits, grade open: {why}."),
            _ => Say.It($"Fits: {why}."),
        };

    private static string Tight(Tightening line)
    {
        var (joint, how, culture) = (Say.It(line.Joint), Say.It(line.How), Say.Tongue.Culture);
        if (line is not { LowNm: { } from, HighNm: { } to })
            return Say.It($"{joint}: {how}");
        string Feet(double newtonMetres) => (newtonMetres / 1.3558).ToString("0.#", culture);
        return Say.It(
            $"{joint}: {from.ToString(culture)} to {to.ToString(culture)} N·m "
                + $"({Feet(from)} to {Feet(to)} lbf·ft), {how}"
        );
    }
}
