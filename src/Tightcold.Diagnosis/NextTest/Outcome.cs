using Tightcold.Diagnosis.Inference;
using Tightcold.Diagnosis.Measurement;

namespace Tightcold.Diagnosis.NextTest;

/// <summary>Numbers with their spreads, or odds of each thing that may be seen. A drawn one holds what was read, or
/// the index of what was seen.</summary>
internal readonly record struct Outcome(double[] Numbers, double[] Sigmas, double[] Odds)
{
    public Outcome Draw(Chance chance)
    {
        var read = new double[Numbers.Length];
        for (var c = 0; c < read.Length; c++)
            read[c] = Numbers[c] + (Sigmas[c] * chance.Normal());
        if (Odds.Length == 0)
            return new(read, [], []);
        var u = chance.Uniform() * Odds.Sum();
        var seen = 0;
        while (seen < Odds.Length - 1 && (u -= Odds[seen]) > 0)
            seen++;
        return new(read, [], [seen]);
    }

    public double Density(in Outcome read)
    {
        var density = Odds.Length == 0 ? 1 : Odds[(int)read.Odds[0]] / Odds.Sum();
        for (var c = 0; c < Numbers.Length; c++)
            density *= (ReadingLikelihood.Student((read.Numbers[c] - Numbers[c]) / Sigmas[c]) / Sigmas[c]) + 1e-12;
        return density;
    }
}
