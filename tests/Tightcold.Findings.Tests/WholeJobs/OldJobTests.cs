using Tightcold.Jobs.Entries;
using Tightcold.Jobs.Json;

namespace Tightcold.Findings.Tests.WholeJobs;

/// <summary>Jobs as earlier programs wrote them down (OldFiles/README.md of the storage tests).</summary>
public sealed class OldJobTests
{
    private static string Folder => Path.Combine(AppContext.BaseDirectory, "OldFiles");

    public static TheoryData<string> Files() =>
        [
            .. Directory
                .EnumerateFiles(Folder, "*.json")
                .Select(file => Path.GetFileName(file)!)
                .Order(StringComparer.Ordinal),
        ];

    [Theory]
    [MemberData(nameof(Files))]
    public async Task A_job_that_an_earlier_program_wrote_gives_every_finding_and_one_line_of_what_it_waits_for(
        string name
    )
    {
        var text = await File.ReadAllTextAsync(Path.Combine(Folder, name), TestContext.Current.CancellationToken);
        var (record, problems) = JobDocument.Read(text);
        Assert.Empty(problems);
        var picture = new JobPicture(record!);
        var findings = Walk.Of(picture);
        Assert.Equal(Enum.GetValues<Step>(), findings.Select(finding => finding.Step));
        Assert.All(findings, finding => Assert.False(finding.Verdict.IsEmpty));
        // What rests on entries rests on entries of this journal.
        Assert.All(findings.SelectMany(finding => finding.RestsOn), id => Assert.NotNull(record!.Journal.Find(id)));
        Assert.False(Now.NowWords.Of(picture).Waits.IsEmpty);
    }
}
