using System.Diagnostics;
using System.Globalization;
using Microsoft.Data.Sqlite;

namespace Tightcold.Trials.Halfway;

/// <summary>Data of an earlier schema whose upgrade is killed are brought up to date by the next start, and say what
/// they would have said without.</summary>
internal sealed class UpgradeTrial(string root) : HalfwayTrial(root)
{
    /// <summary>The old file has three jobs; so many times as many make an upgrade long enough to be met.</summary>
    private const int Copies = 60;
    private SortedDictionary<int, string> wanted = [];
    private int all;

    private string Old => Path.Combine(Root, "old.db");
    private string File => Path.Combine(Data, "tightcold.db");

    public static async Task<HalfwayTrial> PrepareAsync(string root)
    {
        var trial = new UpgradeTrial(root);
        System.IO.File.Copy(Path.Combine(AppContext.BaseDirectory, "OldFiles", "1-first.db"), trial.Old);
        await MultiplyAsync(trial.Old).ConfigureAwait(false);
        await trial.ResetAsync(0).ConfigureAwait(false);
        trial.wanted = await Workplace.ExportsAsync(trial.Data).ConfigureAwait(false);
        trial.all = trial.Steps();
        return trial;
    }

    /// <summary>Every car, job and entry again under ids of its own.</summary>
    private static async Task MultiplyAsync(string file)
    {
        using var connection = new SqliteConnection($"Data Source={file};Pooling=False");
        await connection.OpenAsync().ConfigureAwait(false);
        using var command = connection.CreateCommand();
        var sql = new System.Text.StringBuilder("BEGIN;");
        for (var copy = 1; copy < Copies; copy++)
        {
            string Id(string column) =>
                string.Create(CultureInfo.InvariantCulture, $"printf('%04X', {copy}) || substr({column}, 5)");
            sql.Append(
                CultureInfo.InvariantCulture,
                $"""
                INSERT INTO cars SELECT {Id(
                    "id"
                )}, replace(fields_json, '"label":"', '"label":"{copy} ') FROM cars WHERE rowid <= 3;
                INSERT INTO jobs SELECT {Id("id")}, {Id("car_id")}, number + {3
                    * copy}, complaint, opened_at, seed, kits_since FROM jobs WHERE rowid <= 3;
                INSERT INTO job_kits SELECT {Id("job_id")}, kit_id, body_json FROM job_kits WHERE rowid <= 4;
                INSERT INTO entries SELECT {Id("id")}, {Id(
                    "job_id"
                )}, kind, observed_at, written_at, who, CASE WHEN supersedes IS NULL THEN NULL ELSE {Id(
                    "supersedes"
                )} END, reason, fields_json FROM entries WHERE rowid <= 76;
                """
            );
        }
        command.CommandText = sql.Append("COMMIT;").ToString();
        await command.ExecuteNonQueryAsync().ConfigureAwait(false);
    }

    public override Task ResetAsync(int round)
    {
        Clear(Data);
        Directory.CreateDirectory(Data);
        System.IO.File.Copy(Old, File);
        return Task.CompletedTask;
    }

    public override Process Start() => RealProgram.Start(Data, "job", "list");

    public override bool HasBegun() => System.IO.File.Exists(File + "-wal") && Steps() > 1;

    /// <summary>Some steps are there, and not all that the program knows or not all chains.</summary>
    public override bool IsHalfway() => Steps() is > 1 and var steps && (steps < all || Count(Unchained) > 0);

    private const string Unchained = "SELECT COUNT(*) FROM entries WHERE digest = ''";

    private int Steps() => Count("SELECT COUNT(*) FROM __EFMigrationsHistory");

    private int Count(string question)
    {
        try
        {
            using var connection = new SqliteConnection($"Data Source={File};Pooling=False;Default Timeout=1");
            connection.Open();
            using var command = connection.CreateCommand();
            command.CommandText = question;
            return Convert.ToInt32(command.ExecuteScalar(), CultureInfo.InvariantCulture);
        }
        catch (SqliteException)
        {
            // Locked by the upgrade at this moment.
            return 0;
        }
    }

    public override async Task<IReadOnlyList<string>> JudgeAsync() =>
        [
            .. await Workplace.TroublesAsync(Data).ConfigureAwait(false),
            .. Differences(wanted, await Workplace.ExportsAsync(Data).ConfigureAwait(false)),
        ];
}
