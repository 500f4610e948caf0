using System.Collections.Immutable;
using System.Runtime.CompilerServices;
using Tightcold.Jobs.Cars;
using Tightcold.Jobs.Exchange;
using Tightcold.Jobs.Fields;
using Tightcold.Jobs.Journals;
using Tightcold.Jobs.Json;
using Tightcold.Jobs.Kits;
using Tightcold.Jobs.Photos;
using Tightcold.Quantities;

namespace Tightcold.App.Desk;

/// <summary>What came in from a file.</summary>
/// <param name="Jobs">Jobs of the file that are here now, new or known.</param>
public sealed record TakenJobs(ImmutableArray<Job> Jobs)
{
    /// <summary>Cars that are new or changed by the file, and versions of the kit that are new.</summary>
    public int Cars { get; init; }

    /// <inheritdoc cref="Cars"/>
    public int Kits { get; init; }

    /// <summary>A sentence for everything that was left out, and why; all else was taken in.</summary>
    public ImmutableArray<Phrase> LeftOut { get; init; } = [];
}

public sealed partial class JobDesk
{
    /// <summary>Cars, kits and jobs in one file, piece by piece: thousands of jobs are never in memory at
    /// once.</summary>
    public IAsyncEnumerable<string> ExportAllAsync(CancellationToken cancellation = default) =>
        ExportAllAsync(Tally.Empty, cancellation);

    /// <summary>The same file, with only what somebody lacks.</summary>
    /// <param name="without">What he holds.</param>
    public IAsyncEnumerable<string> ExportAllAsync(Tally without, CancellationToken cancellation = default) =>
        ExportAllAsync(without, long.MaxValue, cancellation);

    /// <summary>The same, no more of it than a request should carry: the file ends behind the job with which it came to
    /// that size, and a job whose photos are more goes with some of them. Who tells again what it holds gets the
    /// rest.</summary>
    /// <param name="without">What he holds.</param>
    /// <param name="most">Letters, about.</param>
    public async IAsyncEnumerable<string> ExportAllAsync(
        Tally without,
        long most,
        [EnumeratorCancellation] CancellationToken cancellation = default
    )
    {
        ArgumentNullException.ThrowIfNull(without);
        var left = most;
        var kits = await store.KitsAsync(cancellation).ConfigureAwait(false);
        var cars = await store.CarsAsync(cancellation).ConfigureAwait(false);
        yield return ExchangeDocument.Begin(cars.Where(without.Lacks), kits.Where(without.Lacks));
        var ownKit = new List<Guid>();
        var between = "";
        await foreach (var record in store.RecordsAsync(null, null, cancellation).ConfigureAwait(false))
        {
            var photos = await store.PhotoListAsync(record.Job.Id, cancellation).ConfigureAwait(false);
            var (lacks, missing) = without.Lacks(record, photos.Select(photo => photo.Photo), kits);
            if (!lacks)
                continue;
            if (left <= 0)
                break;
            if (!record.BringsKits)
                ownKit.Add(record.Job.Id);
            var sent = record with
            {
                Photos = Within(left, await PhotosAsync(record, missing, cancellation).ConfigureAwait(false)),
            };
            var text = ExchangeDocument.Job(sent);
            left -= text.Length;
            yield return between + text;
            between = ",\n";
        }
        yield return ExchangeDocument.End(ownKit);
    }

    /// <summary>So many photos, one at least, as come to that size in base64.</summary>
    private static ImmutableArray<Photo> Within(long most, ImmutableArray<Photo> photos)
    {
        var size = 0L;
        return [.. photos.TakeWhile((photo, at) => (size += photo.Body.Length * 4L / 3) <= most || at == 0)];
    }

    private async Task<ImmutableArray<Photo>> PhotosAsync(
        JobRecord record,
        ImmutableArray<Guid> wanted,
        CancellationToken cancellation
    ) =>
        wanted.IsEmpty
            ? []
            :
            [
                .. (await store.PhotosAsync(record.Job.Id, cancellation).ConfigureAwait(false)).Where(photo =>
                    wanted.Contains(photo.Id)
                ),
            ];

    /// <summary>What is held here, as a file for whoever sends what is lacking; piece by piece.</summary>
    public async IAsyncEnumerable<string> TallyAsync([EnumeratorCancellation] CancellationToken cancellation = default)
    {
        yield return TallyDocument.Begin(
            await store.CarsAsync(cancellation).ConfigureAwait(false),
            await store.KitsAsync(cancellation).ConfigureAwait(false)
        );
        var between = "";
        await foreach (var record in store.RecordsAsync(null, null, cancellation).ConfigureAwait(false))
        {
            var photos = await store.PhotoListAsync(record.Job.Id, cancellation).ConfigureAwait(false);
            yield return between + TallyDocument.Job(TalliedJob.Of(record, photos.Select(photo => photo.Photo)));
            between = ",\n";
        }
        yield return TallyDocument.End;
    }

    /// <summary>Takes in a file of one job, or one that holds more. All of it is checked before the first is written;
    /// what cannot be taken is left out and named, each job is written whole, and the same file again finishes what was
    /// broken off.</summary>
    public async Task<Outcome<TakenJobs>> ImportAllAsync(string text, CancellationToken cancellation = default)
    {
        var (file, problems) = ExchangeDocument.Read(text);
        if (problems.Count > 0)
            return Outcome<TakenJobs>.Refused(problems);
        if (file is null)
        {
            var one = await ImportAsync(text, cancellation).ConfigureAwait(false);
            return one.Taken ? Outcome<TakenJobs>.Of(new([one.Value])) : Outcome<TakenJobs>.Refused(one.Problems);
        }
        var leftOut = ImmutableArray.CreateBuilder<Phrase>();
        var own = await store.KitsAsync(cancellation).ConfigureAwait(false);
        var kits = Checked(file.Kits, own, leftOut);
        var known = (await store.CarsAsync(cancellation).ConfigureAwait(false)).ToDictionary(car => car.Id);
        var cars = Checked(file.Cars, leftOut)
            .Where(car => known.GetValueOrDefault(car.Id) is not { } there || CarVersion.Supersedes(car, there))
            .ToList();
        ImmutableArray<Kit> ownThen = [.. own, .. kits];
        var here = await NumbersAsync(cancellation).ConfigureAwait(false);
        var records = new List<(ExchangeJob At, JobRecord Record)>();
        foreach (var job in file.Jobs)
        {
            try
            {
                var (record, reasons) = await CheckedAsync(
                        job.Text,
                        file.IsOld
                            ? null
                            : read => file.OwnKit.Contains(read.Job.Id) ? read with { Kits = ownThen } : read,
                        here,
                        cancellation
                    )
                    .ConfigureAwait(false);
                foreach (var reason in reasons)
                    leftOut.Add(LeftOut(job, (reason with { Field = $"{job.Path}: {reason.Field}" }).Sentence));
                if (record is not null && reasons.Count == 0)
                    records.Add((job, record));
            }
            // It is here and damaged.
            catch (StoreException trouble) when (trouble.Trouble == StoreTrouble.Other)
            {
                leftOut.Add(LeftOut(job, trouble.Says));
            }
        }

        foreach (var kit in kits)
            await store.AddKitAsync(kit, cancellation).ConfigureAwait(false);
        foreach (var car in cars)
            await store.MergeCarAsync(car, cancellation).ConfigureAwait(false);
        var taken = ImmutableArray.CreateBuilder<Job>();
        foreach (var (at, record) in Enumerable.Reverse(records))
        {
            try
            {
                taken.Add(await store.MergeAsync(record, cancellation).ConfigureAwait(false));
            }
            // An id that another job has here. A full disk and a database that does not answer are the same for all, and
            // end it.
            catch (StoreException trouble) when (trouble.Trouble == StoreTrouble.Other)
            {
                leftOut.Add(LeftOut(at, trouble.Says));
            }
        }
        return Outcome<TakenJobs>.Of(
            new(taken.ToImmutable())
            {
                Cars = cars.Count,
                Kits = kits.Count,
                LeftOut = leftOut.ToImmutable(),
            }
        );
    }

    private static Phrase LeftOut(ExchangeJob job, Phrase why) =>
        Phrase.Of($"The job “{Phrase.Verbatim(job.Name)}” of the file is left out: {why}");

    /// <summary>Cars of a file that may come in.</summary>
    private static List<Car> Checked(ImmutableArray<ExchangePart<Car>> cars, ImmutableArray<Phrase>.Builder leftOut)
    {
        var taken = new List<Car>();
        foreach (var (path, car, read) in cars)
        {
            var problems = car is null ? read : [.. read, .. TypedText.Check(path, car)];
            leftOut.AddRange(
                problems.Select(problem => Phrase.Of($"A car of the file is left out: {problem.Sentence}"))
            );
            if (car is not null && problems.IsEmpty)
                taken.Add(car);
        }
        return taken;
    }

    /// <summary>Kits of a file that may come in: a version that is here is never another.</summary>
    private static List<Kit> Checked(
        ImmutableArray<ExchangePart<Kit>> kits,
        IReadOnlyList<Kit> own,
        ImmutableArray<Phrase>.Builder leftOut
    )
    {
        var known = own.ToDictionary(kit => kit.Id, Text);
        var taken = new List<Kit>();
        foreach (var (path, kit, read) in kits)
        {
            var problems = kit is null ? read : [.. read, .. TypedText.Check(path, kit)];
            if (kit is not null && problems.IsEmpty && known.GetValueOrDefault(kit.Id, Text(kit)) != Text(kit))
                problems =
                [
                    InputProblem.Of(
                        $"{path}.id",
                        kit.Id.ToString(),
                        $"another version of the kit carries this id; each has its own"
                    ),
                ];
            leftOut.AddRange(
                problems.Select(problem =>
                    Phrase.Of($"A version of the kit in the file is left out: {problem.Sentence}")
                )
            );
            if (kit is null || !problems.IsEmpty)
                continue;
            if (known.TryAdd(kit.Id, Text(kit)))
                taken.Add(kit);
        }
        return taken;

        static string Text(Kit kit) => JobDocument.OnOneLine(JobDocument.WriteKit(kit));
    }
}
