using System.Collections.Immutable;
using Tightcold.Procedures.Recovery;

namespace Tightcold.Picture.Books;

/// <summary>Refrigerant over many jobs, by container and period, with what was lost and what that weighs as carbon
/// dioxide.</summary>
public sealed record RefrigerantLedger(ImmutableArray<LedgerLine> Lines)
{
    public double DrawnKg => Lines.Sum(line => line.DrawnKg);
    public double RecoveredKg => Lines.Sum(line => line.RecoveredKg);
    public double LostKg => Lines.Sum(line => line.LostKg);
    public double ChargedKg => Lines.Sum(line => line.ChargedKg);

    /// <summary>Warming of what was lost, kg of carbon dioxide; the figures of the fourth report. What leaked from cars
    /// before they came is not in it.</summary>
    public double LostAsCarbonDioxideKg =>
        Lines.Sum(line => line.LostKg * (WarmingPotential.Of(line.Refrigerant)?.Fourth ?? 0));

    /// <summary>By container: name, refrigerant, drawn, recovered.</summary>
    public ImmutableArray<(string Container, string Refrigerant, double DrawnKg, double RecoveredKg)> ByContainer =>
        [
            .. Lines
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
    public ImmutableArray<(int Year, int Month, double DrawnKg, double RecoveredKg, double LostKg)> ByMonth =>
        [
            .. Lines
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
            );
        return lines.ToImmutable();
    }
}
