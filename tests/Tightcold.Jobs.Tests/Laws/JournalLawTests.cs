using CsCheck;
using Tightcold.Jobs.Entries;
using Tightcold.Jobs.Fields;
using Tightcold.Jobs.Journals;
using static Tightcold.Jobs.Tests.SomeEntries;

namespace Tightcold.Jobs.Tests.Laws;

/// <summary>What must hold for every journal, whatever is in it.</summary>
public sealed class JournalLawTests
{
    private static IEnumerable<Guid> Ids(IEnumerable<Entry> entries) => entries.Select(entry => entry.Id);

    [Fact]
    public void Of_entries_that_correct_each_other_at_most_one_counts() =>
        Corrected.Sample(entries =>
        {
            var journal = JournalOf(entries);
            Guid Root(Entry entry) =>
                entry.Supersedes is { } old && journal.Find(old) is { } earlier ? Root(earlier) : entry.Id;
            Assert.All(journal.Standing.GroupBy(Root), tree => Assert.Single(tree));
        });

    [Fact]
    public void Striking_an_entry_leaves_the_journal_as_if_it_had_never_been_written() =>
        Gen.Select(Corrected, Gen.Int[0, 13], Gen.Guid)
            .Sample(
                (entries, which, id) =>
                {
                    var target = entries[which % entries.Length];
                    var strike = new Entry(
                        id,
                        EntryKinds.Struck,
                        Noon.AddDays(1),
                        Noon.AddDays(1),
                        "Ada",
                        FieldBag.Empty,
                        target.Id,
                        "wrong car"
                    );
                    var gone = new HashSet<Guid> { target.Id };
                    while (
                        entries.FirstOrDefault(entry =>
                            !gone.Contains(entry.Id) && entry.Supersedes is { } old && gone.Contains(old)
                        )
                            is { } follower
                    )
                        gone.Add(follower.Id);

                    Assert.Equal(
                        Ids(JournalOf(entries.Where(entry => !gone.Contains(entry.Id))).Standing),
                        Ids(JournalOf([.. entries, strike]).Standing)
                    );
                }
            );

    [Fact]
    public void A_strike_that_is_struck_itself_is_taken_back() =>
        Gen.Select(Corrected, Gen.Int[0, 13], Gen.Guid, Gen.Guid)
            .Sample(
                (entries, which, first, second) =>
                {
                    var target = entries[which % entries.Length];
                    var strike = new Entry(
                        first,
                        EntryKinds.Struck,
                        Noon.AddDays(1),
                        Noon.AddDays(1),
                        "Ada",
                        FieldBag.Empty,
                        target.Id,
                        "wrong car"
                    );
                    var back = new Entry(
                        second,
                        EntryKinds.Struck,
                        Noon.AddDays(2),
                        Noon.AddDays(2),
                        "Ada",
                        FieldBag.Empty,
                        strike.Id,
                        "right car after all"
                    );
                    Assert.Equal(Ids(JournalOf(entries).Standing), Ids(JournalOf([.. entries, strike, back]).Standing));
                }
            );

    [Fact]
    public void What_is_struck_stays_visible() =>
        Corrected.Sample(entries =>
        {
            var journal = JournalOf(entries);
            Assert.Equal(entries.Length, journal.All.Length);
            Assert.All(journal.All.Where(entry => entry.Kind != EntryKinds.Struck), entry =>
                Assert.Equal(!journal.Standing.Contains(entry), journal.IsStruck(entry.Id))
            );
        });

    [Fact]
    public void The_order_of_writing_down_does_not_matter() =>
        Gen.Select(Corrected, Gen.Int)
            .Sample(
                (entries, seed) =>
                {
                    var shuffled = entries.OrderBy(entry => HashCode.Combine(entry.Id, seed)).ToArray();
                    var (one, other) = (JournalOf(entries), JournalOf(shuffled));
                    Assert.Equal(one.All, other.All);
                    Assert.Equal(one.Standing, other.Standing);
                }
            );

    [Fact]
    public void The_order_of_observing_decides_and_equal_times_go_by_the_order_of_writing() =>
        Corrected.Sample(entries =>
        {
            var all = JournalOf(entries).All;
            foreach (var (before, after) in all.Zip(all.Skip(1)))
            {
                Assert.True(before.ObservedAt <= after.ObservedAt);
                if (before.ObservedAt == after.ObservedAt)
                    Assert.True(before.WrittenAt <= after.WrittenAt);
                if (before.ObservedAt == after.ObservedAt && before.WrittenAt == after.WrittenAt)
                    Assert.True(before.Id.CompareTo(after.Id) < 0);
            }
        });

    [Fact]
    public void Two_devices_lose_nothing_and_double_nothing() =>
        Gen.Select(Corrected, Gen.Int[0, 14], Gen.Int[0, 14])
            .Sample(
                (entries, from, to) =>
                {
                    var phone = JournalOf(entries.Take(from));
                    var laptop = JournalOf(entries.Skip(Math.Min(to, from)));
                    var there = phone.Union(laptop.All).Journal!;
                    var back = laptop.Union(phone.All).Journal!;

                    Assert.Equal(entries.Length, there.All.Length);
                    Assert.Equal(there.All, back.All);
                    Assert.Equal(there.Standing, back.Standing);
                    Assert.Equal(there.All, there.Union(phone.All).Journal!.All);
                }
            );

    [Fact]
    public void Corrections_in_a_circle_are_refused() =>
        Gen.Select(Any.Array[1, 8], Gen.Int[0, 7])
            .Sample(
                (entries, start) =>
                {
                    var ring = entries.DistinctBy(entry => entry.Id).ToArray();
                    var circle = ring.Select(
                        (entry, index) =>
                            entry with
                            {
                                Supersedes = ring[(index + 1) % ring.Length].Id,
                                Reason = "misread",
                            }
                    );
                    var (journal, problems) = Journal.Create(circle);
                    Assert.Null(journal);
                    Assert.Contains(problems, problem => problem.Field == "supersedes");
                    _ = start;
                }
            );

    [Fact]
    public void One_id_with_two_contents_is_refused() =>
        Any.Sample(entry =>
        {
            var (journal, problems) = Journal.Create([entry, entry with { Who = entry.Who + "!" }]);
            Assert.Null(journal);
            Assert.Equal("id", Assert.Single(problems).Field);
        });
}
