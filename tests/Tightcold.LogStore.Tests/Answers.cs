using System.Globalization;
using System.Text;
using Tightcold.Jobs.Journals;
using Tightcold.Jobs.Json;

namespace Tightcold.LogStore.Tests;

/// <summary>Every question that a store can be asked, and what it answers, as text: two stores that hold the same say
/// the same to the last letter.</summary>
internal static class Answers
{
    private static CancellationToken Stop => TestContext.Current.CancellationToken;

    /// <param name="words">What is searched for.</param>
    /// <param name="jobs">Ids of jobs that may be there.</param>
    public static async Task<string> OfAsync(
        IJobStore store,
        IReadOnlyList<string> words,
        IReadOnlyList<Guid> jobs,
        IReadOnlyList<Guid> cars
    )
    {
        var said = new StringBuilder();
        void Say(FormattableString line) => said.Append(line.ToString(CultureInfo.InvariantCulture)).Append('\n');
        foreach (var car in await store.CarsAsync(Stop))
            Say($"car {car.Id} {JobDocument.WriteCar(car).ToJsonString()}");
        foreach (var word in words)
        {
            Say($"cars with {word}: {Ids((await store.CarsAsync(word, 0, 9, Stop)).Select(car => car.Id))}");
            Say($"jobs with {word}: {Found(await store.JobsAsync(new() { Words = word }, Stop))}");
            Say($"notes with {word}: {Found(await store.JobsAsync(new() { Words = word, InNotes = true }, Stop))}");
        }
        Say($"second car: {Ids((await store.CarsAsync("", 1, 1, Stop)).Select(car => car.Id))}");
        foreach (var id in cars)
        {
            Say($"car {id}: {(await store.CarAsync(id, Stop))?.Label}");
            Say($"its jobs: {Found(await store.JobsAsync(new() { CarId = id, Most = 2 }, Stop))}");
            var records = new List<int>();
            await foreach (var record in store.RecordsAsync(id, null, Stop))
                records.Add(record.Job.Number);
            Say($"its records: {string.Join(' ', records)}");
        }
        foreach (var kit in await store.KitsAsync(Stop))
            Say($"kit {JobDocument.WriteKit(kit).ToJsonString()}");
        foreach (var state in new[] { null, "open", "waiting", "closed" })
        foreach (var before in new int?[] { null, 3 })
        foreach (var most in new[] { 0, 2, 50 })
        {
            var search = new JobSearch
            {
                State = state,
                Before = before,
                Most = most,
            };
            Say($"{state} before {before} at most {most}: {Found(await store.JobsAsync(search, Stop))}");
        }
        foreach (var (state, count) in (await store.CountsAsync(Stop)).OrderBy(one => one.Key, StringComparer.Ordinal))
            Say($"{state}: {count}");
        await foreach (var record in store.RecordsAsync(null, null, Stop))
            await SayAsync(record);
        for (var number = 0; number < 12; number++)
        {
            Say($"entries of {number}: {await store.EntryCountAsync(number, Stop)}");
            if (await store.RecordAsync(number, Stop) is { } record)
                await SayAsync(record);
            foreach (var use in await store.ContainerUsesAsync(number, 3, Stop))
                Say($"uses of {use.Job} for {number}: {Ids(use.Journal.All.Select(entry => entry.Id))}");
        }
        foreach (var job in jobs)
        foreach (var (photo, entry) in await store.PhotoListAsync(job, Stop))
            Say($"photo of {job}: {photo} {entry} {(await store.PhotoAsync(job, photo, Stop))!.Digest}");
        Say($"stamps for {string.Join(' ', (await store.StampsAsync(Stop)).Keys.Order())}");
        return said.ToString();

        async Task SayAsync(JobRecord record)
        {
            var photos = await store.PhotosAsync(record.Job.Id, Stop);
            Say($"{JobDocument.Write(record with { Photos = [.. photos] })}");
        }
    }

    private static string Ids(IEnumerable<Guid> ids) => string.Join(' ', ids);

    private static string Found(JobsFound found) => $"{string.Join(' ', found.Jobs)} more: {found.More}";
}
