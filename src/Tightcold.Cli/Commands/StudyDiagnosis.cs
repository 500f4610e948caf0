using System.ComponentModel;
using System.Globalization;
using System.Text.Json;
using System.Text.Json.Nodes;
using Spectre.Console.Cli;
using Tightcold.App.Diagrams;
using Tightcold.Cli.Show;
using Tightcold.Cli.Wiring;
using Tightcold.Diagnosis.Inference;
using Tightcold.Diagnosis.Study;

namespace Tightcold.Cli.Commands;

internal sealed class DiagnosisStudySettings : DeskSettings
{
    [CommandOption("--cars <COUNT>")]
    [Description("Number of invented cars.")]
    [DefaultValue(100)]
    public int Cars { get; init; }

    [CommandOption("--from <NUMBER>")]
    [Description("Number of the first car.")]
    [DefaultValue(1)]
    public int From { get; init; }

    [CommandOption("--quick")]
    [Description("With the first picture's effort instead of the full answer's.")]
    public bool Quick { get; init; }

    [CommandOption("--brute")]
    [Description("How far each effort's odds lie from a brute force of the same posterior; slow.")]
    public bool Brute { get; init; }

    [CommandOption("--steps <COUNT>")]
    [Description("Follow the suggested tests this many steps, against a fixed order; slow.")]
    public int Steps { get; init; }

    [CommandOption("--save <FILE>")]
    [Description("Append each car's score as a line of JSON; cars that are there already are not run again.")]
    public string? Save { get; init; }

    [CommandOption("--plots <FOLDER>")]
    [Description("Write the reliability diagram and rank histograms as SVG.")]
    public string? Plots { get; init; }
}

/// <summary>How often the diagnosis is right when it says how sure it is, on cars whose fault is known.</summary>
internal sealed class StudyDiagnosis(Surroundings surroundings) : AsyncCommand<DiagnosisStudySettings>
{
    private const int MostCars = 100_000;

    public override async Task<int> ExecuteAsync(CommandContext context, DiagnosisStudySettings settings, CancellationToken cancellationToken)
    {
        if (settings.Cars is < 1 or > MostCars || settings.From < 0)
            throw new RefusedException("cars", settings.Cars.ToString(CultureInfo.InvariantCulture), "1 to 100000 cars from a number of 0 or more are needed");
        if (settings.Brute) return Compared(settings, cancellationToken);
        if (settings.Steps > 0) return Followed(settings, cancellationToken);
        var known = settings.Save is { } file && File.Exists(file)
            ? (await File.ReadAllLinesAsync(file, cancellationToken).ConfigureAwait(false)).Where(line => line.EndsWith('}')).Select(line => JsonSerializer.Deserialize<CarScore>(line)!).ToDictionary(score => score.Number)
            : [];
        var scores = new List<CarScore>();
        for (var number = settings.From; number < settings.From + settings.Cars; number++)
        {
            cancellationToken.ThrowIfCancellationRequested();
            if (!known.TryGetValue(number, out var score))
            {
                score = CarScore.Of(number, settings.Quick ? Effort.Quick : Effort.Full);
                if (settings.Save is { } to) await File.AppendAllTextAsync(to, JsonSerializer.Serialize(score) + "\n", cancellationToken).ConfigureAwait(false);
            }

            scores.Add(score);
        }

        var report = new CalibrationReport([.. scores]);
        if (settings.Plots is { } folder)
        {
            Directory.CreateDirectory(folder);
            await File.WriteAllTextAsync(Path.Combine(folder, "reliability.svg"), StudyPlots.Reliability(report), cancellationToken).ConfigureAwait(false);
            await File.WriteAllTextAsync(Path.Combine(folder, "ranks.svg"), StudyPlots.Ranks(report), cancellationToken).ConfigureAwait(false);
        }

        if (settings.Json) Page.Machine(surroundings.Out, JsonSerializer.SerializeToNode(scores)!);
        else Page.Raw(surroundings.Out, report.Text());
        return ExitCode.Done;
    }

    private int Compared(DiagnosisStudySettings settings, CancellationToken cancellation)
    {
        var report = AgainstBruteForce.Run(settings.From, settings.Cars, cancellation);
        if (settings.Json) Page.Machine(surroundings.Out, JsonSerializer.SerializeToNode(report.Lines)!);
        else Page.Raw(surroundings.Out, report.Text());
        return ExitCode.Done;
    }

    private int Followed(DiagnosisStudySettings settings, CancellationToken cancellation)
    {
        var report = FollowedTests.Run(settings.From, settings.Cars, settings.Steps, settings.Quick ? Effort.Quick : Effort.Full, cancellation);
        if (settings.Json) Page.Machine(surroundings.Out, (JsonObject)JsonSerializer.SerializeToNode(report)!);
        else Page.Raw(surroundings.Out, report.Text());
        return ExitCode.Done;
    }
}
