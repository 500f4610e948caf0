using System.Collections.Immutable;
using System.Globalization;
using System.Text.Json.Nodes;
using Tightcold.App.Diagrams;
using Tightcold.App.Units;
using Tightcold.Cli.Show;
using Tightcold.Cli.Wiring;
using Tightcold.Diagnosis.Leaks;
using Tightcold.Findings;
using Tightcold.Jobs.Kits;
using Tightcold.Picture;
using Tightcold.Picture.Leaks;
using Tightcold.Procedures.Rules;
using Tightcold.Quantities;
using Tightcold.Tongues;

namespace Tightcold.Cli.Commands;

/// <summary>Odds and rates of every spot, what to check next, how long the charge lasts, and what each way forward
/// costs.</summary>
internal sealed class Leaks(Surroundings surroundings) : DeskCommand<LeaksSettings>(surroundings)
{
    protected override async Task<int> RunAsync(LeaksSettings settings, CancellationToken cancellation)
    {
        var kit = await Desk.KitAsync(cancellation).ConfigureAwait(false);
        var prices = Prices(settings, kit);
        var record = await RecordAsync(settings.Number, cancellation).ConfigureAwait(false);
        var picture = await Desk.PictureAsync(record, cancellation).ConfigureAwait(false);
        var view = picture.Leaks;
        var assumed = WaysForward.PricesOf(kit).Assumed.Length > 0;
        var ways = WayCost.All(view.Belief, prices, view.ChargeKg, view.SufferingKg);
        if (settings.Svg is { } path)
            await Files
                .WriteAsync("--svg", path, CircuitDiagram.Draw(record, view), cancellation)
                .ConfigureAwait(false);
        return Answer(settings, () => Machine(picture, ways), () => Person(picture, ways, settings, assumed));
    }

    private static LeakPrices Prices(LeaksSettings settings, Kit kit)
    {
        double Price(string name, double? given, double assumed) =>
            given is null ? assumed
            : given is >= 0 and < 1e6 ? given.Value
            : throw new RefusedException(
                name,
                given.Value.ToString(CultureInfo.InvariantCulture),
                "a price from 0 to a million is allowed"
            );
        var usual = WaysForward.PricesOf(kit).Prices;
        var years = settings.Years ?? usual.HorizonSeconds / LeakForecast.Year;
        if (years is <= 0 or > 20)
            throw new RefusedException(
                "years",
                years.ToString(CultureInfo.InvariantCulture),
                "more than 0 and at most 20 years are allowed"
            );
        return new(
            Price("refrigerant-price", settings.RefrigerantPrice, usual.RefrigerantPerKg),
            Price("part-price", settings.PartPrice, usual.PartsPerSpot),
            Price("opening-price", settings.OpeningPrice, usual.EachOpening),
            Price("hour-worth", settings.HourWorth, usual.HourWorth),
            Price("workshop-price", settings.WorkshopPrice, usual.WorkshopJob),
            years * LeakForecast.Year
        );
    }

    private string Rate(LeakQuantiles rate) =>
        Units.Format(new(QuantityKind.LeakRate, rate.P05), new(QuantityKind.LeakRate, rate.P95));

    /// <summary>The same in the other reader's unit.</summary>
    private string Other(LeakQuantiles rate) =>
        new ReaderUnits(Units.System == UnitSystem.Us ? UnitSystem.Metric : UnitSystem.Us, Say.Tongue).Format(
            new(QuantityKind.LeakRate, rate.P05),
            new(QuantityKind.LeakRate, rate.P95)
        );

    private string Flow(LeakView view, LeakQuantiles rate)
    {
        double At(double kgPerS) => view.Belief.Evidence.Setting.Throughput(kgPerS, 293.15);
        return Units.Format(
            new(QuantityKind.GasThroughput, At(rate.P05)),
            new(QuantityKind.GasThroughput, At(rate.P95))
        );
    }

    private string Odds(double odds) => Units.Format(Measure.Ratio(Math.Clamp(odds, 0.01, 0.99)));

    private void Person(JobPicture picture, ImmutableArray<WayCost> ways, LeaksSettings settings, bool assumed)
    {
        var view = picture.Leaks;
        var belief = view.Belief;
        var table = new TextTable(
            Say.It("spot"),
            Say.It("leaks now"),
            Say.It("rate if so, 90 %"),
            Say.It($"as {UnitWords.Of(Units.System == UnitSystem.Us ? "g/yr" : "oz/yr", Say.Tongue)}"),
            Say.It("as gas at 20 °C"),
            Say.It("checks")
        );
        foreach (var spot in belief.Spots.OrderByDescending(spot => spot.Leaking))
            table.Row(
                Say.It(spot.Spot.Name),
                Odds(spot.Leaking),
                Rate(spot.RateKgPerS),
                Other(spot.RateKgPerS),
                Flow(view, spot.RateKgPerS),
                spot.Spot.Tests.Length.ToString(CultureInfo.InvariantCulture)
            );
        table.Show(Out);
        Page.Line(
            Out,
            Say.It(
                $"all spots together, before repairs: {Rate(belief.Before)} (90 %); as they are now: {Rate(belief.Now)}"
            )
        );
        Page.Line(Out, Say.It($"that another leak, large or small, remains unfound: {Odds(belief.AnotherRemains)}"));
        var basis = view.Losses.Basis.Render(Units);
        Page.Line(
            Out,
            view.Losses.LostKg is { } lost
                ? Say.It($"{basis}; lost since: {Units.Format(Measure.Kilograms(lost))}")
                : basis
        );
        foreach (var check in view.Checks)
        {
            var minutes = check.Minutes.ToString("0", Units.Culture);
            Page.Line(Out, Say.It($"check next: {Say.It(check.Spot)} by {Units.Says(check.Kind.Name)}, {minutes} min"));
        }
        var time = view.Forecast.Seconds;
        Page.Line(
            Out,
            Say.It(
                $"until it cools badly: {Months(time.P05)} to {Months(time.P95)} months (90 %), median "
                    + $"{Months(time.P50)}; next check by "
                    + $"{picture.NextCheckAt.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture)}"
            )
        );
        Page.Line(Out, "");
        var costs = new TextTable(
            Say.It("way forward"),
            Say.It("cost, median"),
            "90 %",
            Say.It("mean"),
            Say.It("refills"),
            Say.It("stays cold"),
            Say.It("escapes")
        );
        foreach (var way in ways)
            costs.Row(
                Units.Says(WaysForward.Name(way.Way)),
                Money(way.Money.P50),
                Say.It($"{Money(way.Money.P05)} to {Money(way.Money.P95)}"),
                Money(way.MeanMoney),
                Money(way.Refills.P50),
                Odds(way.StaysCold),
                Units.Format(Measure.Kilograms(way.EscapedKg.P05), Measure.Kilograms(way.EscapedKg.P95))
            );
        costs.Show(Out);
        foreach (var line in LawAndSubstance.LawOn([Act.TopUp], picture.Record))
            Page.Line(Out, $"{line.Says.Render(Units)} {Say.It(RuleBook.AlwaysSay)}");
        if (assumed && (settings.RefrigerantPrice is null || settings.WorkshopPrice is null))
            Page.Line(
                Out,
                Say.It(
                    "Prices not given are placeholders: give yours once with tightcold kit set price-refrigerant=…, "
                        + "or here with --refrigerant-price, --part-price, --opening-price, --workshop-price, "
                        + "--hour-worth."
                )
            );
    }

    private static string Months(double seconds) =>
        (seconds / (LeakForecast.Year / 12)).ToString("0", Say.Tongue.Culture);

    private static string Money(double amount) => amount.ToString("0", Say.Tongue.Culture);

    private static JsonObject Quantiles(LeakQuantiles q) =>
        new()
        {
            ["p05"] = q.P05,
            ["p25"] = q.P25,
            ["p50"] = q.P50,
            ["p75"] = q.P75,
            ["p95"] = q.P95,
        };

    private static JsonObject Machine(JobPicture picture, ImmutableArray<WayCost> ways)
    {
        var view = picture.Leaks;
        return new()
        {
            ["spots"] = new JsonArray([
                .. view.Belief.Spots.Select(spot =>
                    (JsonNode)
                        new JsonObject
                        {
                            ["spot"] = spot.Spot.Name,
                            ["leaking"] = spot.Leaking,
                            ["leaked-before-repair"] = spot.Leaked,
                            ["rate-kg-per-s"] = Quantiles(spot.RateKgPerS),
                            ["checks"] = spot.Spot.Tests.Length,
                            ["opened-once"] = spot.OpenedOnce,
                        }
                ),
            ]),
            ["total-kg-per-s"] = Quantiles(view.Belief.Before),
            ["remaining-kg-per-s"] = Quantiles(view.Belief.Now),
            ["another-remains"] = view.Belief.AnotherRemains,
            ["lost-kg"] = view.Losses.LostKg,
            ["still-cools"] = view.Belief.StillCools,
            ["verdict"] = FindingText.Kebab(view.Belief.Verdict.ToString()),
            ["next"] = new JsonArray([
                .. view.Checks.Select(check =>
                    (JsonNode)
                        new JsonObject
                        {
                            ["spot"] = check.Spot,
                            ["test"] = check.Kind.Name,
                            ["minutes"] = check.Minutes,
                            ["shows"] = check.Positive,
                        }
                ),
            ]),
            ["time-to-warm-s"] = Quantiles(view.Forecast.Seconds),
            ["next-check-at"] = picture.NextCheckAt.ToString("O", CultureInfo.InvariantCulture),
            ["ways"] = new JsonArray([
                .. ways.Select(way =>
                    (JsonNode)
                        new JsonObject
                        {
                            ["way"] = WaysForward.Name(way.Way),
                            ["money"] = Quantiles(way.Money),
                            ["mean-money"] = way.MeanMoney,
                            ["refills"] = Quantiles(way.Refills),
                            ["escaped-kg"] = Quantiles(way.EscapedKg),
                            ["stays-cold"] = way.StaysCold,
                        }
                ),
            ]),
        };
    }
}
