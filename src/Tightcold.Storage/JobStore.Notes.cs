using System.Collections.Immutable;
using Microsoft.EntityFrameworkCore;
using Tightcold.Jobs.Entries;
using Tightcold.Jobs.Journals;
using Tightcold.Storage.Mapping;

namespace Tightcold.Storage;

public sealed partial class JobStore
{
    /// <summary>Numbers of the jobs whose line and notes together hold all words. A struck note is found too: it is
    /// still there to be read.</summary>
    private static async Task<List<int>> WithNotesAsync(
        JournalDatabase database,
        IQueryable<JobLineRow> lines,
        ImmutableArray<string> words,
        CancellationToken cancellation
    )
    {
        var notes = (
            await database
                .Entries.AsNoTracking()
                .Where(entry => entry.Kind == EntryKinds.Note)
                .Select(entry => new { entry.JobId, entry.FieldsJson })
                .ToListAsync(cancellation)
                .ConfigureAwait(false)
        ).ToLookup(note => note.JobId, note => note.FieldsJson);
        var candidates = await lines
            .Select(line => new
            {
                line.Number,
                line.JobId,
                line.SearchKey,
            })
            .ToListAsync(cancellation)
            .ConfigureAwait(false);
        return
        [
            .. candidates
                .Where(line =>
                {
                    var text = SearchKey.Of(notes[line.JobId].Select(RowText.NoteText).Prepend(line.SearchKey));
                    return words.All(word => text.Contains(word, StringComparison.Ordinal));
                })
                .Select(line => line.Number),
        ];
    }
}
