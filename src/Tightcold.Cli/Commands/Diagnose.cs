using System.ComponentModel;
using System.Text.Json.Nodes;
using Tightcold.App.Diagnosing;
using Tightcold.App.Diagrams;
using Tightcold.Cli.Show;
using Tightcold.Cli.Wiring;
using Tightcold.Diagnosis.Inference;
using Tightcold.Findings;
using Tightcold.Jobs.Entries;
using Tightcold.Jobs.Journals;
using Tightcold.Picture;
using Tightcold.Tongues;

namespace Tightcold.Cli.Commands;

internal sealed class DiagnoseSettings : DeskSettings
{
    [CommandArgument(0, "[NUMBER]")]
    [Description("Number of the job; or give --readings.")]
    public int? Number { get; init; }

    [CommandOption("--readings <FILE>")]
    [InputFile]
    [Description("A JSON file of car and entries instead of a job; - is standard input.")]
    public string? Readings { get; init; }

    [CommandOption("--svg <FILE>")]
    [OutputFile]
    [Description("Write the picture “observed against expected”.")]
    public string? Svg { get; init; }

    [CommandOption("--quick")]
    [Description("A first picture with rougher odds.")]
    public bool Quick { get; init; }

    [CommandOption("--deep")]
    [Description("Odds to within 0.02 of a brute force, in some seconds.")]
    public bool Deep { get; init; }
}

/// <summary>Faults with odds, reasons, and the next best test, from a job or from a file of readings.</summary>
internal sealed class Diagnose(Surroundings surroundings) : DeskCommand<DiagnoseSettings>(surroundings)
{
    protected override bool NeedsData(DiagnoseSettings settings) => settings.Readings is null;

    protected override async Task<int> RunAsync(DiagnoseSettings settings, CancellationToken cancellation)
    {
        if (settings.Quick && settings.Deep)
            throw new RefusedException(RefusedException.CommandLine, "--quick --deep", "one of the two is allowed");
        var record = await WhoseAsync(settings, cancellation).ConfigureAwait(false);
        var earlier = settings.Readings is null
            ? await Desk.EarlierAsync(record, cancellation).ConfigureAwait(false)
            : [];
        var picture = new JobPicture(
            record,
            earlier,
            effort: settings.Deep ? Effort.Deep
                : settings.Quick ? Effort.Quick
                : Effort.Full
        );
        var (diagnosis, finding) = (picture.Machine, Walk.Of(Step.WhatIsWrong, picture));
        if (settings.Svg is { } path)
            await Files
                .WriteAsync(
                    "--svg",
                    path,
                    diagnosis is null
                        ? throw new RefusedException(
                            "--svg",
                            path,
                            "there is nothing to draw yet; a standing or running reading is needed first"
                        )
                        : ObservedExpected.Svg(diagnosis, Units),
                    cancellation
                )
                .ConfigureAwait(false);
        return Answer(
            settings,
            () =>
                new JsonObject
                {
                    ["finding"] = FindingText.Machine(finding, Units),
                    ["diagnosis"] = diagnosis is null ? null : DiagnosisJson.Write(diagnosis, Units),
                },
            () =>
            {
                FindingText.Show(Out, finding, record, Units);
                if (diagnosis is null)
                    return;
                Page.Line(Out, Say.It("Observed against expected (9 in 10 modelled cars):"));
                foreach (var line in ObservedExpected.Lines(diagnosis, Units))
                    Page.Line(Out, "  " + line);
                Page.Line(Out, Say.It("Tests by what they tell for their cost:"));
                foreach (var test in diagnosis.Tests.Take(5))
                {
                    var minutes = test.Minutes.ToString("F0", Units.Culture);
                    Page.Line(Out, "  " + Say.It($"{Units.Says(test.Kind.Name)}: {minutes} min"));
                }
            }
        );
    }

    private async Task<JobRecord> WhoseAsync(DiagnoseSettings settings, CancellationToken cancellation)
    {
        if (settings.Readings is not { } file)
        {
            return settings.Number is { } number
                ? await RecordAsync(number, cancellation).ConfigureAwait(false)
                : throw new RefusedException(
                    "job",
                    "",
                    "the number of a job is needed here, or --readings with a file"
                );
        }

        if (settings.Number is not null)
            throw new RefusedException("readings", file, "readings come either from a job or from a file, not both");
        var text = await Files.ReadAsync("--readings", file, Surroundings, cancellation).ConfigureAwait(false);
        var (record, problems) = ReadingsFile.Read(text);
        return record ?? throw new RefusedException(problems);
    }
}
