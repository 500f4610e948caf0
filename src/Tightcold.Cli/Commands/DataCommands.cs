using System.ComponentModel;
using System.Globalization;
using Tightcold.App.Books;
using Tightcold.Cli.Show;
using Tightcold.Cli.Wiring;
using Tightcold.Storage;
using Tightcold.Storage.Safety;
using Tightcold.Tongues;

namespace Tightcold.Cli.Commands;

internal sealed class BackupSettings : DeskSettings
{
    [CommandArgument(0, "[FILE]")]
    [Description("File to write, or a folder for it; backups/tightcold-DATE.db in the data folder unless given.")]
    public string? To { get; init; }
}

internal sealed class RestoreSettings : DeskSettings
{
    [CommandArgument(0, "<FILE>")]
    [InputFile]
    [Description("The backup.")]
    public string From { get; init; } = "";
}

/// <summary>Copies everything into one file while others go on writing, and reads the copy again.</summary>
internal sealed class Backup(Surroundings surroundings) : DeskCommand<BackupSettings>(surroundings)
{
    protected override async Task<int> RunAsync(BackupSettings settings, CancellationToken cancellation)
    {
        var name =
            $"tightcold-{Surroundings.Clock.GetLocalNow().ToString("yyyy-MM-dd-HHmmss", CultureInfo.InvariantCulture)}.db";
        var file =
            settings.To is not { } asked ? Path.Combine(Place.Folder, "backups", name)
            : Directory.Exists(asked) ? Path.Combine(asked, name)
            : Path.GetFullPath(asked);
        if (settings.To is not null)
            Files.CheckOutput("file", file);
        if (File.Exists(file))
            throw new RefusedException(
                "file",
                file,
                "a file of that name is there already, and a backup never writes over one; choose another name"
            );
        var report = await Store.BackupAsync(file, LedgerClosure.Of, cancellation).ConfigureAwait(false);
        return Answer(
            settings,
            () => CheckText.Machine(report.Check, ("backup", report.File), ("bytes", report.Bytes)),
            () =>
            {
                Page.Line(
                    Out,
                    Say.It(
                        $"{report.File}: {CheckText.Counts(report.Check)}, read again after writing. Keep it on "
                            + $"another disk."
                    )
                );
                if (!report.Check.IsClean)
                    Page.Line(Out, Say.It("The data themselves want a look, and so does the copy:"));
                CheckText.Show(Out, report.Check);
            }
        );
    }
}

/// <summary>Reads everything again: the file, what belongs to what, every journal, every ledger.</summary>
internal sealed class Check(Surroundings surroundings) : DeskCommand<DeskSettings>(surroundings)
{
    protected override async Task<int> RunAsync(DeskSettings settings, CancellationToken cancellation)
    {
        var report = await Store.CheckAsync(LedgerClosure.Of, cancellation).ConfigureAwait(false);
        Answer(
            settings,
            () => CheckText.Machine(report, ("data", Store.Name.ToString())),
            () =>
            {
                if (report.IsClean)
                    Page.Line(
                        Out,
                        Say.It(
                            $"All is well with {Units.Says(Store.Name)}: {CheckText.Counts(report)}. Every journal was "
                                + $"read and folded again, every ledger closes, nothing stands alone."
                        )
                    );
                else
                    CheckText.Show(Out, report);
            }
        );
        return report.IsClean ? ExitCode.Done : ExitCode.Trouble;
    }
}

/// <summary>Puts a backup in the place of the data. Opens nothing before: the data may be what is broken.</summary>
internal sealed class Restore(Surroundings surroundings) : Command<RestoreSettings>
{
    public override async Task<int> ExecuteAsync(RestoreSettings settings, CancellationToken cancellation)
    {
        var report = await DataRestore
            .RunAsync(
                DataPlace.Resolve(settings.Data),
                settings.From,
                LedgerClosure.Of,
                surroundings.Clock.GetLocalNow(),
                cancellation
            )
            .ConfigureAwait(false);
        if (settings.Json)
        {
            Page.Machine(
                surroundings.Out,
                CheckText.Machine(report.Check, ("restored", report.Place), ("kept-as", report.KeptAs))
            );
            return ExitCode.Done;
        }
        Page.Line(surroundings.Out, Say.It($"Restored to {report.Place}: {CheckText.Counts(report.Check)}."));
        if (report.KeptAs is { } kept)
            Page.Line(surroundings.Out, Say.It($"What was there before is kept as {kept}"));
        CheckText.Show(surroundings.Out, report.Check);
        return ExitCode.Done;
    }
}
