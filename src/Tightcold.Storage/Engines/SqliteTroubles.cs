using Microsoft.Data.Sqlite;
using Tightcold.Jobs.Journals;
using Tightcold.Quantities;

namespace Tightcold.Storage.Engines;

/// <summary>What a data file has, in our words.</summary>
internal static class SqliteTroubles
{
    /// <summary>What SQLite's result codes mean to a person. Codes: sqlite.org/rescode.html.</summary>
    public static StoreException Of(SqliteException trouble, string path)
    {
        // The log or its index found no room on the disk: an error of reading and writing by its code, a full disk by
        // its cause (SQLITE_IOERR_SHMSIZE; SQLITE_IOERR_WRITE comes as 13 when the system says so).
        var code = trouble.SqliteExtendedErrorCode == 4874 ? 13 : trouble.SqliteErrorCode;
        var (kind, sentence) = code switch
        {
            // 15: many who came and went at once kept it from beginning to read.
            5 or 6 or 15 => (
                StoreTrouble.Busy,
                Phrase.Of(
                    $"The data file {Phrase.Verbatim(path)} is busy: another program holds it; close that one and try again."
                )
            ),
            8 => (
                StoreTrouble.ReadOnly,
                Phrase.Of(
                    $"The data file {Phrase.Verbatim(path)} or its folder is read-only; "
                        + $"make it writable or choose another folder with --data."
                )
            ),
            10 => (
                StoreTrouble.Other,
                Phrase.Of(
                    $"The disk refused to read or write the data file {Phrase.Verbatim(path)}; "
                        + $"check the disk, and copy the file elsewhere first."
                )
            ),
            11 => (
                StoreTrouble.Other,
                Phrase.Of(
                    $"The data file {Phrase.Verbatim(path)} is damaged; it was left as it is. "
                        + $"Copy it away, then put a backup or an exported job in its place."
                )
            ),
            13 => (
                StoreTrouble.Full,
                Phrase.Of($"The disk is full; nothing was written to {Phrase.Verbatim(path)}. Make room and try again.")
            ),
            14 => (
                StoreTrouble.Other,
                Phrase.Of(
                    $"The data file {Phrase.Verbatim(path)} cannot be opened; "
                        + $"check that its folder exists and may be written to, or choose another with --data."
                )
            ),
            26 => (
                StoreTrouble.Other,
                Phrase.Of(
                    $"The file {Phrase.Verbatim(path)} is no Tightcold data file; it was left as it is. Choose another folder with "
                        + $"--data."
                )
            ),
            _ => (
                StoreTrouble.Other,
                Phrase.Of(
                    $"The data file {Phrase.Verbatim(path)} cannot be used (SQLite code {trouble.SqliteErrorCode}: {Phrase.Verbatim(trouble.Message)}); "
                        + $"it was left as it is."
                )
            ),
        };
        return new(kind, sentence, trouble);
    }
}
