using System.Text.Json.Nodes;
using CsCheck;
using Tightcold.Jobs.Entries;
using Tightcold.Jobs.Fields;
using Tightcold.Jobs.Journals;
using Tightcold.Jobs.Json;
using static Tightcold.Jobs.Tests.SomeEntries;

namespace Tightcold.Jobs.Tests.Laws;

/// <summary>The chain over a journal: whatever is changed in what was written down shows.</summary>
public sealed class ChainLaws
{
    private static JobRecord Chained(Entry[] entries)
    {
        var record = Record(JournalOf(entries));
        return record with { Chain = JournalChain.Of(record.Job, entries) };
    }

    [Fact]
    public void A_record_fits_its_own_chain_and_comes_back_from_its_file_with_it() =>
        Corrected.Sample(entries =>
        {
            var record = Chained(entries);
            Assert.Null(JournalChain.Broken(record));
            var (read, problems) = JobDocument.Read(JobDocument.Write(record));
            Assert.Empty(problems);
            Assert.Equal(record.Chain, read!.Chain);
        });

    [Fact]
    public void Any_entry_changed_moved_or_taken_out_breaks_the_chain_at_that_place() =>
        Gen.Select(Corrected, Gen.Int[0, 99], Gen.Int[0, 5])
            .Sample(
                (entries, at, how) =>
                {
                    var (record, place) = (Chained(entries), at % entries.Length);
                    var old = entries[place];
                    var changed = how switch
                    {
                        0 => old with { Who = old.Who + "." },
                        1 => old with { ObservedAt = old.ObservedAt.AddTicks(1) },
                        2 => old with
                        {
                            WrittenAt = old.WrittenAt.ToOffset(old.WrittenAt.Offset + TimeSpan.FromHours(1)),
                        },
                        3 => old with { Reason = (old.Reason ?? "") + "x" },
                        4 => old with { Kind = old.Kind == EntryKinds.Note ? EntryKinds.Cost : EntryKinds.Note },
                        _ => old with { Fields = old.Fields.With("text", new FieldValue.Text("another")) },
                    };
                    var broken = JournalChain.Broken(
                        record with
                        {
                            Journal = JournalOf(entries.Select(entry => entry == old ? changed : entry)),
                        }
                    );
                    Assert.Equal(old.Id, broken?.Entry);
                    if (place + 1 < entries.Length)
                    {
                        var chain = record
                            .Chain.SetItem(place, record.Chain[place + 1])
                            .SetItem(place + 1, record.Chain[place]);
                        Assert.NotNull(JournalChain.Broken(record with { Chain = chain }));
                        Assert.NotNull(JournalChain.Broken(record with { Chain = record.Chain.RemoveAt(place) }));
                    }
                }
            );

    [Fact]
    public void The_job_itself_is_the_first_link_and_its_number_is_not_in_it() =>
        Corrected.Sample(entries =>
        {
            var record = Chained(entries);
            Assert.Null(JournalChain.Broken(record with { Job = record.Job with { Number = 99 } }));
            Assert.NotNull(JournalChain.Broken(record with { Job = record.Job with { Complaint = "blows cold" } }));
            Assert.NotNull(
                JournalChain.Broken(
                    record with
                    {
                        Job = record.Job with { OpenedAt = record.Job.OpenedAt.AddTicks(1) },
                    }
                )
            );
        });

    [Theory]
    [InlineData("who", "as it was when the file was written")]
    [InlineData("out", "added or taken out")]
    [InlineData("link", "added or taken out")]
    [InlineData("digest", "as it was when the file was written")]
    [InlineData("complaint", "as it was when the file was written")]
    public void A_file_that_was_changed_by_hand_is_refused_and_without_its_chain_it_is_an_older_file(
        string what,
        string sentence
    )
    {
        var note = new Entry(
            new Guid("aaaaaaaa-0000-0000-0000-000000000001"),
            EntryKinds.Note,
            Noon,
            Noon,
            "Ada",
            FieldBag.Empty.With("text", new FieldValue.Text("first"))
        );
        var file = JsonNode.Parse(
            JobDocument.Write(Chained([note, note with { Id = new("aaaaaaaa-0000-0000-0000-000000000002") }]))
        )!;
        switch (what)
        {
            case "who":
                file["entries"]![0]!["who"] = "Bo";
                break;
            case "out":
                file["entries"]!.AsArray().RemoveAt(0);
                break;
            case "link":
                file["chain"]!.AsArray().RemoveAt(1);
                break;
            case "digest":
                file["chain"]![0]!["digest"] = "00";
                break;
            default:
                file["job"]!["complaint"] = "blows cold";
                break;
        }
        var problem = Assert.Single(JobDocument.Read(file.ToJsonString()).Problems);
        Assert.Equal("$.chain", problem.Field);
        Assert.Contains(sentence, problem.Sentence.ToString(), StringComparison.Ordinal);
        file.AsObject().Remove("chain");
        Assert.Empty(JobDocument.Read(file.ToJsonString()).Problems);
    }

    [Fact]
    public void A_digest_is_what_anybody_can_compute_from_the_job_file()
    {
        // Held to sha256sum over the lines as docs/job-file.md tells them.
        var entry = new Entry(
            new Guid("aaaaaaaa-0000-0000-0000-000000000001"),
            EntryKinds.Note,
            Noon,
            Noon,
            "Ada",
            FieldBag.Empty.With("text", new FieldValue.Text("café"))
        );
        var start = JournalChain.Start(Record(Journal.Empty).Job);
        Assert.Equal("9ba9a9ab39259fbe6cf613844325167c89c1004ccc1996ec06c1e66ad5297bdb", start);
        Assert.Equal(
            "c4e34b3e02bfa016410cd0cca5bce632a41be60adce739d0470a4f73f945e732",
            JournalChain.Next(start, entry)
        );
        Assert.Equal("0123-4567-89ab-cdef", JournalChain.OnCard("0123456789abcdef0011"));
    }
}
