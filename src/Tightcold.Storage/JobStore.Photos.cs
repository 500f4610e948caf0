using Microsoft.EntityFrameworkCore;
using Tightcold.Jobs.Journals;
using Tightcold.Jobs.Photos;
using Tightcold.Quantities;
using Tightcold.Storage.Mapping;

namespace Tightcold.Storage;

public sealed partial class JobStore
{
    public Task AddPhotoAsync(Guid jobId, Photo photo, CancellationToken cancellation) =>
        Writing(
            async database =>
            {
                await engine.LockJobAsync(database, jobId, cancellation).ConfigureAwait(false);
                if (
                    !await database
                        .Entries.AnyAsync(entry => entry.Id == photo.Entry && entry.JobId == jobId, cancellation)
                        .ConfigureAwait(false)
                )
                    throw new StoreException(
                        Phrase.Of($"The entry {photo.Entry.ToString()} is not in {Name}; no photo was added.")
                    );
                await AddPhotosAsync(database, jobId, [photo], cancellation).ConfigureAwait(false);
                return true;
            },
            cancellation
        );

    public Task<IReadOnlyList<Photo>> PhotosAsync(Guid jobId, CancellationToken cancellation) =>
        Guarded<IReadOnlyList<Photo>>(
            async database =>
                [
                    .. (
                        await database
                            .Photos.AsNoTracking()
                            .Where(photo => photo.JobId == jobId)
                            .ToListAsync(cancellation)
                            .ConfigureAwait(false)
                    )
                        .OrderBy(photo => photo.KeptAt)
                        .ThenBy(photo => photo.Id)
                        .Select(Read),
                ],
            cancellation
        );

    public Task<IReadOnlyList<(Guid Photo, Guid Entry)>> PhotoListAsync(Guid jobId, CancellationToken cancellation) =>
        Guarded<IReadOnlyList<(Guid Photo, Guid Entry)>>(async database => [.. (
                        await database
                            .Photos.AsNoTracking()
                            .Where(photo => photo.JobId == jobId)
                            .Select(photo => new
                            {
                                photo.Id,
                                photo.EntryId,
                                photo.KeptAt,
                            })
                            .ToListAsync(cancellation)
                            .ConfigureAwait(false)
                    ).OrderBy(photo => photo.KeptAt).ThenBy(photo => photo.Id).Select(photo => (photo.Id, photo.EntryId))], cancellation);

    public Task<Photo?> PhotoAsync(Guid jobId, Guid id, CancellationToken cancellation) =>
        Guarded(
            async database =>
                await database
                    .Photos.AsNoTracking()
                    .FirstOrDefaultAsync(photo => photo.Id == id && photo.JobId == jobId, cancellation)
                    .ConfigureAwait(false)
                    is { } row
                    ? Read(row)
                    : null,
            cancellation
        );

    private async Task AddPhotosAsync(
        JournalDatabase database,
        Guid jobId,
        IReadOnlyCollection<Photo> photos,
        CancellationToken cancellation
    )
    {
        foreach (var photo in photos)
        {
            var row = new PhotoRow
            {
                Id = photo.Id,
                JobId = jobId,
                EntryId = photo.Entry,
                KeptAt = photo.KeptAt,
                BodyBase64 = Convert.ToBase64String(photo.Body.AsSpan()),
            };
            row.Digest = RowSum.Of(row);
            var there = await database
                .Photos.AsNoTracking()
                .FirstOrDefaultAsync(known => known.Id == photo.Id, cancellation)
                .ConfigureAwait(false);
            if (there is null)
                database.Photos.Add(row);
            // Sent again it may come later; what was kept first counts.
            else if (
                there.JobId != jobId
                || there.EntryId != row.EntryId
                || !string.Equals(there.BodyBase64, row.BodyBase64, StringComparison.Ordinal)
            )
                throw new StoreException(
                    Phrase.Of(
                        $"Another photo with the id {photo.Id.ToString()} is in {Name} already; nothing was added."
                    )
                );
        }
    }

    private static Photo Read(PhotoRow row)
    {
        var bytes = new byte[(row.BodyBase64.Length * 3 / 4) + 3];
        if (!Convert.TryFromBase64String(row.BodyBase64, bytes, out var length))
            throw new StoreException(Phrase.Of($"The photo {row.Id.ToString()} cannot be read: it is damaged."));
        return new(row.Id, row.EntryId, row.KeptAt, [.. bytes.AsSpan(0, length)]);
    }

    /// <summary>Every photo against its sum, one at a time: together they may be large.</summary>
    private static async Task<(List<Phrase> Unreadable, List<Phrase> Changed)> PhotosCheckAsync(
        JournalDatabase database,
        CancellationToken cancellation
    )
    {
        var (unreadable, changed) = (new List<Phrase>(), new List<Phrase>());
        try
        {
            await foreach (
                var row in database
                    .Photos.AsNoTracking()
                    .AsAsyncEnumerable()
                    .WithCancellation(cancellation)
                    .ConfigureAwait(false)
            )
                if (row.Digest != RowSum.Of(row))
                    changed.Add(Phrase.Of($"The photo {row.Id.ToString()} is not as it was kept."));
        }
        catch (Exception trouble) when (BadCell.Is(trouble))
        {
            unreadable.Add(
                Phrase.Of($"A photo has a damaged time or id ({Phrase.Verbatim(trouble.Message.TrimEnd('.'))}).")
            );
        }
        return (unreadable, changed);
    }
}
