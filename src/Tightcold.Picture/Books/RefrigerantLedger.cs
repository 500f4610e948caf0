using System.Collections.Immutable;
using System.Globalization;
using Tightcold.Jobs.Entries;
using Tightcold.Jobs.Fields;
using Tightcold.Jobs.Journals;
using Tightcold.Procedures.Rules;
using Tightcold.Quantities;

namespace Tightcold.Picture.Books;

/// <summary>Refrigerant over many jobs, by container and period, with what was lost and what that weighs as carbon
/// dioxide.</summary>
public sealed class RefrigerantLedger(ImmutableArray<LedgerLine> lines)
{
    public ImmutableArray<LedgerLine> Lines { get; } = lines;

    // Added up once: a page of many years' jobs asks for all of it each time it is looked at.
    public double DrawnKg { get; } = lines.Sum(line => line.DrawnKg);
    public double RecoveredKg { get; } = lines.Sum(line => line.RecoveredKg);
    public double LostKg { get; } = lines.Sum(line => line.LostKg);
    public double ChargedKg { get; } = lines.Sum(line => line.ChargedKg);

    /// <summary>Warming of what was lost, kg of carbon dioxide, each job by the law of its place. What leaked from cars
    /// before they came is not in it.</summary>
    public double LostAsCarbonDioxideKg { get; } = lines.Sum(line => line.LostAsCarbonDioxideKg ?? 0);

    /// <summary>Lost of a mixture or a gas that no figure is known of: not in the sum above.</summary>
    public double LostWithoutFigureKg { get; } = lines.Where(line => line.Warming is null).Sum(line => line.LostKg);

    /// <summary>The figures it stands on: “R-134a 1430 (fourth assessment report, so counted by law:
    /// Canada)”.</summary>
    public ImmutableArray<Phrase> WarmingStandsOn { get; } =
    [
        .. lines
            .Where(line => line.LostKg != 0)
            .Select(line => line.Warming is { } figure ? Figure(line.Refrigerant, figure) : null)
            .OfType<Phrase>()
            .Distinct(),
    ];

    private static Phrase Figure(string refrigerant, WarmingFigure figure)
    {
        var potential = Phrase.Verbatim(figure.Potential.ToString(CultureInfo.InvariantCulture));
        return Phrase.Of($"{Phrase.Verbatim(refrigerant)} {potential} ({figure.Words})");
    }

    /// <summary>By container: name, refrigerant, drawn, recovered.</summary>
    public ImmutableArray<(
        string Container,
        string Refrigerant,
        double DrawnKg,
        double RecoveredKg
    )> ByContainer { get; } =
    [
        .. lines
            .Where(line => line.Container is not null)
            .GroupBy(line => (line.Container!, line.Refrigerant))
            .Select(group =>
                (
                    group.Key.Item1,
                    group.Key.Refrigerant,
                    group.Sum(line => line.DrawnKg),
                    group.Sum(line => line.RecoveredKg)
                )
            )
            .OrderBy(row => row.Item1, StringComparer.OrdinalIgnoreCase),
    ];

    /// <summary>By month, the earliest first.</summary>
    public ImmutableArray<(int Year, int Month, double DrawnKg, double RecoveredKg, double LostKg)> ByMonth { get; } =
    [
        .. lines
            .GroupBy(line => (line.Date.Year, line.Date.Month))
            .OrderBy(group => group.Key)
            .Select(group =>
                (
                    group.Key.Year,
                    group.Key.Month,
                    group.Sum(line => line.DrawnKg),
                    group.Sum(line => line.RecoveredKg),
                    group.Sum(line => line.LostKg)
                )
            ),
    ];

    /// <param name="jobs">All jobs.</param>
    /// <param name="from">Jobs whose last entry lies at or after this; null for all.</param>
    /// <param name="before">And before this.</param>
    public static RefrigerantLedger Of(
        IEnumerable<JobPicture> jobs,
        DateTimeOffset? from = null,
        DateTimeOffset? before = null
    ) => Of(jobs.SelectMany(job => LinesOf(job)), from, before);

    /// <summary>The same from lines that were drawn up before.</summary>
    public static RefrigerantLedger Of(
        IEnumerable<LedgerLine> lines,
        DateTimeOffset? from = null,
        DateTimeOffset? before = null
    ) =>
        new([
            .. lines
                .Where(line => !(line.Date < from || line.Date >= before))
                .OrderBy(line => line.Date)
                .ThenBy(line => line.Job),
        ]);

    /// <summary>What one job adds: a line for each container it moved refrigerant with, and one for what it charged and
    /// lost.</summary>
    public static ImmutableArray<LedgerLine> LinesOf(JobPicture job)
    {
        ArgumentNullException.ThrowIfNull(job);
        var record = job.Record;
        if (record.Journal.Standing.Length == 0)
            return [];
        var lines = ImmutableArray.CreateBuilder<LedgerLine>();
        var date = record.Journal.Standing[^1].ObservedAt;
        var balance = job.Mass;
        var place = RuleBook.Of(record.Kit.Fields.Text(FieldNames.Jurisdiction));
        var recoveries = record.Journal.OfKind(EntryKinds.Recovery).ToArray();
        foreach (var holding in balance.Holdings.Values)
        {
            var recovered = holding.Container.IsRecovery ? holding.NetKg - holding.FirstNetKg : 0;
            if (holding.DrawnKg == 0 && recovered == 0)
                continue;
            lines.Add(
                new(
                    record.Job.Number,
                    date,
                    record.Car.Label,
                    holding.Container.Refrigerant,
                    holding.Container.Name,
                    holding.DrawnKg,
                    recovered,
                    0,
                    0
                )
                {
                    Place = place.Reading.Place?.Code ?? "",
                    Person = record.Kit.Fields.Text(FieldNames.Owner) ?? "",
                    Certificate = CertificateOf(record, recoveries),
                    WentTo = holding.Container.IsRecovery
                        ? Said(recoveries, FieldNames.WentTo, holding.Container.Name)
                        : "",
                }
            );
        }
        if (balance.LostKg != 0 || balance.DrawnKg != 0)
            lines.Add(
                new(
                    record.Job.Number,
                    date,
                    record.Car.Label,
                    record.Car.Refrigerant,
                    null,
                    0,
                    0,
                    balance.LostKg,
                    balance.DrawnKg > 0 ? balance.SystemKg : 0
                )
                {
                    Warming = place.Warming(record.Car.Refrigerant),
                    Place = place.Reading.Place?.Code ?? "",
                    Person = record.Kit.Fields.Text(FieldNames.Owner) ?? "",
                    Certificate = CertificateOf(record, recoveries),
                }
            );
        return lines.ToImmutable();
    }

    /// <summary>Of who recovered as written down then, else the kit's.</summary>
    private static string CertificateOf(JobRecord record, Entry[] recoveries) =>
        Said(recoveries, "certificate") is { Length: > 0 } said
            ? said
            : record.Kit.Fields.Text(FieldNames.Qualification) ?? "";

    private static string Said(Entry[] recoveries, string field, string? container = null) =>
        string.Join(
            "; ",
            recoveries
                .Where(entry =>
                    container is null
                    || string.Equals(
                        entry.Fields.Text(FieldNames.Container),
                        container,
                        StringComparison.OrdinalIgnoreCase
                    )
                )
                .Select(entry => entry.Fields.Text(field))
                .OfType<string>()
                .Distinct()
        );
}
