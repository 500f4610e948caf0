using System.Globalization;
using System.Text.Json;
using Tightcold.Jobs.Json;
using Tightcold.LogStore.Kept;
using Tightcold.LogStore.Lines;
using Tightcold.Quantities;

namespace Tightcold.LogStore.Reading;

/// <summary>Reads a log from its beginning to its end, and finds what is not as it was written and whose it was. Writes
/// nothing.</summary>
internal sealed class Opening
{
    [Said]
    private const string Changed = "a line of it is not as it was written down";

    private readonly List<Piece.Damaged> between = [];
    private readonly List<LogDamage> places = [];
    private Piece.Head? head;
    private bool isLog;

    private Opening() { }

    public Shelf Shelf { get; } = new();

    /// <summary>Damages for which nobody is left out, or it cannot be told who would have to be.</summary>
    public IReadOnlyList<LogDamage> Places => places;

    /// <summary>Where the next line will stand.</summary>
    public LinePlace Next { get; private set; } = LinePlace.First;

    /// <summary>The end that is to be cut; null when the file ends as it should.</summary>
    public Piece.Torn? Torn { get; private set; }

    /// <exception cref="LogStoreException">The file is no log, or a newer program's.</exception>
    public static Opening Of(IGrowingFile file)
    {
        var opening = new Opening();
        foreach (var piece in Pieces.Of(file))
            opening.Take(piece);
        opening.End();
        return opening;
    }

    private void Take(Piece piece)
    {
        switch (piece)
        {
            case Piece.Head first:
                head = first;
                break;
            case Piece.Damaged damaged:
                between.Add(damaged);
                break;
            case Piece.Torn torn:
                Torn = torn;
                break;
            case Piece.Whole whole:
                Take(whole);
                break;
        }
    }

    private void Take(Piece.Whole piece)
    {
        var line = piece.Line;
        isLog |= line.Before == LogLine.HeadDigest;
        Between(line, piece.At);
        Next = line.Next;
        if (line.Act is { } act)
            Shelf.Put(act, piece.At, piece.BodiesAt);
        else
            foreach (var of in line.Of)
                Shelf.Break(
                    of,
                    piece.At,
                    Phrase.Of($"a line of it is not understood here ({line.Trouble ?? Phrase.Empty})")
                );
    }

    /// <summary>What is missing before a line that is whole.</summary>
    private void Between(LogLine line, long at)
    {
        if (line.Before != Next.Before)
        {
            var (told, after) = (Leave(between), LogSubject.AllIn(line.After).ToList());
            foreach (var of in after.Where(of => !told.Contains(of)))
                Shelf.Break(of, at, Changed);
            // The last line that is missing is told by the one behind it in any case.
            var known = Known() + (after.Count == 0 || told.Overlaps(after) ? 0 : 1);
            if (line.Number - Next.Number > known)
                places.Add(Unknown(between.Count > 0 ? between[0].At : at));
        }
        else if (between.Count > 0)
            places.Add(
                new(
                    null,
                    between[0].At,
                    Phrase.Of(
                        $"At byte {between[0].At.ToString(CultureInfo.InvariantCulture)} of the log stands what "
                            + $"belongs to nothing; no line is missing there."
                    )
                )
            );
        between.Clear();
    }

    private HashSet<LogSubject> Leave(IEnumerable<Piece.Damaged> pieces)
    {
        var told = new HashSet<LogSubject>();
        foreach (var piece in pieces)
        foreach (var of in piece.Of)
        {
            Shelf.Break(of, piece.At, Changed);
            told.Add(of);
        }
        return told;
    }

    private void End()
    {
        if (head is not null)
            JudgeHead(head);
        if (between.Count > 0)
            BehindDamage();
        foreach (var job in Shelf.Numbered.Values.Where(job => job.Journal is null).ToList())
            Shelf.Break(LogSubject.Of(job.Job), 0, "its journal contradicts itself");
    }

    /// <summary>The file ends with what cannot be read. The next line stands on that, so that it is known for ever that
    /// something is missing before it, and names whose it was.</summary>
    private void BehindDamage()
    {
        var told = Leave(between);
        var (lines, known) = (between.Max(piece => piece.Number) - Next.Number + 1, Known());
        if (lines is null || lines > known)
            places.Add(Unknown(between[0].At));
        Next = new(
            Next.Number + (lines is null || lines > known ? known + 1 : Math.Max(1, known)),
            LogLine.Hash($"{Next.Before}\ndamaged"),
            [.. told]
        );
    }

    /// <summary>Of so many lines it can be told whose they were: each stretch stands for one.</summary>
    private int Known() => between.Count(piece => !piece.Of.IsEmpty);

    /// <summary>A damaged first line is told from a file that is none of ours by the lines behind it: the first of them
    /// stands on the digest of that line as this version writes it.</summary>
    private void JudgeHead(Piece.Head first)
    {
        if (!isLog)
        {
            var (document, _) = JsonText.Parse(first.Text);
            using (document)
                if (
                    document?.RootElement is { ValueKind: JsonValueKind.Object } root
                    && root.TryGetProperty("format", out var format)
                    && format.ValueKind == JsonValueKind.String
                    && format.GetString() == LogLine.Format
                )
                    throw new LogStoreException(
                        Phrase.Of(
                            $"This log was written by a newer Tightcold; this one reads version {LogLine.Version}. "
                                + $"It was left as it is."
                        )
                    );
            if (Next == LinePlace.First)
                throw new LogStoreException("The file is no Tightcold log; it was left as it is.");
        }
        places.Add(new(null, 0, "The first line of the log is not as it was written; nothing else is missing by it."));
    }

    private static LogDamage Unknown(long at) =>
        new(
            null,
            at,
            Phrase.Of(
                $"From byte {at.ToString(CultureInfo.InvariantCulture)} of the log on something cannot be read, and it "
                    + $"cannot be told of all of it whose it was. Hold the jobs against their cards or exported files."
            )
        );
}
