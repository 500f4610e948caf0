using System.Buffers;
using System.Buffers.Text;
using System.Collections.Immutable;
using System.Globalization;
using Tightcold.Jobs.Photos;
using Tightcold.LogStore.Kept;
using Tightcold.Quantities;

namespace Tightcold.LogStore;

public sealed partial class JobLog
{
    /// <inheritdoc/>
    /// <remarks>A photo that is not as it was kept is left out and named among the <see cref="Damages"/>, so that the
    /// others of the job can still be taken elsewhere.</remarks>
    public Task<IReadOnlyList<Photo>> PhotosAsync(Guid jobId, CancellationToken cancellation) =>
        Asked<IReadOnlyList<Photo>>(() => [.. PhotosOf(jobId).Select(Read).OfType<Photo>()], cancellation);

    public Task<IReadOnlyList<(Guid Photo, Guid Entry)>> PhotoListAsync(Guid jobId, CancellationToken cancellation) =>
        Asked<IReadOnlyList<(Guid Photo, Guid Entry)>>(
            () => [.. PhotosOf(jobId).Select(photo => (photo.Head.Id, photo.Head.Entry))],
            cancellation
        );

    public Task<Photo?> PhotoAsync(Guid jobId, Guid id, CancellationToken cancellation) =>
        Asked(
            () =>
                shelf.Photo(id) is { } photo && photo.JobId == jobId
                    ? Read(photo) ?? throw new LogStoreException(lostPhotos[id].Says)
                    : null,
            cancellation
        );

    /// <summary>Reads every photo again; what is found is among the <see cref="Damages"/> then.</summary>
    public async Task CheckPhotosAsync(CancellationToken cancellation)
    {
        var jobs = await Asked<ImmutableArray<Guid>>(
                () => [.. shelf.Numbered.Values.Select(job => job.Job.Id)],
                cancellation
            )
            .ConfigureAwait(false);
        foreach (var job in jobs)
        {
            await Task.Yield();
            await PhotosAsync(job, cancellation).ConfigureAwait(false);
        }
    }

    private IReadOnlyList<KeptPhoto> PhotosOf(Guid jobId) => shelf.Job(jobId)?.Photos ?? [];

    /// <summary>The photo with its bytes from the file; null when they are not those that were kept.</summary>
    private Photo? Read(KeptPhoto kept)
    {
        var (head, bytes) = (kept.Head, new byte[kept.Head.TextLength]);
        for (var there = 0; there < bytes.Length; )
        {
            var came = file.Read(kept.At + there, bytes.AsSpan(there));
            if (came == 0)
                break;
            there += came;
        }
        if (Base64.IsValid(bytes) && Base64.DecodeFromUtf8InPlace(bytes, out var length) == OperationStatus.Done)
        {
            var photo = new Photo(head.Id, head.Entry, head.KeptAt, [.. bytes.AsSpan(0, length)]);
            if (photo.Digest == head.Digest)
                return photo;
        }
        var job = shelf.Job(kept.JobId)?.Job.Number.ToString(CultureInfo.InvariantCulture) ?? "";
        lostPhotos[head.Id] = new(
            null,
            kept.At,
            Phrase.Of(
                $"The photo {head.Id.ToString()} of job {job} is not as it was kept (byte "
                    + $"{kept.At.ToString(CultureInfo.InvariantCulture)} of the log). It is left out; nothing was "
                    + $"overwritten."
            )
        );
        return null;
    }
}
