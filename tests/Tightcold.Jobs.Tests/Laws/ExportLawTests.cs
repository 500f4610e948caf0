using CsCheck;
using Tightcold.Jobs.Cars;
using Tightcold.Jobs.Json;
using Tightcold.Jobs.Kits;
using static Tightcold.Jobs.Tests.SomeEntries;

namespace Tightcold.Jobs.Tests.Laws;

/// <summary>A job that leaves as a file comes back the same.</summary>
public sealed class ExportLawTests
{
    [Fact]
    public void Replaying_an_export_gives_the_same_job_to_the_last_bit() =>
        Gen.Select(Corrected, Bag(Car.Schema), Bag(Kit.Schema), Gen.Guid)
            .Sample(
                (entries, car, kit, id) =>
                {
                    var record = Record(JournalOf(entries), car, [new Kit(id, Noon, kit, [])]);
                    var text = JobDocument.Write(record);
                    var (back, problems) = JobDocument.Read(text);

                    Assert.Empty(problems);
                    Assert.Equal(record.Journal.All, back!.Journal.All);
                    Assert.Equal(record.Car, back.Car);
                    Assert.Equal(record.Job, back.Job);
                    Assert.Equal(record.Kits[0].Fields, back.Kits[0].Fields);
                    Assert.Equal(text, JobDocument.Write(back));
                }
            );

    [Fact]
    public void Every_kind_of_entry_survives_the_way_through_a_line_of_text() =>
        Any.Sample(entry =>
        {
            var (back, problems) = JobDocument.ReadEntry(JobDocument.WriteEntry(entry).ToJsonString());
            Assert.Empty(problems);
            Assert.Equal(entry, back);
            Assert.Equal(entry.ObservedAt.Offset, back!.ObservedAt.Offset);
        });

    [Fact]
    public void A_file_cut_short_anywhere_is_refused_and_never_half_taken() =>
        Gen.Select(Corrected, Gen.Double[0, 1])
            .Sample(
                (entries, share) =>
                {
                    var text = JobDocument.Write(Record(JournalOf(entries))).TrimEnd();
                    var (record, problems) = JobDocument.Read(text[..(int)(share * (text.Length - 1))]);
                    Assert.Null(record);
                    Assert.Single(problems);
                }
            );

    [Fact]
    public void Any_garbage_is_refused_without_a_crash() =>
        Gen.String.Sample(text =>
        {
            var (record, problems) = JobDocument.Read(text);
            Assert.Null(record);
            Assert.NotEmpty(problems);
        });
}
