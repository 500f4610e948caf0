using Tightcold.App.Typed;
using Tightcold.Jobs.Circuit;
using Tightcold.Jobs.Entries;
using Tightcold.Jobs.Fields;
using Tightcold.Jobs.Journals;
using Tightcold.Jobs.Json;
using Tightcold.Picture.Pressures;
using Tightcold.Quantities;

namespace Tightcold.App.Desk;

public sealed partial class JobDesk
{
    private const int LongestComplaint = 400;

    /// <summary>All jobs, newest first.</summary>
    public async Task<IReadOnlyList<JobSummary>> JobsAsync(CancellationToken cancellation = default)
    {
        return (await store.JobsAsync(new JobSearch { Most = int.MaxValue }, cancellation).ConfigureAwait(false)).Jobs;
    }

    /// <summary>A part of the jobs asked for, newest first.</summary>
    public Task<JobsFound> JobsAsync(JobSearch search, CancellationToken cancellation = default) =>
        store.JobsAsync(search, cancellation);

    /// <summary>How many jobs are open, waiting and closed.</summary>
    public Task<IReadOnlyDictionary<string, int>> JobCountsAsync(CancellationToken cancellation = default) =>
        store.CountsAsync(cancellation);

    public Task<Outcome<Job>> OpenJobAsync(Guid carId, string complaint, CancellationToken cancellation = default) =>
        OpenJobAsync(carId, complaint, null, null, null, cancellation);

    /// <param name="id">The writer's own id, so that sending again opens no second job; null makes a new one.</param>
    public Task<Outcome<Job>> OpenJobAsync(
        Guid carId,
        string complaint,
        Guid? id,
        CancellationToken cancellation = default
    ) => OpenJobAsync(carId, complaint, id, null, null, cancellation);

    /// <param name="id">The writer's own id, so that sending again opens no second job; null makes a new one.</param>
    /// <param name="told">Why the car is here, one of <see cref="StoryWords"/>: the first entry of its journal, and the
    /// complaint where there are no other words; or null.</param>
    /// <param name="at">When the car came, for a job that is written down later; now unless said.</param>
    public async Task<Outcome<Job>> OpenJobAsync(
        Guid carId,
        string complaint,
        Guid? id,
        string? told,
        DateTimeOffset? at = null,
        CancellationToken cancellation = default
    )
    {
        if (told is not null && !StoryWords.All.Contains(told))
            return Outcome<Job>.Refused(
                InputProblem.Of(
                    "told",
                    Shortened(told),
                    $"one of {Phrase.Verbatim(string.Join(", ", StoryWords.All))} is allowed"
                )
            );
        var opened = await OpenAsync(
                carId,
                told is not null && complaint.Trim().Length == 0 ? told : complaint,
                id,
                at,
                cancellation
            )
            .ConfigureAwait(false);
        if (
            told is null
            || !opened.Taken
            || await store.RecordAsync(opened.Value.Number, cancellation).ConfigureAwait(false) is not { } record
            // Sent again, after the job was opened: the story is told once.
            || record.Journal.All.Any(entry => entry.Kind == EntryKinds.Story)
        )
            return opened;
        var story = await AddEntryAsync(
                opened.Value.Number,
                EntryKinds.Story,
                new Dictionary<string, string> { ["told"] = told },
                at,
                record.KitAt(Now).Fields.Text(FieldNames.Owner) ?? "",
                cancellation: cancellation
            )
            .ConfigureAwait(false);
        return story.Taken ? opened : Outcome<Job>.Refused([.. story.Problems]);
    }

    private async Task<Outcome<Job>> OpenAsync(
        Guid carId,
        string complaint,
        Guid? id,
        DateTimeOffset? at,
        CancellationToken cancellation
    )
    {
        if (
            id is { } own
            && (
                await store
                    .JobsAsync(new JobSearch { CarId = carId, Most = int.MaxValue }, cancellation)
                    .ConfigureAwait(false)
            ).Jobs.FirstOrDefault(job => job.Id == own)
                is { } summary
            && await store.RecordAsync(summary.Number, cancellation).ConfigureAwait(false) is { } there
        )
            return Outcome<Job>.Of(there.Job);
        if (await store.CarAsync(carId, cancellation).ConfigureAwait(false) is null)
            return Outcome<Job>.Refused(InputProblem.Of("car", carId.ToString(), $"no car has that id"));
        var words = complaint.Trim();
        if (words.Length is 0 or > LongestComplaint)
            return Outcome<Job>.Refused(
                InputProblem.Of(
                    "complaint",
                    Shortened(words),
                    $"what is wrong, in 1 to {LongestComplaint} characters, is needed here"
                )
            );
        var now = Now;
        if (at > now)
            return Outcome<Job>.Refused(
                InputProblem.Of("at", Stamp(at.Value), $"that moment has not come; it is {Phrase.Verbatim(Stamp(now))}")
            );
        return Outcome<Job>.Of(
            await store
                .AddJobAsync(new Job(id ?? ids.NextId(now), carId, 0, words, at ?? now, ids.NextSeed()), cancellation)
                .ConfigureAwait(false)
        );
    }

    /// <summary>Every job of a car that can be read, with its journal.</summary>
    public async Task<IReadOnlyList<JobRecord>> RecordsOfCarAsync(Guid carId, CancellationToken cancellation = default)
    {
        var records = new List<JobRecord>();
        await foreach (var record in store.RecordsAsync(carId, [], cancellation).ConfigureAwait(false))
            records.Add(record);
        return records;
    }

    public Task<JobRecord?> RecordAsync(int number, CancellationToken cancellation = default) =>
        store.RecordAsync(number, cancellation);

    /// <summary>How many entries a job has, to see whether another device wrote something; null when there is no such
    /// job.</summary>
    public Task<int?> EntryCountAsync(int number, CancellationToken cancellation = default) =>
        store.EntryCountAsync(number, cancellation);

    /// <summary>Adds one entry from typed text, or corrects the entry <paramref name="supersedes"/>.</summary>
    /// <param name="observedAt">When it was seen or done; now unless said otherwise.</param>
    /// <param name="id">The writer's own id, so that sending again changes nothing; a new one unless given.</param>
    public async Task<Outcome<Entry>> AddEntryAsync(
        int jobNumber,
        string kind,
        IReadOnlyDictionary<string, string> fields,
        DateTimeOffset? observedAt,
        string who,
        Guid? supersedes = null,
        string? reason = null,
        Guid? id = null,
        CancellationToken cancellation = default
    )
    {
        if (await store.RecordAsync(jobNumber, cancellation).ConfigureAwait(false) is not { } record)
            return Outcome<Entry>.Refused(NoJob(jobNumber));
        if (EntryKinds.Find(kind) is not { } schema)
            return Outcome<Entry>.Refused(NoKind(kind));
        var (bag, problems) = FieldReader.Read(schema, fields, Hand);
        if (problems.Count > 0)
            return Outcome<Entry>.Refused(problems);
        var now = Now;
        var entry = new Entry(
            id ?? ids.NextId(now),
            kind,
            observedAt ?? now,
            now,
            who.Trim(),
            bag,
            supersedes,
            reason?.Trim()
        );
        return await AddAsync(record, entry, EntryRules.Check, cancellation).ConfigureAwait(false);
    }

    /// <summary>Adds one entry that was written elsewhere, with its own id and times. The same entry again is
    /// acknowledged and changes nothing.</summary>
    public async Task<Outcome<Entry>> AddWrittenAsync(
        int jobNumber,
        Entry entry,
        CancellationToken cancellation = default
    )
    {
        var disagreements = TypedText.Check(entry);
        if (disagreements.Count > 0)
            return Outcome<Entry>.Refused(disagreements);
        return await store.RecordAsync(jobNumber, cancellation).ConfigureAwait(false) is { } record
            ? await AddAsync(record, entry, EntryRules.CheckTaken, cancellation).ConfigureAwait(false)
            : Outcome<Entry>.Refused(NoJob(jobNumber));
    }

    /// <summary>Strikes an entry without replacing it; it stays visible and counts no more.</summary>
    public Task<Outcome<Entry>> StrikeAsync(
        int jobNumber,
        Guid entryId,
        string who,
        string reason,
        CancellationToken cancellation = default
    ) =>
        AddEntryAsync(
            jobNumber,
            EntryKinds.Struck,
            new Dictionary<string, string>(),
            null,
            who,
            entryId,
            reason,
            null,
            cancellation
        );

    /// <summary>The whole job as text in the documented format, with what the record holds of photos.</summary>
    public static string Export(JobRecord record) => JobDocument.Write(record);

    /// <summary>Takes a whole job from elsewhere, all or nothing; a job that is here already gets the union.</summary>
    public async Task<Outcome<Job>> ImportAsync(string text, CancellationToken cancellation = default)
    {
        var here = await NumbersAsync(cancellation).ConfigureAwait(false);
        var (record, problems) = await CheckedAsync(text, null, here, cancellation).ConfigureAwait(false);
        return record is null || problems.Count > 0
            ? Outcome<Job>.Refused(problems)
            : Outcome<Job>.Of(await store.MergeAsync(record, cancellation).ConfigureAwait(false));
    }

    /// <summary>The job of a text, and everything that speaks against taking it in.</summary>
    /// <param name="meant">What else an exchange file says of it; null for a file of one job.</param>
    /// <param name="here">The jobs that are here, by id.</param>
    private async Task<(JobRecord? Record, IReadOnlyList<InputProblem> Problems)> CheckedAsync(
        string text,
        Func<JobRecord, JobRecord>? meant,
        IReadOnlyDictionary<Guid, int> here,
        CancellationToken cancellation
    )
    {
        var (record, problems) = JobDocument.Read(text);
        if (record is null)
            return (null, problems);
        // First what names the field that was changed, then that the chain says so too.
        var disagreements = TypedText.Check(record);
        if (disagreements.Count > 0 || problems.Count > 0)
            return (null, disagreements.Count > 0 ? disagreements : problems);
        record = meant?.Invoke(record) ?? record;
        var there = here.TryGetValue(record.Job.Id, out var number)
            ? await store.RecordAsync(number, cancellation).ConfigureAwait(false)
            : null;
        return (record, CheckWhole(record, there));
    }

    /// <summary>A file may have been written by hand: its job and every entry are held to the rules a form is held to. Of
    /// a journal with its chain, which was read and holds, every entry passed them when it was written, with the car and
    /// the kit of then; they may have changed since. What is here already passes as it is.</summary>
    /// <param name="here">The same job as it stands here, or null.</param>
    private static List<InputProblem> CheckWhole(JobRecord record, JobRecord? here)
    {
        var problems = new List<InputProblem>();
        if (here is not null && here.Job != record.Job with { Number = here.Job.Number })
            problems.Add(
                InputProblem.Of(
                    "$.job.id",
                    record.Job.Id.ToString(),
                    $"job {here.Job.Number} carries this id here and says something else of its car, its complaint or "
                        + $"when it was opened; each job has an id of its own"
                )
            );
        if (record.Job.Complaint.Trim().Length is 0 or > LongestComplaint)
            problems.Add(
                InputProblem.Of(
                    "$.job.complaint",
                    Shortened(record.Job.Complaint),
                    $"what is wrong, in 1 to {LongestComplaint} characters, is needed here"
                )
            );
        // Corrections may name what only this machine has.
        var (whole, clash) = record.Journal.Union(here?.Journal.All ?? []);
        if (whole is null)
            return [.. problems, .. clash.Select(problem => problem with { Field = "$.entries: " + problem.Field })];
        var together = record with { Journal = whole };
        foreach (var entry in record.Journal.All.Where(entry => here?.Journal.Find(entry.Id) is null))
            problems.AddRange(
                (
                    record.Chain.Length > 0
                        ? EntryRules.CheckChained(together, entry)
                        : EntryRules.CheckTaken(together, entry, AirPressure.At(together, entry.ObservedAt).Known)
                )
                    .Select(problem =>
                        problem with
                        {
                            Field = $"$.entries: {entry.Id} ({entry.Kind}): {problem.Field}",
                        }
                    )
            );
        return problems;
    }

    /// <summary>The number here of each job, by its id.</summary>
    private async Task<IReadOnlyDictionary<Guid, int>> NumbersAsync(CancellationToken cancellation) =>
        (await JobsAsync(cancellation).ConfigureAwait(false)).ToDictionary(job => job.Id, job => job.Number);

    /// <param name="rules">Of an entry written here and now, or of one that was written elsewhere, perhaps before the
    /// last one here.</param>
    private async Task<Outcome<Entry>> AddAsync(
        JobRecord record,
        Entry written,
        Func<JobRecord, Entry, AbsolutePressure?, IReadOnlyList<InputProblem>> rules,
        CancellationToken cancellation
    )
    {
        var entry = written with { Fields = Named(record, written) };
        if (record.Journal.Find(entry.Id) is { } there)
        {
            // Sent again, perhaps later: what was written down is what counts, not when it was sent.
            return
                there
                == entry with
                {
                    WrittenAt = there.WrittenAt,
                    ObservedAt = written.ObservedAt == written.WrittenAt ? there.ObservedAt : entry.ObservedAt,
                }
                ? Outcome<Entry>.Of(there)
                : Outcome<Entry>.Refused(
                    InputProblem.Of(
                        "id",
                        entry.Id.ToString(),
                        $"another entry of this job carries this id; each needs its own"
                    )
                );
        }
        var problems = rules(record, entry, AirPressure.At(record, entry.ObservedAt).Known);
        if (problems.Count > 0)
            return Outcome<Entry>.Refused(problems);
        await store.AddEntriesAsync(record.Job.Id, [entry], cancellation).ConfigureAwait(false);
        return Outcome<Entry>.Of(entry);
    }

    /// <summary>Spots and containers as the circuit map and the kit spell them, whatever case was typed.</summary>
    private static FieldBag Named(JobRecord record, Entry entry)
    {
        var bag = entry.Fields;
        foreach (var field in EntryKinds.Find(entry.Kind)?.Fields ?? [])
        {
            if (bag.Text(field.Name) is not { } name)
                continue;
            var known = field.Type switch
            {
                FieldType.Spot => Spelled(record, name),
                FieldType.Spots => string.Join(
                    ", ",
                    FieldType
                        .Spots.Of(name)
                        .Select(one => Spelled(record, one) ?? one)
                        .Distinct(StringComparer.OrdinalIgnoreCase)
                ),
                FieldType.Container => record.KitAt(entry.ObservedAt).Find(name)?.Name,
                _ => null,
            };
            if (known is not null)
                bag = bag.With(field.Name, new FieldValue.Text(known));
        }
        return bag;
    }

    private static string? Spelled(JobRecord record, string name) =>
        CircuitMap
            .Spots(record.Car)
            .FirstOrDefault(spot => string.Equals(spot, name, StringComparison.OrdinalIgnoreCase));

    private static string Shortened(string words) => Quote.Beginning(words.Trim(), 40);

    /// <summary>What is said of a kind of entry that is none.</summary>
    public static InputProblem NoKind(string kind)
    {
        var known = EntryKinds.All.Select(schema => schema.Name).ToList();
        return InputProblem.Of(
            "kind",
            kind,
            $"{Nearest.Hint(kind, known)}known kinds are {Phrase.Verbatim(string.Join(", ", known))}"
        );
    }

    private static InputProblem NoJob(int number) =>
        new(
            "job",
            number.ToString(System.Globalization.CultureInfo.InvariantCulture),
            Phrase.Words("no job has that number")
        );
}
