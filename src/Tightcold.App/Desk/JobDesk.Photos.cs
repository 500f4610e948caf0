using Tightcold.Jobs.Fields;
using Tightcold.Jobs.Journals;
using Tightcold.Jobs.Photos;
using Tightcold.Quantities;

namespace Tightcold.App.Desk;

public sealed partial class JobDesk
{
    /// <summary>Keeps a photo with an entry. What a camera wrote beside the picture is not kept.</summary>
    /// <param name="id">The writer's own id, so that sending again adds nothing.</param>
    public async Task<Outcome<Photo>> AddPhotoAsync(
        JobRecord record,
        Guid entry,
        ReadOnlyMemory<byte> bytes,
        Guid? id,
        CancellationToken cancellation = default
    )
    {
        ArgumentNullException.ThrowIfNull(record);
        if (record.Journal.Find(entry) is null)
            return Outcome<Photo>.Refused(
                InputProblem.Of("entry", entry.ToString(), $"the id of an entry of this job is needed")
            );
        var (body, problem) = Jpeg.Clean(bytes.Span);
        if (problem is not null)
            return Outcome<Photo>.Refused(problem);
        var list = await store.PhotoListAsync(record.Job.Id, cancellation).ConfigureAwait(false);
        if (id is { } own && list.Any(there => there.Photo == own))
        {
            var kept = await store.PhotoAsync(record.Job.Id, own, cancellation).ConfigureAwait(false);
            return kept is not null && kept.Entry == entry && kept.Body.AsSpan().SequenceEqual(body.AsSpan())
                ? Outcome<Photo>.Of(kept)
                : Outcome<Photo>.Refused(
                    InputProblem.Of("id", own.ToString(), $"another photo carries this id; each needs its own")
                );
        }
        if (list.Count >= Photo.MostOfAJob)
            return Outcome<Photo>.Refused(
                InputProblem.Of(
                    "photo",
                    Phrase.Of($"photo {list.Count + 1} of this job"),
                    $"at most {Photo.MostOfAJob} of a job"
                )
            );
        if (list.Count(there => there.Entry == entry) >= Photo.MostOfAnEntry)
            return Outcome<Photo>.Refused(
                InputProblem.Of(
                    "photo",
                    Phrase.Of($"photo {Photo.MostOfAnEntry + 1} of this entry"),
                    $"at most {Photo.MostOfAnEntry} with one entry"
                )
            );
        var now = Now;
        var photo = new Photo(id ?? ids.NextId(now), entry, now, body);
        await store.AddPhotoAsync(record.Job.Id, photo, cancellation).ConfigureAwait(false);
        return Outcome<Photo>.Of(photo);
    }

    /// <summary>Which photos a job has: the id of each, and the entry it belongs to.</summary>
    public Task<IReadOnlyList<(Guid Photo, Guid Entry)>> PhotoListAsync(
        JobRecord record,
        CancellationToken cancellation = default
    )
    {
        ArgumentNullException.ThrowIfNull(record);
        return store.PhotoListAsync(record.Job.Id, cancellation);
    }

    /// <summary>The photos of a job, with their bytes.</summary>
    public Task<IReadOnlyList<Photo>> PhotosAsync(JobRecord record, CancellationToken cancellation = default)
    {
        ArgumentNullException.ThrowIfNull(record);
        return store.PhotosAsync(record.Job.Id, cancellation);
    }

    public Task<Photo?> PhotoAsync(JobRecord record, Guid id, CancellationToken cancellation = default)
    {
        ArgumentNullException.ThrowIfNull(record);
        return store.PhotoAsync(record.Job.Id, id, cancellation);
    }

    /// <summary>The whole job as text in the documented format, with its photos.</summary>
    public async Task<string> ExportAsync(JobRecord record, CancellationToken cancellation = default) =>
        Export(record with { Photos = [.. await PhotosAsync(record, cancellation).ConfigureAwait(false)] });
}
