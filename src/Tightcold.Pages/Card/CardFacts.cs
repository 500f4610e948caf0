using System.Collections.Immutable;
using Tightcold.App.Books;
using Tightcold.Findings;
using Tightcold.Findings.Now;
using Tightcold.Jobs.Entries;
using Tightcold.Jobs.Fields;
using Tightcold.Jobs.Journals;
using Tightcold.Jobs.Photos;
using Tightcold.Pages.Asked;
using Tightcold.Pages.Words;
using Tightcold.Picture;
using Tightcold.Picture.Circuit;
using Tightcold.Procedures.Substances;
using Tightcold.Quantities;
using Tightcold.Tongues;

namespace Tightcold.Pages.Card;

/// <summary>What the card says about a job, gathered from the record and its findings; a pure function of
/// both.</summary>
public sealed class CardFacts
{
    private static readonly ImmutableArray<string> DoneKinds =
    [
        EntryKinds.Recovery,
        EntryKinds.PartChanged,
        EntryKinds.SealChanged,
        EntryKinds.OilMoved,
        EntryKinds.Cost,
        EntryKinds.Note,
    ];

    private static readonly ImmutableArray<string> CarFields =
    [
        FieldNames.ModelYear,
        "refrigerant",
        FieldNames.LabelCharge,
        FieldNames.LabelTolerance,
        "compressor",
        "device",
        "evaporators",
        FieldNames.OilType,
        FieldNames.OilAmount,
    ];

    /// <summary>More photos than this leave no room on the card; the site keeps them all.</summary>
    private const int MostPhotos = 6;

    public CardFacts(JobSight sight, IMeasureFormat units, IReadOnlyList<Photo>? photos = null)
    {
        Photos =
        [
            .. (photos ?? [])
                .Select(photo => (photo, Entry: sight.Picture.Record.Journal.Find(photo.Entry)))
                .Where(pair => pair.Entry is { } entry && !sight.Picture.Record.Journal.IsStruck(entry.Id))
                .TakeLast(MostPhotos)
                .Select(pair => (pair.photo, pair.Entry!)),
        ];
        var (record, findings) = (sight.Picture.Record, sight.Findings);
        Picture = sight.Picture;
        Record = record;
        Findings = findings;
        Car =
        [
            .. EntryWords
                .Values(Jobs.Cars.Car.Schema, record.Car.Fields, units)
                .Where(pair => CarFields.Contains(pair.Field.Name)),
        ];
        Weather = WeatherOf(record, units);
        Done = [.. record.Journal.Standing.Where(entry => DoneKinds.Contains(entry.Kind))];
        Tight = findings.LastOrDefault(finding => finding.Step == Step.Hold);
        Cold = findings.LastOrDefault(finding => finding.Step == Step.ProveCold);
        Steps = [.. findings.Where(finding => finding.Step is not (Step.Ledger or Step.Hold or Step.ProveCold))];
        Ledger = [.. findings.Where(finding => finding.Step is Step.Ledger)];
        Spots = Grouped(findings.LastOrDefault(finding => finding.Step == Step.LeakSearch)?.Table, units);
        Missing = [.. findings.SelectMany(finding => finding.Missing).Distinct()];
        Assumptions = [.. findings.SelectMany(finding => finding.Assumptions).Distinct()];
        Now = NowWords.Of(sight.Picture);
        Cautions =
            record.State == "closed"
                ? []
                :
                [
                    // Paper cannot be unfolded: what is about this moment and what is about life, then the law's line.
                    .. findings
                        .Where(finding => finding.Step == Now.Step)
                        .SelectMany(finding =>
                            finding
                                .Hazards.Where(hazard => hazard.Danger <= Danger.Life)
                                .Select(hazard => hazard.Says)
                                .Concat(finding.Law.Take(1).Select(line => line.Says))
                        ),
                ];
        Marks = [.. MarksOf(sight.Picture)];
        Readings = BeforeAfter.Of(sight.Picture, units);
        Costs = BeforeAfter.Costs(record);
        NextCheck = sight.Picture.NextCheckAt;
        Calendar = CheckCalendar.Of(sight.Picture);
        Sheet = RecordSheet.Of(sight.Picture);
    }

    public JobRecord Record { get; }
    public ImmutableArray<Finding> Findings { get; }
    public ImmutableArray<(FieldSpec Field, string Value)> Car { get; }

    /// <summary>The weather the complaint is judged against, and the one it was proven in where that is
    /// another.</summary>
    public ImmutableArray<(string When, string What)> Weather { get; }

    /// <summary>Recovery, parts, seals, oil, costs and notes that stand.</summary>
    public ImmutableArray<Entry> Done { get; }

    /// <summary>The finding that can prove the system tight, and the one that can prove it cold.</summary>
    public Finding? Tight { get; }
    public Finding? Cold { get; }

    /// <summary>All findings that do not stand elsewhere on the card: the proofs stand first, the ledger
    /// last.</summary>
    public ImmutableArray<Finding> Steps { get; }
    public ImmutableArray<Finding> Ledger { get; }

    /// <summary>Spots by what was found there, where nothing was found last.</summary>
    public ImmutableArray<(string Outcome, string Spots)> Spots { get; }
    public ImmutableArray<Phrase> Missing { get; }
    public ImmutableArray<Assumption> Assumptions { get; }
    public ImmutableArray<Phrase> Cautions { get; }

    /// <summary>What everything on the card is read off.</summary>
    /// <summary>The last ones, each with its entry; those of struck entries are left out.</summary>
    public ImmutableArray<(Photo Photo, Entry Entry)> Photos { get; }

    public JobPicture Picture { get; }

    /// <summary>What the job waits for: a card of a job that is not closed is a draft.</summary>
    public NowLine Now { get; }
    public bool IsDraft => Record.State != "closed";

    /// <summary>What was done against advice and stays to be seen.</summary>
    public ImmutableArray<Phrase> Marks { get; }
    public BeforeAfter Readings { get; }

    /// <summary>What was written down of money and hours; empty when nothing was. What it saved is the person's own
    /// figure.</summary>
    public string Costs { get; }

    /// <summary>More was done than two pages hold: what the card rests on then goes to a third, so that the first two
    /// stay the story of the car.</summary>
    public bool IsLong => Done.Length > MostDone || Findings.Sum(finding => finding.Estimates.Length) > MostNumbers;

    private const int MostDone = 14,
        MostNumbers = 70;

    /// <summary>When to look at this car again.</summary>
    public DateTimeOffset NextCheck { get; }

    /// <summary>The next check as a calendar entry, for the code on the card.</summary>
    public string Calendar { get; }

    /// <summary>What had leaked before it came, as carbon dioxide, to one figure: it bears no more. By the law of the
    /// place.</summary>
    public Phrase Warming =>
        Picture.Leaks.Losses.LostKg is { } lost and > 0.05
        && LawAndSubstance.PlaceOf(Record).Warming(Record.Car.Refrigerant) is { } figure
            ? Phrase.Of(
                $"What had leaked before it came warms like some "
                    + $"{Measure.Kilograms(OneFigure.Of(lost * figure.Potential))} of carbon dioxide ({figure.Words})."
            )
            : Phrase.Empty;

    /// <summary>What the place wants kept of this job; null where nothing is asked of this person.</summary>
    public RecordSheet? Sheet { get; }

    private static IEnumerable<Phrase> MarksOf(JobPicture picture)
    {
        foreach (var moment in picture.Timeline.Moments)
        {
            if (
                moment.Before.ChargedOnto == Foreign.Nothing
                && moment.After.ChargedOnto is not Foreign.Nothing and var onto
            )
                yield return onto == Foreign.Nitrogen
                    ? "Marked: refrigerant went in on top of nitrogen, without an evacuation in between."
                    : "Marked: refrigerant went in on top of air, without an evacuation in between.";
        }
    }

    private static ImmutableArray<(string, string)> WeatherOf(JobRecord record, IMeasureFormat units)
    {
        string Words(Entry entry) =>
            string.Join(
                ", ",
                EntryWords
                    .Values(entry.Schema, entry.Fields, units)
                    .Select(pair => $"{Say.Within(pair.Field.Label)} {pair.Value}")
            );
        var all = record.Journal.OfKind(EntryKinds.Weather).ToArray();
        return all.Length switch
        {
            0 => [],
            1 => [(Say.It("Weather"), Words(all[0]))],
            _ => [(Say.It("Weather as it came"), Words(all[0])), (Say.It("Weather as it went"), Words(all[^1]))],
        };
    }

    private static ImmutableArray<(string, string)> Grouped(FindingTable? table, IMeasureFormat units) =>
        table is null
            ? []
            :
            [
                .. table
                    .Rows.Where(row => row.Length > 1)
                    .GroupBy(row =>
                        string.Join(
                            ", ",
                            row.Skip(1).Take(2).Select(cell => cell.Render(units)).Where(cell => cell.Length > 0)
                        )
                    )
                    .OrderBy(group => IsNothing(group.First()))
                    .ThenBy(group => group.Count())
                    .Select(group => (group.Key, string.Join(", ", group.Select(row => row[0].Render(units))))),
            ];

    /// <summary>Whether a look showed nothing, in whatever language it is shown.</summary>
    private static bool IsNothing(ImmutableArray<Phrase> row) =>
        row.Skip(1).Take(2).FirstOrDefault(cell => !cell.IsEmpty) is { } first
        && first.ToString().StartsWith("nothing", StringComparison.Ordinal);
}
