using System.Globalization;
using Tightcold.Diagnosis.Inference;

namespace Tightcold.Studies.Faults;

/// <summary>
/// How far the odds of an effort lie from those of a far larger computation of the same posterior with another seed, on
/// invented cars: for each car the largest difference over all explanations.
/// </summary>
public sealed class AgainstBruteForce
{
    private static readonly (string Name, Effort Effort)[] Efforts =
    [
        ("quick", Effort.Quick),
        ("full", Effort.Full),
        ("deep", Effort.Deep),
    ];

    private readonly List<Line> lines = [];

    /// <summary>One effort on one car.</summary>
    /// <param name="Difference">Largest difference in any explanation's odds.</param>
    /// <param name="Said">Standard error that the effort stated for those odds.</param>
    /// <param name="BruteError">Standard error that the brute force states for them.</param>
    /// <param name="Solves">Solutions of the loop.</param>
    public sealed record Line(
        int Car,
        string Effort,
        double Difference,
        string Explanation,
        double Said,
        double BruteError,
        int Solves
    );

    public IReadOnlyList<Line> Lines => lines;

    public static AgainstBruteForce Run(int from, int cars, CancellationToken cancellation)
    {
        var report = new AgainstBruteForce();
        for (var number = from; number < from + cars; number++)
        {
            cancellation.ThrowIfCancellationRequested();
            report.Add(number);
        }

        return report;
    }

    public string Text()
    {
        var text = string.Create(
            CultureInfo.InvariantCulture,
            $"largest difference in any odds from brute force, {lines.Count / Efforts.Length} cars\n{"", -8} {"median", 8} {"9 in 10", 8} {"worst", 8} {"within 0.02", 12} {"solves", 8}\n"
        );
        foreach (var (name, _) in Efforts)
        {
            var own = lines.Where(line => line.Effort == name).OrderBy(line => line.Difference).ToArray();
            text += string.Create(
                CultureInfo.InvariantCulture,
                $"{name, -8} {own[own.Length / 2].Difference, 8:F4} {own[own.Length * 9 / 10].Difference, 8:F4} {own[^1].Difference, 8:F4} {own.Count(line => line.Difference <= 0.02), 12} {own.Average(line => line.Solves), 8:F0}\n"
            );
        }

        return text
            + string.Create(
                CultureInfo.InvariantCulture,
                $"largest standard error the brute force states: {lines.Max(line => line.BruteError):F4}\n"
            );
    }

    private void Add(int number)
    {
        var evidence = CarLottery.Draw(number).Evidence;
        var brute = Diagnoser.Diagnose(evidence, Effort.Brute, (ulong)number + 50_021);
        foreach (var (name, effort) in Efforts)
        {
            var odds = Diagnoser.Diagnose(evidence, effort, (ulong)number);
            var farthest = odds.Beliefs.MaxBy(belief => Math.Abs(belief.Odds - brute.OddsOf(belief.Hypothesis.Key)))!;
            var same = brute.Beliefs.First(belief => belief.Hypothesis.Key == farthest.Hypothesis.Key);
            lines.Add(
                new(
                    number,
                    name,
                    Math.Abs(farthest.Odds - same.Odds),
                    farthest.Hypothesis.Key,
                    farthest.OddsError,
                    same.OddsError,
                    odds.Solves
                )
            );
        }
    }
}
