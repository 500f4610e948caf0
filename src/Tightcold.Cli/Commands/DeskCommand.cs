using System.Globalization;
using System.Text.Json.Nodes;
using Spectre.Console;
using Tightcold.App.Desk;
using Tightcold.App.Units;
using Tightcold.Cli.Show;
using Tightcold.Cli.Wiring;
using Tightcold.Jobs.Entries;
using Tightcold.Jobs.Fields;
using Tightcold.Jobs.Journals;
using Tightcold.Storage;
using Tightcold.Tongues;

namespace Tightcold.Cli.Commands;

/// <summary>A command that works at the desk: opens the data file, runs, and says what it did.</summary>
internal abstract class DeskCommand<TSettings>(Surroundings surroundings) : Command<TSettings>
    where TSettings : DeskSettings, new()
{
    protected Surroundings Surroundings { get; } = surroundings;
    protected IAnsiConsole Out => Surroundings.Out;
    protected DataPlace Place { get; private set; } = null!;
    protected JobStore Store => store ?? throw new InvalidOperationException("this command said it needs no data");
    protected JobDesk Desk => desk ?? throw new InvalidOperationException("this command said it needs no data");
    protected ReaderUnits Units { get; private set; } = null!;

    private JobStore? store;
    private JobDesk? desk;

    /// <summary>Whether this command, so asked, reads or writes the data at all.</summary>
    protected virtual bool NeedsData(TSettings settings) => true;

    public sealed override async Task<int> ExecuteAsync(TSettings settings, CancellationToken cancellation)
    {
        Place = DataPlace.Resolve(settings.Data);
        // What a machine reads is the same in every country.
        Say.Tongue = settings.Json
            ? AllTongues.English
            : Remembered.Language(Place.Folder, settings.Language, Surroundings.Tongue);
        Units = new ReaderUnits(Remembered.Units(Place.Folder, settings.Units), Say.Tongue);
        try
        {
            using var opened = NeedsData(settings)
                ? await JobStore.OpenAsync(Place, cancellation).ConfigureAwait(false)
                : null;
            if (opened is not null)
                (store, desk) = (opened, new JobDesk(opened, Surroundings.Clock, Surroundings.Ids));
            var code = await RunAsync(settings, cancellation).ConfigureAwait(false);
            if (code == ExitCode.Done)
                Remembered.Keep(Place.Folder, settings.Units, settings.Language);
            return code;
        }
        catch (RefusedException refused)
        {
            return Problems.Show(refused.Problems, settings.Json, Surroundings, Units);
        }
    }

    protected abstract Task<int> RunAsync(TSettings settings, CancellationToken cancellation);

    protected async Task<JobRecord> RecordAsync(int number, CancellationToken cancellation) =>
        await Desk.RecordAsync(number, cancellation).ConfigureAwait(false)
        ?? throw new RefusedException(
            "job",
            number.ToString(CultureInfo.InvariantCulture),
            "no job has that number; see tightcold job list"
        );

    /// <summary>Answers with <paramref name="machine"/> or with lines for a person.</summary>
    protected int Answer(TSettings settings, Func<JsonNode> machine, Action person)
    {
        if (settings.Json)
            Page.Machine(Out, machine());
        else
            person();
        return ExitCode.Done;
    }

    protected async Task<string> WhoAsync(string? asked, CancellationToken cancellation) =>
        asked ?? (await Desk.KitAsync(cancellation).ConfigureAwait(false)).Fields.Text(FieldNames.Owner) ?? "me";

    /// <summary>An entry by its id, or by the last digits of it as the lists show them.</summary>
    protected static Entry FindEntry(JobRecord record, string typed)
    {
        var found = record.Journal.All.Where(entry => Ids.Fits(entry.Id, typed)).ToList();
        return found.Count == 1
            ? found[0]
            : throw new RefusedException(
                "entry",
                typed,
                found.Count == 0
                    ? "no entry of this job has that id; see tightcold job show"
                    : "more than one entry ends so; give more digits"
            );
    }
}
