using System.Globalization;
using System.Text.Json.Nodes;
using Tightcold.Cli.Show;
using Tightcold.Cli.Wiring;
using Tightcold.Diagnosis.Leaks;
using Tightcold.Procedures.Hold;

namespace Tightcold.Cli.Commands;

/// <summary>Invented searches with a known truth: are the odds what they say?</summary>
internal sealed class StudyLeaks(Surroundings surroundings) : DeskCommand<StudySettings>(surroundings)
{
    protected override Task<int> RunAsync(StudySettings settings, CancellationToken cancellation)
    {
        if (settings.Count is < 1 or > 100_000) throw new RefusedException("count", settings.Count.ToString(CultureInfo.InvariantCulture), "1 to 100000 are allowed");
        var study = SearchStudy.Run(settings.Count, (ulong)settings.Seed);
        return Task.FromResult(Answer(settings, () => new JsonObject
        {
            ["systems"] = study.Systems, ["spot-calibration-error"] = study.SpotError, ["rate-coverage-90"] = study.RateCoverage, ["said-remains"] = study.SaidRemains, ["was-remaining"] = study.WasRemains,
            ["remains-after-first-found"] = study.RemainsAfterFirstFound, ["advised"] = Machine(study.Advised), ["fixed-order"] = Machine(study.FixedOrder), ["practice"] = Machine(study.Practice), ["bins"] = Bins(study.SpotBins),
        }, () =>
        {
            Page.Line(Out, string.Create(CultureInfo.InvariantCulture, $"{study.Systems} invented cars, 0 to 3 leaks each (seed {settings.Seed}); simulated, not measured"));
            StudyPrint.Bins(Out, study.SpotBins);
            Page.Line(Out, string.Create(CultureInfo.InvariantCulture, $"odds of a spot, mean error of calibration: {study.SpotError:0.0000}"));
            Page.Line(Out, string.Create(CultureInfo.InvariantCulture, $"true rate inside its 90 % interval: {study.RateCoverage:0.000}"));
            Page.Line(Out, string.Create(CultureInfo.InvariantCulture, $"another leak remains at the end of the advised search: said {study.SaidRemains:0.000}, was so {study.WasRemains:0.000}"));
            Page.Line(Out, string.Create(CultureInfo.InvariantCulture, $"another leak remains when the first is found: {study.RemainsAfterFirstFound:0.000}"));
            var table = Page.Table("search", "all leaks found", "checks", "minutes", "wrongly named");
            foreach (var (name, result) in new[] { ("advised, by information a minute", study.Advised), ("every spot once, in circuit order", study.FixedOrder), ("usual suspects, stop at the first find", study.Practice) })
                table.Row(name, result.AllFound.ToString("0.000", CultureInfo.InvariantCulture), result.MeanChecks.ToString("0.0", CultureInfo.InvariantCulture), result.MeanMinutes.ToString("0", CultureInfo.InvariantCulture), result.WronglyNamed.ToString("0.00", CultureInfo.InvariantCulture));
            Out.Write(table);
        }));
    }

    private static JsonObject Machine(SearchResult result) => new() { ["all-found"] = result.AllFound, ["checks"] = result.MeanChecks, ["minutes"] = result.MeanMinutes, ["wrongly-named"] = result.WronglyNamed };

    internal static JsonArray Bins(IEnumerable<(double Said, double Was, int Count)> bins) =>
        new([.. bins.Select(bin => (JsonNode)new JsonObject { ["said"] = bin.Said, ["was"] = bin.Was, ["count"] = bin.Count })]);
}

/// <summary>Invented holds with a known truth.</summary>
internal sealed class StudyHold(Surroundings surroundings) : DeskCommand<StudySettings>(surroundings)
{
    protected override Task<int> RunAsync(StudySettings settings, CancellationToken cancellation)
    {
        if (settings.Count is < 1 or > 100_000) throw new RefusedException("count", settings.Count.ToString(CultureInfo.InvariantCulture), "1 to 100000 are allowed");
        var study = HoldStudy.Run(settings.Count, (ulong)settings.Seed);
        return Task.FromResult(Answer(settings, () => new JsonObject
        {
            ["holds"] = study.Holds, ["calibration-error"] = study.CalibrationError, ["brier"] = study.Brier, ["brier-of-prior"] = study.BrierOfPrior,
            ["interval-coverage-90"] = study.IntervalCoverage, ["false-leak"] = study.FalseLeak, ["bins"] = StudyLeaks.Bins(study.LeakBins),
        }, () =>
        {
            Page.Line(Out, string.Create(CultureInfo.InvariantCulture, $"{study.Holds} invented holds (seed {settings.Seed}); simulated, not measured"));
            StudyPrint.Bins(Out, study.LeakBins);
            Page.Line(Out, string.Create(CultureInfo.InvariantCulture, $"odds of a leak that shows, mean error of calibration: {study.CalibrationError:0.000}"));
            Page.Line(Out, string.Create(CultureInfo.InvariantCulture, $"squared error {study.Brier:0.0000}, always saying the mean {study.BrierOfPrior:0.0000}"));
            Page.Line(Out, string.Create(CultureInfo.InvariantCulture, $"true inflow inside its 90 % interval: {study.IntervalCoverage:0.000}"));
            Page.Line(Out, string.Create(CultureInfo.InvariantCulture, $"sound systems called leaking at 9 to 1: {study.FalseLeak:0.0000}"));
        }));
    }
}

internal static class StudyPrint
{
    public static void Bins(Spectre.Console.IAnsiConsole console, IEnumerable<(double Said, double Was, int Count)> bins)
    {
        var table = Page.Table("odds said", "was so", "how often");
        foreach (var (said, was, count) in bins)
            table.Row(said.ToString("0.000", CultureInfo.InvariantCulture), was.ToString("0.000", CultureInfo.InvariantCulture), count.ToString(CultureInfo.InvariantCulture));
        console.Write(table);
    }
}
