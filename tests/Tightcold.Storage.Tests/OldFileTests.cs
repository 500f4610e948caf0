using Tightcold.App.Books;
using Tightcold.App.Desk;
using Tightcold.Jobs.Journals;

namespace Tightcold.Storage.Tests;

/// <summary>Data files as earlier programs left them (OldFiles/README.md tells how each was made), with every job as
/// those programs exported it.</summary>
public sealed class OldFileTests : IDisposable
{
    private readonly TemporaryFolder folder = new();

    public void Dispose() => folder.Dispose();

    private static CancellationToken Stop => TestContext.Current.CancellationToken;

    private static string Old(string name) => Path.Combine(AppContext.BaseDirectory, "OldFiles", name);

    public static TheoryData<string> Files() =>
        [.. Directory.EnumerateFiles(Old(""), "*.db").Select(file => Path.GetFileNameWithoutExtension(file)!)];

    [Theory]
    [MemberData(nameof(Files))]
    public async Task A_file_of_an_earlier_schema_is_upgraded_and_says_the_same(string name)
    {
        File.Copy(Old(name + ".db"), DataFolder.DataFile(folder.Path));
        using var store = await JobStore.OpenAsync(folder.Path, Stop);
        var exports = Directory.EnumerateFiles(Old(""), name + ".job-*.json").ToList();
        Assert.NotEmpty(exports);
        var check = await store.CheckAsync(LedgerClosure.Of, Stop);
        Assert.Empty(check.All);
        Assert.Equal(exports.Count, check.Jobs);
        foreach (var export in exports)
        {
            var number = int.Parse(
                Path.GetFileNameWithoutExtension(export).Split('-')[^1],
                System.Globalization.CultureInfo.InvariantCulture
            );
            var record = (await store.RecordAsync(number, Stop))!;
            // Before there were chains, and without them, every letter is the same; since then with them.
            var then = await File.ReadAllTextAsync(export, Stop);
            Assert.Equal(
                then,
                JobDesk.Export(
                    then.Contains("\"chain\": [", StringComparison.Ordinal) ? record : record with { Chain = [] }
                )
            );
            Assert.Equal(record.Journal.All.Length, record.Chain.Length);
            Assert.Null(JournalChain.Broken(record));
            // A file from before there were chains is still taken in, and has nothing to add.
            Assert.Empty(Jobs.Json.JobDocument.Read(await File.ReadAllTextAsync(export, Stop)).Problems);
        }
        Assert.Equal(2, Assert.Single((await store.JobsAsync(new() { Words = "éclair" }, Stop)).Jobs).Number);
    }

    [Theory]
    [MemberData(nameof(Files))]
    public async Task A_backup_of_an_earlier_schema_can_still_be_restored(string name)
    {
        var report = await Safety.DataRestore.RunAsync(
            new DataPlace(folder.Path, null),
            Old(name + ".db"),
            LedgerClosure.Of,
            DateTimeOffset.UnixEpoch,
            Stop
        );
        Assert.Empty(report.Check.All);
        Assert.Equal(3, report.Check.Jobs);
    }
}
