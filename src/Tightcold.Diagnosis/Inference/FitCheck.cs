using Tightcold.Diagnosis.Measurement;

namespace Tightcold.Diagnosis.Inference;

/// <summary>
/// Posterior predictive check: data are made again from the leading explanation's weighted cars with the instruments'
/// and the model's errors, and their misfit is compared with that of the readings. Gelman, Meng and Stern (1996), Stat.
/// Sinica 6, 733; the misfit is the sum of squared distances in standard deviations.
/// </summary>
internal static class FitCheck
{
    private const int Draws = 200;

    public static double Of(Posterior posterior, int h)
    {
        var items = posterior.Data.Readings.Items;
        var particles = posterior.Runs[h].Particles;
        if (items.Length == 0 || particles.Best < 0) return 1;
        var chance = new Chance(17);
        var weights = posterior.Weights[h];
        var worse = 0;
        double cumulative = 0;
        var next = 0;
        Span<double> shared = stackalloc double[ErrorModel.Channels];
        for (var draw = 0; draw < Draws; draw++)
        {
            // Systematic resampling: every car is met in proportion to its weight.
            var target = (draw + 0.5) / Draws;
            while (next < particles.Count - 1 && cumulative + weights[next] < target) cumulative += weights[next++];
            var row = particles.Row(next);
            for (var c = 0; c < shared.Length; c++) shared[c] = chance.Normal();
            double read = 0, made = 0;
            foreach (var item in items)
            {
                var total = (item.Shared * item.Shared) + (item.Own * item.Own);
                var off = item.Value - row[(item.Point * Predicted.Width) + item.Channel];
                var remade = (item.Shared * shared[item.Channel]) + (item.Own * chance.Normal());
                read += off * off / total;
                made += remade * remade / total;
            }

            if (made >= read) worse++;
        }

        return (double)worse / Draws;
    }
}
