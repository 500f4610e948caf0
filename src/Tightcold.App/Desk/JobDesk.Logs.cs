using System.Security.Cryptography;
using Tightcold.App.Gauges;
using Tightcold.Jobs.Entries;
using Tightcold.Jobs.Journals;
using Tightcold.Picture.Pressures;
using Tightcold.Tongues;

namespace Tightcold.App.Desk;

public sealed partial class JobDesk
{
    /// <summary>Takes a gauge's readings in as vacuum readings, all or none.</summary>
    /// <param name="sending">Id of this sending: the same sent again adds nothing.</param>
    public async Task<Outcome<Job>> AddGaugeLogAsync(
        int jobNumber,
        IReadOnlyList<GaugeLog.Line> lines,
        string who,
        Guid sending,
        CancellationToken cancellation = default
    )
    {
        ArgumentNullException.ThrowIfNull(lines);
        if (await store.RecordAsync(jobNumber, cancellation).ConfigureAwait(false) is not { } record)
            return Outcome<Job>.Refused(NoJob(jobNumber));
        var (now, schema) = (Now, EntryKinds.Get(EntryKinds.VacuumReading));
        var entries = new List<Entry>();
        for (var i = 0; i < lines.Count; i++)
        {
            var (bag, problems) = FieldReader.Read(schema, lines[i].Fields, Filed);
            var entry = new Entry(IdOf(sending, i), schema.Name, lines[i].At, now, who.Trim(), bag);
            if (problems.Count == 0)
                problems = EntryRules.Check(record, entry, AirPressure.At(record, entry.ObservedAt).Known);
            var reading = i + 1;
            if (problems.Count > 0)
                return Outcome<Job>.Refused(
                    problems.Select(problem => problem with { Field = Say.It($"reading {reading}, {problem.Field}") })
                );
            entries.Add(entry);
        }
        await store.AddEntriesAsync(record.Job.Id, entries, cancellation).ConfigureAwait(false);
        return Outcome<Job>.Of(record.Job);
    }

    /// <summary>An id for each line of a sending that is the same whenever it is sent.</summary>
    private static Guid IdOf(Guid sending, int line)
    {
        Span<byte> seed = stackalloc byte[20];
        sending.TryWriteBytes(seed);
        System.Buffers.Binary.BinaryPrimitives.WriteInt32LittleEndian(seed[16..], line);
        return new Guid(SHA256.HashData(seed).AsSpan(0, 16));
    }
}
