using System.Collections.Immutable;

namespace Tightcold.Diagnosis.Measurement;

/// <summary>
/// ln p(all readings | modelled numbers). Readings of one channel share a fixed error b, which is integrated out on a
/// grid; given b they are independent, each Student-t with 5 degrees of freedom, mixed with a gross error.
/// </summary>
/// <remarks>t with 5 degrees keeps a misread from deciding everything; its scale is chosen so that its middle matches a
/// normal distribution of the stated sigma. Lange, Little and Taylor (1989), J. Am. Stat. Assoc. 84, 881.</remarks>
internal sealed class ReadingLikelihood
{
    // Density of Student's t with 5 degrees at 0, 8/(3 pi sqrt 5).
    private const double TPeak = 0.37960669;
    private const double TScale = 0.85;
    private const int Nodes = 21;
    private const double GridFrom = -3.2;

    private static readonly ImmutableArray<double> Grid = [.. Enumerable.Range(0, Nodes).Select(i => GridFrom - (2 * GridFrom * i / (Nodes - 1)))];
    private static readonly ImmutableArray<double> GridWeight = Weights();

    private readonly Item[][] byChannel;
    private readonly ImmutableArray<OperatingPoint> points;

    public ReadingLikelihood(ImmutableArray<OperatingPoint> points)
    {
        this.points = points;
        var items = new List<Item>();
        for (var p = 0; p < points.Length; p++)
        {
            foreach (var reading in points[p].Readings)
            {
                var (shared, own) = ErrorModel.Sigmas(reading);
                items.Add(new((int)reading.Channel, p, reading.Value, shared, own, ErrorModel.GrossChance * ErrorModel.Anything(reading.Channel)));
            }
        }

        byChannel = [.. items.GroupBy(item => item.Channel).OrderBy(group => group.Key).Select(group => group.ToArray())];
        Items = [.. byChannel.SelectMany(item => item)];
    }

    /// <summary>Every reading, in a fixed order.</summary>
    public ImmutableArray<Item> Items { get; }

    /// <summary>ln of the likelihood of points 0 to <paramref name="pointCount"/> - 1.</summary>
    /// <param name="predicted">Rows of <see cref="Predicted.Width"/>, one a point.</param>
    public double Log(ReadOnlySpan<double> predicted, int pointCount)
    {
        var log = 0.0;
        foreach (var items in byChannel) log += LogChannel(items, predicted, pointCount);
        for (var p = 0; p < pointCount; p++) log += SeenLikelihood.Log(points[p], predicted.Slice(p * Predicted.Width, Predicted.Width));
        return log;
    }

    /// <summary>One reading alone: density at a model's number, its fixed error and its own together.</summary>
    public static double Alone(in Item item, double modelled)
    {
        var sigma = Math.Sqrt((item.Shared * item.Shared) + (item.Own * item.Own));
        return ((1 - ErrorModel.GrossChance) * Student((item.Value - modelled) / sigma) / sigma) + item.Gross;
    }

    /// <summary>Mean and variance of what is left of a channel's fixed error once its readings are known, by the normal
    /// rule; without readings the prior's own.</summary>
    public (double Mean, double Variance) LeftOver(Channel channel, ReadOnlySpan<double> predicted, double sharedSigma)
    {
        double precision = 1 / (sharedSigma * sharedSigma), weighted = 0;
        foreach (var item in Items)
        {
            if (item.Channel != (int)channel) continue;
            var w = 1 / (item.Own * item.Own);
            var off = item.Value - predicted[(item.Point * Predicted.Width) + item.Channel];
            // A misread tells nothing of the fixed error.
            if (Math.Abs(off) > 4 * Math.Sqrt((sharedSigma * sharedSigma) + (item.Own * item.Own))) continue;
            precision += w;
            weighted += w * off;
        }

        return (weighted / precision, 1 / precision);
    }

    private static double LogChannel(Item[] items, ReadOnlySpan<double> predicted, int pointCount)
    {
        var sum = 0.0;
        for (var n = 0; n < Nodes; n++)
        {
            var product = GridWeight[n];
            foreach (var item in items)
            {
                if (item.Point >= pointCount) continue;
                var x = (item.Value - predicted[(item.Point * Predicted.Width) + item.Channel] - (item.Shared * Grid[n])) / item.Own;
                // In units of the own sigma, so that the product stays far from the smallest double.
                product *= ((1 - ErrorModel.GrossChance) * Student(x)) + (item.Gross * item.Own);
            }

            sum += product;
        }

        var log = Math.Log(sum);
        foreach (var item in items)
            if (item.Point < pointCount) log -= Math.Log(item.Own);
        return log;
    }

    public static double Student(double x)
    {
        x /= TScale;
        var q = 1 + (x * x / 5);
        return TPeak / (TScale * q * q * q);
    }

    private static ImmutableArray<double> Weights()
    {
        var raw = Grid.Select(b => Math.Exp(-0.5 * b * b)).ToArray();
        var sum = raw.Sum();
        return [.. raw.Select(w => w / sum)];
    }

    /// <summary>A reading made ready.</summary>
    internal readonly record struct Item(int Channel, int Point, double Value, double Shared, double Own, double Gross);
}
