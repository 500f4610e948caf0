using System.ComponentModel;
using System.Text.Json.Nodes;
using Tightcold.Cli.Commands.Charge;
using Tightcold.Cli.Show;
using Tightcold.Cli.Wiring;
using Tightcold.Jobs.Fields;
using Tightcold.Procedures.Places;
using Tightcold.Procedures.Rules;
using Tightcold.Quantities;
using Tightcold.Tongues;

namespace Tightcold.Cli.Commands;

internal sealed class RulesSettings : DeskSettings
{
    [CommandArgument(0, "[PLACE]")]
    [Description("A code of ISO 3166 such as DE or AU-NSW, or a whole name; the kit's place unless given.")]
    public string? Of { get; init; }

    [CommandOption("--refrigerant <NAME>")]
    [Description("Only lines about it: R-134a, R-1234yf, R-152a, R-744 or R-12.")]
    public string? Refrigerant { get; init; }

    [CommandOption("--works <FOR>")]
    [Description("Only lines that bind this one.")]
    [Choices("owner", "for-pay")]
    public string? Works { get; init; }
}

/// <summary>The book of rules of a place, question by question, with where each line stands and how sure it
/// is.</summary>
internal sealed class RulesCommand(Surroundings surroundings) : DeskCommand<RulesSettings>(surroundings)
{
    [Said]
    private static readonly (Question Question, string Asks)[] Questions =
    [
        (Question.Buy, "Who may buy"),
        (Question.Own, "Who may keep a stock"),
        (Question.Charge, "Who may charge, with what"),
        (Question.Recover, "Who may recover"),
        (Question.Vent, "Letting it out"),
        (Question.TopUp, "Topping up a leaking circuit"),
        (Question.Cans, "Disposable cans, self-sealing valves"),
        (Question.LeakCheck, "Leak check after a mend"),
        (Question.Records, "Records"),
        (Question.Cylinder, "Cylinders"),
        (Question.Equipment, "Equipment"),
        (Question.Warming, "Warming potential the law counts with"),
    ];

    protected override async Task<int> RunAsync(RulesSettings settings, CancellationToken cancellation)
    {
        var kit = await Desk.KitAsync(cancellation).ConfigureAwait(false);
        var typed = settings.Of ?? kit.Fields.Text(FieldNames.Jurisdiction);
        var place = RuleBook.Of(typed);
        // What was typed for this command must be a place; what an old kit says may be unknown, and is answered with
        // that.
        if (settings.Of is not null && !place.Reading.IsKnown)
            throw new RefusedException("place", settings.Of, $"{place.Reading.Sentence} See tightcold places.");
        var refrigerant = settings.Refrigerant is null ? null : Typing.Refrigerant(settings.Refrigerant).DisplayName;
        var who = settings.Works switch
        {
            null => Who.NotSaid,
            "owner" => Who.Owner,
            "for-pay" => Who.ForPay,
            var other => throw new RefusedException("works", other, "owner or for-pay"),
        };
        return Answer(
            settings,
            () =>
                new JsonObject
                {
                    ["place"] = place.Reading.Place?.Code,
                    ["name"] = place.Name,
                    ["always"] = RuleBook.AlwaysSay,
                    ["unknown"] = new JsonArray([.. place.Unknown.Select(sentence => (JsonNode)Units.Says(sentence))]),
                    ["list"] = List(place, who, refrigerant),
                },
            () =>
            {
                Page.Heading(Out, Say.It($"Rules of {Units.Says(place.Called)}"));
                Page.Line(Out, Say.It($"{Say.It(RuleBook.AlwaysSay)} Ask: {Say.It(place.Books[0].Authority)}."));
                foreach (var sentence in place.Unknown)
                    Page.Line(Out, Units.Says(sentence));
                foreach (var (question, asks) in Questions)
                {
                    var lines = place
                        .Of(question)
                        .Where(line => line.Meets(who) && line.IsAbout(refrigerant))
                        .ToArray();
                    if (lines.Length == 0)
                        continue;
                    Page.Heading(Out, Say.It(asks));
                    foreach (var line in lines)
                    {
                        Page.Line(Out, $"  {RuleWords.About(line)}{Units.Says(RuleWords.Plain(line))}.");
                        Page.Line(Out, "    " + Say.It($"read on: {Units.Says(RuleWords.ReadOn(line))}"));
                    }
                }
            }
        );
    }

    /// <summary>The lines as a machine reads them.</summary>
    internal static JsonArray List(PlaceRules place, Who who = Who.NotSaid, string? refrigerant = null) =>
        [
            .. place
                .Lines.Where(line => line.Meets(who) && line.IsAbout(refrigerant))
                .Select(line =>
                    (JsonNode)
                        new JsonObject
                        {
                            ["question"] = FindingText.Kebab(line.Question.ToString()),
                            ["binds"] = FindingText.Kebab(
                                line.Binds == Who.NotSaid ? "Everybody" : line.Binds.ToString()
                            ),
                            ["ruling"] = FindingText.Kebab(line.Ruling.ToString()),
                            ["says"] = line.Says,
                            ["instrument"] = line.Instrument,
                            ["article"] = line.Article,
                            ["in-force"] = line.InForce,
                            ["read"] = line.Read,
                            ["sure"] = FindingText.Kebab(line.Sure.ToString()),
                            ["ask"] = line.Ask,
                            ["years"] = line.Years,
                            ["limit"] = line.Limit,
                            ["refrigerants"] = new JsonArray([.. line.Refrigerants.Select(name => (JsonNode)name)]),
                            ["warming"] = new JsonArray([
                                .. line.Warming.Select(figure =>
                                    (JsonNode)
                                        new JsonObject { ["refrigerant"] = figure.Key, ["potential"] = figure.Value }
                                ),
                            ]),
                            ["report"] = line.Report.Length == 0 ? null : line.Report,
                        }
                ),
        ];
}

internal sealed class PlacesSettings : DeskSettings
{
    [CommandArgument(0, "<WORDS>")]
    [Description("Beginning of each word of a name, in English or the place's own language.")]
    public string[] Words { get; init; } = [];
}

/// <summary>Codes of places by words of their names: to choose from.</summary>
internal sealed class PlacesCommand(Surroundings surroundings) : DeskCommand<PlacesSettings>(surroundings)
{
    private const int Most = 30;

    protected override bool NeedsData(PlacesSettings settings) => false;

    protected override Task<int> RunAsync(PlacesSettings settings, CancellationToken cancellation)
    {
        var words = string.Join(' ', settings.Words);
        var found = Gazetteer.Search(words);
        if (found.IsEmpty)
            throw new RefusedException("words", words, "no country or region has words that begin so");
        return Task.FromResult(
            Answer(
                settings,
                () =>
                    new JsonObject
                    {
                        ["places"] = new JsonArray([
                            .. found.Select(place =>
                                (JsonNode)
                                    new JsonObject
                                    {
                                        ["code"] = place.Code,
                                        ["name"] = place.Name,
                                        ["label"] = place.Label,
                                        ["country"] = place.Country?.Code,
                                    }
                            ),
                        ]),
                    },
                () =>
                {
                    foreach (var place in found.Take(Most))
                    {
                        var own = place.OwnNames.IsEmpty ? "" : $", {string.Join(", ", place.OwnNames.Take(3))}";
                        var within = place.Country is { } country ? ", " + country.Name : "";
                        Page.Line(Out, $"{place.Code, -7} {place.Name}{within}{own}");
                    }
                    if (found.Length > Most)
                        Page.Line(Out, Say.It($"and {found.Length - Most} more: type more of the name."));
                    Page.Line(Out, Say.It($"Keep one with: tightcold kit set \"jurisdiction={found[0].Label}\""));
                }
            )
        );
    }
}
