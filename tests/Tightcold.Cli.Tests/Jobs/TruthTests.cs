using Microsoft.Data.Sqlite;
using Tightcold.Storage;

namespace Tightcold.Cli.Tests.Jobs;

/// <summary>What a person is told when something in the data is not as it was: the chain of a record, a job that cannot be
/// read beside others.</summary>
public sealed class TruthTests : IDisposable
{
    private readonly Desk desk = new();

    public void Dispose() => desk.Dispose();

    private async Task SqlAsync(string sql)
    {
        JobStore.Release();
        await using var connection = new SqliteConnection($"Data Source={desk.File("tightcold.db")};Pooling=False");
        await connection.OpenAsync(TestContext.Current.CancellationToken);
        await using var command = connection.CreateCommand();
        command.CommandText = sql;
        await command.ExecuteNonQueryAsync(TestContext.Current.CancellationToken);
    }

    [Fact]
    public async Task A_digest_from_a_card_is_found_in_the_record_until_somebody_changes_what_it_covers()
    {
        await desk.OpenJobAsync();
        await desk.DoneAsync("job", "add", "1", "note", "text=drier is old");
        await desk.DoneAsync("job", "add", "1", "note", "text=drier changed");
        var chain = (await desk.JsonAsync("job", "chain", "1"))["chain"]!.AsArray();
        var first = chain[0]!["digest"]!.ToString();
        var asOnTheCard = $"{first[..4]}-{first[4..8]}-{first[8..12]}-{first[12..16]}";
        await desk.DoneAsync("job", "print", "1", "--to", desk.File("card.html"));
        var last = chain[1]!["digest"]!.ToString();
        Assert.Contains(
            $"{last[..4]}-{last[4..8]}-{last[8..12]}-{last[12..16]}",
            await File.ReadAllTextAsync(desk.File("card.html"), TestContext.Current.CancellationToken),
            StringComparison.Ordinal
        );
        Assert.Contains(
            $"{asOnTheCard} is the record of its first 1 entries.",
            await desk.DoneAsync("job", "chain", "1", asOnTheCard),
            StringComparison.Ordinal
        );
        await desk.RefusedAsync("8 to 64 digits", "job", "chain", "1", "ab");

        await SqlAsync("UPDATE entries SET fields_json = replace(fields_json, 'old', 'new') WHERE sequence = 1");
        var answer = await desk.RunAsync(["job", "chain", "1"]);
        Assert.Equal(2, answer.Code);
        Assert.Contains("The chain breaks at the entry", answer.Out, StringComparison.Ordinal);
        Assert.Equal(2, (await desk.RunAsync(["check"])).Code);
        // Who makes the whole chain anew is told by the card.
        await SqlAsync("UPDATE entries SET digest = ''");
        answer = await desk.RunAsync(["job", "chain", "1", asOnTheCard]);
        Assert.Equal(2, answer.Code);
        Assert.Contains("is no digest of this record", answer.Out, StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_job_with_a_spoilt_time_is_named_by_ledger_check_and_backup_which_go_on()
    {
        await desk.OpenJobAsync();
        await desk.DoneAsync("job", "add", "1", "note", "text=first");
        await desk.DoneAsync("job", "new", "blue estate", "blows warm again");
        await SqlAsync("UPDATE entries SET written_at = 'yesterday'");
        Assert.Contains("Left out: Job 1 cannot be read", await desk.DoneAsync("ledger"), StringComparison.Ordinal);
        await desk.DoneAsync("job", "show", "2");
        await desk.DoneAsync("job", "findings", "2");
        Assert.Contains("blows warm again", await desk.DoneAsync("job", "list"), StringComparison.Ordinal);
        Assert.Contains("Job 1 cannot be read", (await desk.RunAsync(["check"])).Out, StringComparison.Ordinal);
        Assert.Contains(
            "Job 1 cannot be read",
            await desk.DoneAsync("backup", desk.File("saved.db")),
            StringComparison.Ordinal
        );
        JobStore.Release();
        Assert.Contains(
            "Job 1 cannot be read",
            await desk.DoneAsync("restore", desk.File("saved.db")),
            StringComparison.Ordinal
        );
        var alone = await desk.RunAsync(["job", "show", "1"]);
        Assert.Equal(2, alone.Code);
        Assert.StartsWith("Job 1 cannot be read", alone.Trouble, StringComparison.Ordinal);
    }
}
