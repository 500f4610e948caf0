using System.Collections.Immutable;
using System.Security.Cryptography;
using System.Text;
using Tightcold.App.Sheets;
using Tightcold.Jobs.Cars;
using Tightcold.Jobs.Entries;
using Tightcold.Jobs.Fields;
using Tightcold.Jobs.Journals;
using Tightcold.Jobs.Kits;
using Tightcold.Picture.Pressures;
using Tightcold.Quantities;

namespace Tightcold.App.Desk;

/// <summary>What came of a spreadsheet.</summary>
/// <param name="Cars">Cars that were not here before.</param>
public sealed record TakenSheet(ImmutableArray<Job> Jobs, ImmutableArray<Car> Cars, int Entries);

public sealed partial class JobDesk
{
    /// <summary>Takes in the jobs of a spreadsheet, all rows or none. The same sheet again is refused; one that was
    /// broken off is finished.</summary>
    /// <param name="tryOnly">Only say what would come of it.</param>
    public async Task<Outcome<TakenSheet>> ImportSheetAsync(
        string text,
        SheetLayout layout,
        string who,
        bool tryOnly,
        CancellationToken cancellation = default
    )
    {
        var (rows, problems) = JobSheet.Read(text, layout);
        if (problems.Count > 0)
            return Outcome<TakenSheet>.Refused(problems);
        var sheet = Convert.ToHexString(SHA256.HashData(Encoding.UTF8.GetBytes(text)));
        var here = (await store.JobsAsync(new JobSearch { Most = int.MaxValue }, cancellation).ConfigureAwait(false))
            .Jobs.Select(job => job.Id)
            .ToHashSet();
        var fresh = rows.Where(row => !here.Contains(IdOf(sheet, row.Line, "job"))).ToList();
        if (fresh.Count == 0)
            return Outcome<TakenSheet>.Refused(
                InputProblem.Of(
                    "file",
                    Phrase.Many(rows.Length, $"{rows.Length} row", $"{rows.Length} rows"),
                    $"all of them are here already; nothing was taken in"
                )
            );
        var known = (await store.CarsAsync(cancellation).ConfigureAwait(false)).ToList();
        var (cars, records) = (new List<Car>(), new List<JobRecord>());
        var kits = (await store.KitsAsync(cancellation).ConfigureAwait(false)).ToImmutableArray();
        foreach (var row in fresh)
        {
            var found = CarOf(row, sheet, known, cars);
            if (found.Value is { } car)
            {
                var record = Record(row, sheet, car, kits, who);
                records.Add(record.Record);
                problems = [.. problems, .. record.Problems];
            }
            problems = [.. problems, .. found.Problems];
            if (problems.Count >= JobSheet.MostProblems)
                break;
        }
        if (problems.Count > 0)
            return Outcome<TakenSheet>.Refused(problems.Take(JobSheet.MostProblems));
        var jobs = ImmutableArray.CreateBuilder<Job>();
        foreach (var record in records.OrderBy(record => record.Job.OpenedAt))
            jobs.Add(tryOnly ? record.Job : await store.MergeAsync(record, cancellation).ConfigureAwait(false));
        return Outcome<TakenSheet>.Of(
            new(jobs.ToImmutable(), [.. cars], records.Sum(record => record.Journal.All.Length))
        );
    }

    /// <summary>The car of that name, here or earlier in the sheet, or a new one.</summary>
    private Outcome<Car> CarOf(JobSheet.Row row, string sheet, List<Car> known, List<Car> made)
    {
        var label = row.Texts[SheetLayout.Car];
        if (
            known
                .Concat(made)
                .FirstOrDefault(car => string.Equals(car.Label, label, StringComparison.OrdinalIgnoreCase)) is
            { } there
        )
            return Outcome<Car>.Of(there);
        var (bag, problems) = FieldReader.Read(
            Car.Schema,
            Texts(row, SheetLayout.Car).ToDictionary().With("label", label),
            Filed
        );
        if (problems.Count > 0)
            return Outcome<Car>.Refused(At(row, SheetLayout.Car, problems));
        var car = new Car(IdOf(sheet, row.Line, "car"), bag).WrittenDown(Now, null);
        made.Add(car);
        return Outcome<Car>.Of(car);
    }

    private (JobRecord Record, IReadOnlyList<InputProblem> Problems) Record(
        JobSheet.Row row,
        string sheet,
        Car car,
        ImmutableArray<Kit> kits,
        string who
    )
    {
        var now = Now;
        var complaint = row.Texts[SheetLayout.Complaint];
        var job = new Job(IdOf(sheet, row.Line, "job"), car.Id, 0, complaint, row.Opened, ids.NextSeed());
        var record = new JobRecord(car, kits, job, Journal.Empty);
        var problems = new List<InputProblem>();
        if (complaint.Length > LongestComplaint)
            problems.Add(
                InputProblem.Of(
                    JobSheet.Place(row.Line, SheetLayout.Complaint),
                    Shortened(complaint),
                    $"what is wrong, in 1 to {LongestComplaint} characters, is needed here"
                )
            );
        if (row.Opened > now)
            problems.Add(
                InputProblem.Of(
                    JobSheet.Place(row.Line, SheetLayout.Opened),
                    Stamp(row.Opened),
                    $"that day has not come"
                )
            );
        var kinds = row
            .Texts.Keys.Where(meaning => meaning.Contains('.', StringComparison.Ordinal))
            .Select(meaning => SheetLayout.Parts(meaning).Kind)
            .Where(kind => kind != SheetLayout.Car)
            .Distinct(StringComparer.Ordinal);
        foreach (var kind in kinds.Order(StringComparer.Ordinal))
        {
            var (bag, misread) = FieldReader.Read(EntryKinds.Get(kind), Texts(row, kind).ToDictionary(), Filed);
            var entry = new Entry(IdOf(sheet, row.Line, kind), kind, row.Opened, now, who.Trim(), bag);
            entry = entry with { Fields = Named(record, entry) };
            if (misread.Count == 0 && problems.Count == 0)
                misread = EntryRules.CheckTaken(record, entry, AirPressure.At(record, entry.ObservedAt).Known);
            problems.AddRange(At(row, kind, misread));
            if (problems.Count == 0)
                record = record with { Journal = record.Journal.Union([entry]).Journal! };
        }
        return (record, problems);
    }

    private static IEnumerable<KeyValuePair<string, string>> Texts(JobSheet.Row row, string kind) =>
        row
            .Texts.Where(cell => cell.Key.StartsWith(kind + ".", StringComparison.Ordinal))
            .Select(cell => KeyValuePair.Create(SheetLayout.Parts(cell.Key).Field, cell.Value));

    private static IEnumerable<InputProblem> At(JobSheet.Row row, string kind, IEnumerable<InputProblem> problems) =>
        problems.Select(problem => problem with { Field = JobSheet.Place(row.Line, $"{kind}.{problem.Field}") });

    /// <summary>An id for what a line of this very sheet becomes.</summary>
    private static Guid IdOf(string sheet, int line, string what) =>
        new(SHA256.HashData(Encoding.UTF8.GetBytes($"{what} {Number(line)} of {sheet}")).AsSpan(0, 16));
}

/// <summary>Small help for dictionaries of typed text.</summary>
internal static class TypedTexts
{
    public static Dictionary<string, string> With(this Dictionary<string, string> texts, string name, string text)
    {
        texts[name] = text;
        return texts;
    }
}
