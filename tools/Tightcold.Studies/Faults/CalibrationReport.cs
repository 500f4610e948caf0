using System.Collections.Immutable;
using System.Globalization;
using System.Text;

namespace Tightcold.Studies.Faults;

/// <summary>Many scores in a few figures.</summary>
public sealed record CalibrationReport(ImmutableArray<CarScore> Scores)
{
    private static readonly double[] Edges = [0, 0.3, 0.5, 0.6, 0.7, 0.8, 0.9, 0.97, 1.0000001];

    /// <summary>Bins of the leading explanation's odds: mean odds said, share right, number.</summary>
    public ImmutableArray<(double Said, double Right, int Count)> Reliability() =>
        Bins(score => score.LeadingOdds, score => score.LeadingRight);

    /// <summary>The same for the likeliest single fault.</summary>
    public ImmutableArray<(double Said, double Right, int Count)> FaultReliability() =>
        Bins(score => score.TopOdds, score => score.Top1);

    /// <summary>Share right of the answers whose odds lie from 0.75 to 0.85, their mean odds and number.</summary>
    public (double Said, double Right, int Count) AtEighty() =>
        Bin(
            Scores.Where(score => score.TopOdds is >= 0.75 and < 0.85).ToArray(),
            score => score.TopOdds,
            score => score.Top1
        );

    public double ChargeCoverage => Scores.Average(score => score.ChargeCovered ? 1.0 : 0);

    public ImmutableArray<int> ChargeRanks() => Ranks(Scores.Select(score => score.ChargeRank));

    public ImmutableArray<int> SeverityRanks() => Ranks(Scores.Select(score => score.SeverityRank).OfType<double>());

    /// <summary>As lines of text, the same for the same scores.</summary>
    public string Text()
    {
        var text = new StringBuilder();
        void Line(FormattableString line) => text.Append(line.ToString(CultureInfo.InvariantCulture)).Append('\n');
        double Mean(Func<CarScore, double> of) => Scores.Average(of);
        Line(
            $"cars {Scores.Length}, readings at {Mean(score => score.Points):F2} points each; evidence called uncertain in {Mean(score => score.Uncertain ? 1 : 0):P1}"
        );
        Line(
            $"the true explanation leads in {Mean(score => score.LeadingRight ? 1 : 0):P1}, its mean odds {Mean(score => score.TruthOdds):F3}"
        );
        Line($"                    diagnosis   symptom table");
        Line($"Brier               {Mean(score => score.Brier), 9:F3}   {Mean(score => score.TableBrier), 9:F3}");
        Line(
            $"fault named first   {Mean(score => score.Top1 ? 1 : 0), 9:P1}   {Mean(score => score.TableTop1 ? 1 : 0), 9:P1}"
        );
        Line(
            $"in the first two    {Mean(score => score.Top2 ? 1 : 0), 9:P1}   {Mean(score => score.TableTop2 ? 1 : 0), 9:P1}"
        );
        Line($"cars on which the table is closer (Brier): {Mean(score => score.TableBrier < score.Brier ? 1 : 0):P1}");
        var eighty = AtEighty();
        Line($"said 75 to 85 %: mean {eighty.Said:P1}, right {eighty.Right:P1} of {eighty.Count}");
        Line(
            $"charge: 90 % interval covers {ChargeCoverage:P1}, its mean width {Mean(score => score.ChargeWidth):P0} of the label"
        );
        Line($"likeliest fault, said against right:");
        foreach (var (said, right, count) in FaultReliability())
            Line($"  {said, 6:P1}  {right, 6:P1}  {count, 6}");
        Line($"leading explanation, said against right:");
        foreach (var (said, right, count) in Reliability())
            Line($"  {said, 6:P1}  {right, 6:P1}  {count, 6}");
        Line($"rank of the true charge, tenths:   {string.Join(' ', ChargeRanks())}");
        Line($"rank of the true severity, tenths: {string.Join(' ', SeverityRanks())}");
        return text.ToString();
    }

    private ImmutableArray<(double, double, int)> Bins(Func<CarScore, double> odds, Func<CarScore, bool> right) =>
        [
            .. Enumerable
                .Range(0, Edges.Length - 1)
                .Select(b =>
                    Bin([.. Scores.Where(score => odds(score) >= Edges[b] && odds(score) < Edges[b + 1])], odds, right)
                )
                .Where(bin => bin.Item3 > 0),
        ];

    private static (double, double, int) Bin(
        CarScore[] scores,
        Func<CarScore, double> odds,
        Func<CarScore, bool> right
    ) =>
        scores.Length == 0
            ? (0, 0, 0)
            : (scores.Average(odds), scores.Average(score => right(score) ? 1.0 : 0), scores.Length);

    private static ImmutableArray<int> Ranks(IEnumerable<double> ranks)
    {
        var bins = new int[10];
        foreach (var rank in ranks)
            bins[Math.Min(9, (int)(10 * rank))]++;
        return [.. bins];
    }
}
