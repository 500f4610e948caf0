using Tightcold.Storage;

namespace Tightcold.Cli.Tests.Jobs;

/// <summary>backup, restore and check as a person types them.</summary>
public sealed class SavedTests : IDisposable
{
    private readonly Desk desk = new();

    public void Dispose() => desk.Dispose();

    [Fact]
    public async Task A_job_lost_after_a_backup_comes_back_with_a_restore_and_what_was_there_is_kept()
    {
        await desk.OpenJobAsync();
        await desk.DoneAsync("job", "add", "1", "note", "text=drier is old");
        var before = await desk.DoneAsync("job", "export", "1");
        var saved = await desk.JsonAsync("backup", desk.File("saved.db"));
        Assert.Equal((1, 1, 1), ((int)saved["cars"]!, (int)saved["jobs"]!, (int)saved["entries"]!));
        await desk.DoneAsync("job", "add", "1", "note", "text=written after the backup");

        var restored = await desk.JsonAsync("restore", desk.File("saved.db"));
        Assert.Equal(before, await desk.DoneAsync("job", "export", "1"));
        Assert.True(File.Exists(restored["kept-as"]!.ToString()));

        JobStore.Release();
        await desk.DoneAsync("restore", restored["kept-as"]!.ToString());
        Assert.Contains(
            "written after the backup",
            await desk.DoneAsync("job", "export", "1"),
            StringComparison.Ordinal
        );
    }

    [Fact]
    public async Task A_backup_without_a_name_goes_beside_the_data_under_the_date()
    {
        await desk.OpenJobAsync();
        var saved = await desk.JsonAsync("backup");
        Assert.StartsWith(
            Path.Combine(desk.Folder, "backups", "tightcold-2031-07-04-09"),
            saved["backup"]!.ToString(),
            StringComparison.Ordinal
        );
    }

    [Fact]
    public async Task A_backup_never_writes_over_a_file_and_a_restore_needs_one()
    {
        await desk.OpenJobAsync();
        await File.WriteAllTextAsync(desk.File("mine.txt"), "mine", TestContext.Current.CancellationToken);
        await desk.RefusedAsync("never writes over", "backup", desk.File("mine.txt"));
        Assert.Equal("mine", await File.ReadAllTextAsync(desk.File("mine.txt"), TestContext.Current.CancellationToken));
        await desk.RefusedAsync("there is no such file", "restore", desk.File("nothing.db"));
    }

    [Fact]
    public async Task A_file_that_is_no_backup_is_told_in_one_sentence_and_nothing_changes()
    {
        await desk.OpenJobAsync();
        var before = await desk.DoneAsync("job", "export", "1");
        await File.WriteAllTextAsync(
            desk.File("mine.db"),
            "not a database, but a text that is long enough to be taken for one",
            TestContext.Current.CancellationToken
        );
        var answer = await desk.RunAsync(["restore", desk.File("mine.db")]);
        Assert.Equal(2, answer.Code);
        Assert.Contains(
            "nothing was changed",
            Assert.Single(answer.Trouble.Split('\n', StringSplitOptions.RemoveEmptyEntries)),
            StringComparison.Ordinal
        );
        Assert.Equal(before, await desk.DoneAsync("job", "export", "1"));
    }

    [Fact]
    public async Task A_check_says_what_it_read()
    {
        await desk.OpenJobAsync();
        Assert.Contains("1 car, 1 job, 0 entries", await desk.DoneAsync("check"), StringComparison.Ordinal);
    }

    [Fact]
    public async Task Jobs_are_found_by_words_and_state()
    {
        await desk.OpenJobAsync();
        await desk.DoneAsync("job", "new", "blue estate", "hisses when off");
        await desk.DoneAsync("job", "add", "2", "job-state", "state=waiting", "waiting-for=condenser");
        async Task<int> CountAsync(params string[] words) =>
            (await desk.JsonAsync(["job", "list", .. words]))["jobs"]!.AsArray().Count;
        Assert.Equal(
            (1, 1, 2, 1, 0),
            (
                await CountAsync("--find", "Condenser"),
                await CountAsync("--state", "open"),
                await CountAsync("--find", "estate"),
                await CountAsync("--find", "estate", "--most", "1"),
                await CountAsync("--find", "wagon")
            )
        );
        await desk.RefusedAsync("open, waiting or closed", "job", "list", "--state", "lost");
    }
}
