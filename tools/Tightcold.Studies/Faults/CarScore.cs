using Tightcold.Diagnosis.Faults;
using Tightcold.Diagnosis.Inference;
using Tightcold.Diagnosis.Priors;

namespace Tightcold.Studies.Faults;

/// <summary>How one invented car's diagnosis came out against its truth, and how the symptom table's did.</summary>
public sealed record CarScore
{
    public required int Number { get; init; }

    public required string Truth { get; init; }

    public required string Leading { get; init; }

    /// <summary>Odds of the leading explanation.</summary>
    public required double LeadingOdds { get; init; }

    /// <summary>Odds given to the true explanation.</summary>
    public required double TruthOdds { get; init; }

    public bool LeadingRight => Truth == Leading;

    /// <summary>Squared distance of the odds of single faults (and of nothing wrong) from the truth, summed.</summary>
    public required double Brier { get; init; }

    public required double TableBrier { get; init; }

    /// <summary>Odds of the likeliest fault (or of nothing wrong) summed over explanations, and whether it is
    /// there.</summary>
    public required double TopOdds { get; init; }

    public required bool Top1 { get; init; }

    public required bool Top2 { get; init; }

    public required bool TableTop1 { get; init; }

    public required bool TableTop2 { get; init; }

    /// <summary>Share of the charge's belief below the true charge, 0 to 1: even over many cars.</summary>
    public required double ChargeRank { get; init; }

    public required bool ChargeCovered { get; init; }

    /// <summary>Width of the 90 % interval of charge over the label's.</summary>
    public required double ChargeWidth { get; init; }

    /// <summary>The same for the first fault's severity, under the true explanation; null where it has none or was
    /// hardly weighed.</summary>
    public required double? SeverityRank { get; init; }

    public required int Points { get; init; }

    public required double Fit { get; init; }

    public required bool Uncertain { get; init; }

    public static CarScore Of(int number, Effort effort)
    {
        var car = CarLottery.Draw(number);
        return Of(number, car, Diagnoser.Diagnose(car.Evidence, effort, (ulong)number));
    }

    public static CarScore Of(int number, SimulatedCar car, FaultOdds answer)
    {
        var ours = Marginal(answer);
        var table = SymptomTable.Odds(car.Evidence);
        var truths =
            car.Faults.Length == 0 ? [Hypothesis.NothingWrong] : car.Faults.Select(fault => fault.Key).ToArray();
        var (first, second) = Two(ours);
        var (tableFirst, tableSecond) = Two(table);
        var rank = answer.OddsChargeBelow(car.ChargeKg);
        return new()
        {
            Number = number,
            Truth = car.Truth,
            Leading = answer.Leading.Hypothesis.Key,
            LeadingOdds = answer.Leading.Odds,
            TruthOdds = answer.OddsOf(car.Truth),
            Brier = Distance(ours, truths),
            TableBrier = Distance(table, truths),
            TopOdds = ours[first],
            Top1 = truths.Contains(first),
            Top2 = truths.Contains(first) || truths.Contains(second),
            TableTop1 = truths.Contains(tableFirst),
            TableTop2 = truths.Contains(tableFirst) || truths.Contains(tableSecond),
            ChargeRank = rank,
            ChargeCovered = rank is >= 0.05 and <= 0.95,
            ChargeWidth = (answer.ChargeKg.High - answer.ChargeKg.Low) / answer.LabelKg,
            SeverityRank = SeverityRankOf(car, answer),
            Points = car.Evidence.Points.Length,
            Fit = answer.Fit,
            Uncertain = answer.EvidenceUncertain,
        };
    }

    /// <summary>Odds of each fault over all explanations it is part of, and of nothing wrong.</summary>
    public static IReadOnlyDictionary<string, double> Marginal(FaultOdds answer)
    {
        ArgumentNullException.ThrowIfNull(answer);
        var odds = new Dictionary<string, double>(StringComparer.Ordinal);
        foreach (var belief in answer.Beliefs)
        {
            var keys =
                belief.Hypothesis.Faults.Length == 0
                    ? [belief.Hypothesis.Key]
                    : belief.Hypothesis.Faults.Select(fault => fault.Key).ToArray();
            foreach (var key in keys)
                odds[key] = odds.GetValueOrDefault(key) + belief.Odds;
        }

        return odds;
    }

    private static (string First, string Second) Two(IReadOnlyDictionary<string, double> odds)
    {
        var sorted = odds.OrderByDescending(pair => pair.Value)
            .ThenBy(pair => pair.Key, StringComparer.Ordinal)
            .Take(2)
            .ToArray();
        return (sorted[0].Key, sorted[1].Key);
    }

    private static double Distance(IReadOnlyDictionary<string, double> odds, string[] truths)
    {
        var sum = odds.Sum(pair => Math.Pow(pair.Value - (truths.Contains(pair.Key) ? 1 : 0), 2));
        return sum + truths.Count(truth => !odds.ContainsKey(truth));
    }

    private static double? SeverityRankOf(SimulatedCar car, FaultOdds answer)
    {
        var posterior = answer.Posterior;
        for (var h = 0; h < posterior.Runs.Count; h++)
        {
            if (posterior.Runs[h].Hypothesis.Key != car.Truth || car.Faults.Length == 0 || posterior.Odds[h] < 0.2)
                continue;
            if (
                car.Faults[0] == Fault.Undercharge
                || car.Faults[0] == Fault.Overcharge
                || car.Faults[0] == Fault.ClutchDead
                || posterior.Runs[h].Hypothesis.IsNoneOfThese
            )
                return null;
            return Interval.ShareBelow(posterior.Severities(h, 0), car.Severities[0]);
        }

        return null;
    }
}
