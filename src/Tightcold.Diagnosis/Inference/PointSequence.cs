namespace Tightcold.Diagnosis.Inference;

/// <summary>
/// Latin hypercube of standard normal points: every coordinate is met evenly, whatever the number of points.
/// [mckay1979] McKay, Beckman and Conover (1979), Technometrics 21, 239. The same seed gives the same points.
/// </summary>
internal static class PointSequence
{
    public static double[] Normal(int count, int dimensions, Chance chance)
    {
        var points = new double[count * dimensions];
        var order = new int[count];
        for (var k = 0; k < dimensions; k++)
        {
            for (var i = 0; i < count; i++)
                order[i] = i;
            for (var i = count - 1; i > 0; i--)
            {
                var j = (int)(chance.Uniform() * (i + 1));
                (order[i], order[j]) = (order[j], order[i]);
            }

            for (var i = 0; i < count; i++)
                points[(i * dimensions) + k] = Numerics.Distributions.Normal.Quantile(
                    (order[i] + chance.Uniform()) / count
                );
        }

        return points;
    }
}
