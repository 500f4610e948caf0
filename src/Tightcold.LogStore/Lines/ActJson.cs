using System.Collections.Immutable;
using System.Text.Json;
using System.Text.Json.Nodes;
using Tightcold.Jobs.Fields;
using Tightcold.Jobs.Json;
using Tightcold.Quantities;

namespace Tightcold.LogStore.Lines;

/// <summary>An act as properties of its line and back. Car, kit, job and entry are written as the job file writes
/// them.</summary>
internal static class ActJson
{
    private const string Car = "car",
        Kit = "kit",
        Job = "job",
        JobCar = "job-car",
        Anew = "anew",
        KitsSince = "kits-since",
        Kits = "kits",
        Entries = "entries",
        Photos = "photos";

    public static void Write(LogAct act, JsonObject line)
    {
        if (act.Car is { } car)
            line[Car] = JobDocument.WriteCar(car);
        if (act.Kit is { } kit)
            line[Kit] = JobDocument.WriteKit(kit);
        if (act.Job is { } job)
        {
            line[Job] = JobDocument.WriteJob(job);
            line[JobCar] = job.CarId.ToString();
        }
        if (act.Anew)
            line[Anew] = true;
        if (act.KitsSince is { } since)
            line[KitsSince] = JobDocument.Stamp(since);
        if (!act.Brought.IsEmpty)
            line[Kits] = new JsonArray([.. act.Brought.Select(JobDocument.WriteKit)]);
        if (!act.Entries.IsEmpty)
            line[Entries] = new JsonArray([.. act.Entries.Select(JobDocument.WriteEntry)]);
        if (!act.Photos.IsEmpty)
            line[Photos] = new JsonArray([.. act.Photos.Select(Photo)]);
    }

    /// <summary>The act, or why this program does not understand it.</summary>
    /// <param name="of">Whose the line is, by its own word.</param>
    public static (LogAct? Act, Phrase? Trouble) Read(JsonElement line, ImmutableArray<LogSubject> of)
    {
        var troubles = new List<Phrase>();
        T? Taken<T>((T? Value, IReadOnlyList<InputProblem> Problems) read)
            where T : class
        {
            troubles.AddRange(read.Problems.Select(problem => problem.Sentence));
            return read.Value;
        }
        ImmutableArray<T> Each<T>(JsonElement list, Func<JsonElement, T?> read)
            where T : class
        {
            if (list.ValueKind != JsonValueKind.Array)
                troubles.Add("a list in brackets is needed.");
            return troubles.Count > 0 ? [] : [.. list.EnumerateArray().Select(read).OfType<T>()];
        }
        var act = new LogAct { OfJob = of.FirstOrDefault(subject => subject.What == LogSubject.Job) };
        foreach (var part in line.EnumerateObject())
            switch (part.Name)
            {
                case Car:
                    act = act with { Car = Taken(JobDocument.ReadCar(part.Value)) };
                    break;
                case Kit:
                    act = act with { Kit = Taken(JobDocument.ReadKit(part.Value)) };
                    break;
                case Job:
                    if (line.TryGetProperty(JobCar, out var jobCar) && Id(jobCar) is { } carId)
                        act = act with { Job = Taken(JobDocument.ReadJob(part.Value, carId)) };
                    else
                        troubles.Add("the car of the job is missing.");
                    break;
                case Anew:
                    act = act with { Anew = part.Value.ValueKind == JsonValueKind.True };
                    break;
                case KitsSince:
                    act = act with { KitsSince = Moment(part.Value) };
                    if (act.KitsSince is null)
                        troubles.Add("a moment is needed.");
                    break;
                case Kits:
                    act = act with { Brought = Each(part.Value, at => Taken(JobDocument.ReadKit(at))) };
                    break;
                case Entries:
                    act = act with { Entries = Each(part.Value, at => Taken(JobDocument.ReadEntry(at))) };
                    break;
                case Photos:
                    act = act with { Photos = Each(part.Value, ReadPhoto) };
                    if (
                        act.Photos.Length
                        != (part.Value.ValueKind == JsonValueKind.Array ? part.Value.GetArrayLength() : 0)
                    )
                        troubles.Add("a photo is described otherwise than here.");
                    break;
                case JobCar:
                case LogLine.DigestName:
                case LogLine.OfName:
                case LogLine.NumberName:
                case LogLine.BeforeName:
                case LogLine.AfterName:
                case LogLine.AgainName:
                    break;
                default:
                    troubles.Add(Phrase.Of($"“{Phrase.Verbatim(Quote.Beginning(part.Name, 40))}” is not known here."));
                    break;
            }
        if (
            !of.ToHashSet().SetEquals(act.Subjects)
            || act.Job is { } opened && act.OfJob != LogSubject.Of(opened)
            || act.OfJob is null && act.SaysOfAJob
        )
            troubles.Add("it says that it is of another than it is.");
        return troubles.Count > 0 ? (null, troubles[0]) : (act, null);
    }

    private static JsonNode Photo(PhotoHead photo) =>
        new JsonObject
        {
            ["id"] = photo.Id.ToString(),
            ["entry"] = photo.Entry.ToString(),
            ["kept-at"] = JobDocument.Stamp(photo.KeptAt),
            ["bytes"] = photo.Length,
            ["sha-256"] = photo.Digest,
        };

    private static PhotoHead? ReadPhoto(JsonElement at) =>
        at.ValueKind == JsonValueKind.Object
        && at.TryGetProperty("id", out var id)
        && Id(id) is { } photoId
        && at.TryGetProperty("entry", out var entry)
        && Id(entry) is { } entryId
        && at.TryGetProperty("kept-at", out var kept)
        && Moment(kept) is { } moment
        && at.TryGetProperty("bytes", out var bytes)
        && bytes.ValueKind == JsonValueKind.Number
        && bytes.TryGetInt32(out var length)
        && length >= 0
        && at.TryGetProperty("sha-256", out var digest)
        && digest.ValueKind == JsonValueKind.String
            ? new(photoId, entryId, moment, length, digest.GetString()!)
            : null;

    private static Guid? Id(JsonElement at) =>
        at.ValueKind == JsonValueKind.String && Guid.TryParseExact(at.GetString(), "D", out var id) ? id : null;

    private static DateTimeOffset? Moment(JsonElement at) =>
        at.ValueKind == JsonValueKind.String && at.TryGetDateTimeOffset(out var moment) ? moment : null;
}
