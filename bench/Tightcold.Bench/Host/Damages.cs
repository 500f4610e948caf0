using Tightcold.Jobs.Journals;
using System.Globalization;
using Microsoft.Data.Sqlite;
using Tightcold.App.Books;
using Tightcold.App.Demo;
using Tightcold.App.Desk;
using Tightcold.Storage;

namespace Tightcold.Bench.Host;

/// <summary>A data file is damaged in one place, many times over, and each time asked: does the check see it, or do all
/// jobs say what they said? See docs/reliability.md.</summary>
internal static class Damages
{
    private static readonly (string Table, string Column)[] Texts =
    [
        ("entries", "fields_json"),
        ("entries", "observed_at"),
        ("entries", "written_at"),
        ("entries", "who"),
        ("entries", "kind"),
        ("entries", "reason"),
        ("entries", "supersedes"),
        ("entries", "digest"),
        ("entries", "id"),
        ("jobs", "complaint"),
        ("jobs", "opened_at"),
        ("jobs", "seed"),
        ("cars", "fields_json"),
        ("kits", "body_json"),
        ("kits", "from_time"),
        ("job_lines", "search_key"),
        ("job_lines", "state"),
        ("job_lines", "opened_at"),
    ];

    /// <returns>False when a damage went unseen, or ended in anything but a sentence.</returns>
    public static async Task<bool> RunAsync(int times, TextWriter to)
    {
        var folder = Directory.CreateTempSubdirectory("tightcold-damage-").FullName;
        try
        {
            var whole = Path.Combine(folder, "whole.db");
            using (var store = await JobStore.OpenAsync(Path.Combine(folder, "data")).ConfigureAwait(false))
            {
                await DemoScenario.PlayAsync(store, null, default).ConfigureAwait(false);
                await store.BackupAsync(whole, null, default).ConfigureAwait(false);
            }
            JobStore.Release();
            var before = await SaidAsync(whole, folder).ConfigureAwait(false);
            var chance = new Random(20310704);
            var (seen, harmless, unseen, crashed) = (0, 0, 0, 0);
            for (var i = 0; i < times; i++)
            {
                var copy = Path.Combine(folder, "copy.db");
                File.Copy(whole, copy, overwrite: true);
                var how = await DamageAsync(copy, chance, i).ConfigureAwait(false);
                string outcome;
                try
                {
                    var after = await SaidAsync(copy, folder).ConfigureAwait(false);
                    outcome =
                        !after.Clean ? "seen"
                        : after.Exports == before.Exports ? "harmless"
                        : "unseen";
                }
                catch (StoreException)
                {
                    outcome = "seen";
                }
#pragma warning disable CA1031 // What else comes out is what is looked for.
                catch (Exception trouble)
#pragma warning restore CA1031
                {
                    to.WriteLine($"{how}: {trouble.GetType().Name} {trouble.Message}");
                    outcome = "crashed";
                }
                if (outcome == "unseen")
                    to.WriteLine($"unseen: {how}");
                _ = outcome switch
                {
                    "seen" => seen++,
                    "harmless" => harmless++,
                    "unseen" => unseen++,
                    _ => crashed++,
                };
            }
            to.WriteLine(
                string.Create(
                    CultureInfo.InvariantCulture,
                    $"{times} damages: {seen} seen, {harmless} changed nothing that a job says, {unseen} unseen, {crashed} crashed"
                )
            );
            return unseen + crashed == 0;
        }
        finally
        {
            JobStore.Release();
            Directory.Delete(folder, recursive: true);
        }
    }

    /// <summary>Every job as it is exported, and whether the check is content.</summary>
    private static async Task<(string Exports, bool Clean)> SaidAsync(string file, string folder)
    {
        var data = Path.Combine(folder, "asked");
        if (Directory.Exists(data))
            Directory.Delete(data, recursive: true);
        Directory.CreateDirectory(data);
        File.Copy(file, DataFolder.DataFile(data));
        try
        {
            using var store = await JobStore.OpenAsync(data).ConfigureAwait(false);
            var check = await store.CheckAsync(LedgerClosure.Of, default).ConfigureAwait(false);
            var exports = new List<string>();
            var leftOut = new List<string>();
            await foreach (var record in store.RecordsAsync(null, leftOut, default).ConfigureAwait(false))
                exports.Add(JobDesk.Export(record));
            return (string.Join('\n', exports), check.IsClean && leftOut.Count == 0);
        }
        finally
        {
            JobStore.Release();
        }
    }

    private static async Task<string> DamageAsync(string file, Random chance, int i)
    {
        var bytes = await File.ReadAllBytesAsync(file).ConfigureAwait(false);
        switch (i % 6)
        {
            case 0:
                var at = chance.Next(bytes.Length);
                bytes[at] ^= (byte)(1 << chance.Next(8));
                await File.WriteAllBytesAsync(file, bytes).ConfigureAwait(false);
                return $"one bit at {at}";
            case 1:
                var (from, length) = (chance.Next(bytes.Length - 600), chance.Next(1, 600));
                chance.NextBytes(bytes.AsSpan(from, length));
                await File.WriteAllBytesAsync(file, bytes).ConfigureAwait(false);
                return $"{length} bytes at {from}";
            case 2:
                var left = chance.Next(bytes.Length);
                await File.WriteAllBytesAsync(file, bytes[..left]).ConfigureAwait(false);
                return $"cut to {left}";
            case 3:
                var table = new[] { "entries", "jobs", "cars", "job_lines" }[chance.Next(4)];
                await RunAsync(
                        file,
                        $"DELETE FROM {table} WHERE rowid = (SELECT rowid FROM {table} ORDER BY random() LIMIT 1)"
                    )
                    .ConfigureAwait(false);
                return $"a row of {table} gone";
            default:
                var (where, column) = Texts[chance.Next(Texts.Length)];
                await ChangeLetterAsync(file, where, column, chance).ConfigureAwait(false);
                return $"a letter of {where}.{column}";
        }
    }

    private static async Task ChangeLetterAsync(string file, string table, string column, Random chance)
    {
        var connection = new SqliteConnection($"Data Source={file};Pooling=False");
        await using (connection.ConfigureAwait(false))
        {
            await connection.OpenAsync().ConfigureAwait(false);
            var command = connection.CreateCommand();
            await using (command.ConfigureAwait(false))
            {
                command.CommandText =
                    $"SELECT rowid, CAST({column} AS TEXT) FROM {table} WHERE {column} IS NOT NULL AND {column} <> '' ORDER BY random() LIMIT 1";
                var reader = await command.ExecuteReaderAsync().ConfigureAwait(false);
                if (!await reader.ReadAsync().ConfigureAwait(false))
                    return;
                var (row, text) = (reader.GetInt64(0), reader.GetString(1).ToCharArray());
                await reader.DisposeAsync().ConfigureAwait(false);
                var at = chance.Next(text.Length);
                text[at] = text[at] == '3' ? '4' : (char)(text[at] + 1);
                command.CommandText =
                    $"PRAGMA foreign_keys=OFF; UPDATE {table} SET {column} = $text WHERE rowid = $row";
                command.Parameters.AddWithValue("$text", new string(text));
                command.Parameters.AddWithValue("$row", row);
                await command.ExecuteNonQueryAsync().ConfigureAwait(false);
            }
        }
    }

    private static async Task RunAsync(string file, string sql)
    {
        var connection = new SqliteConnection($"Data Source={file};Pooling=False");
        await using (connection.ConfigureAwait(false))
        {
            await connection.OpenAsync().ConfigureAwait(false);
            var command = connection.CreateCommand();
            await using (command.ConfigureAwait(false))
            {
                command.CommandText = "PRAGMA foreign_keys=OFF; " + sql;
                await command.ExecuteNonQueryAsync().ConfigureAwait(false);
            }
        }
    }
}
