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

    private static readonly ImmutableArray<double> Grid =
    [
        .. Enumerable.Range(0, Nodes).Select(i => GridFrom - (2 * GridFrom * i / (Nodes - 1))),
    ];
    private static readonly ImmutableArray<double> GridWeight = Weights();

    private readonly Item[][] byChannel;
    private readonly ImmutableArray<OperatingPoint> points;

    /// <param name="points">Ways of running, and what was read.</param>
    /// <param name="sharedModel">What is still not known of this car's fixed error, by channel
    /// (<see cref="ErrorModel.Sigmas"/>); null where nothing is.</param>
    public ReadingLikelihood(ImmutableArray<OperatingPoint> points, double[]? sharedModel = null)
    {
        this.points = points;
        var items = new List<Item>();
        for (var p = 0; p < points.Length; p++)
        {
            foreach (var reading in points[p].Readings)
            {
                var (shared, own) = ErrorModel.Sigmas(
                    reading,
                    sharedModel?[(int)reading.Channel] ?? ErrorModel.SharedModel
                );
                items.Add(
                    new(
                        (int)reading.Channel,
                        p,
                        reading.Value,
                        shared,
                        own,
                        ErrorModel.GrossChance * ErrorModel.Anything(reading.Channel)
                    )
                );
            }
        }

        byChannel =
        [
            .. items.GroupBy(item => item.Channel).OrderBy(group => group.Key).Select(group => group.ToArray()),
        ];
        Items = [.. byChannel.SelectMany(item => item)];
    }

    /// <summary>Every reading, in a fixed order.</summary>
    public ImmutableArray<Item> Items { get; }

    /// <summary>The likelihood of one car's readings, taken in point by point.</summary>
    public Running Start() => new(this);

    /// <summary>One reading alone: density at a model's number, its fixed error and its own together.</summary>
    public static double Alone(in Item item, double modelled)
    {
        var sigma = Math.Sqrt((item.Shared * item.Shared) + (item.Own * item.Own));
        return ((1 - ErrorModel.GrossChance) * Student((item.Value - modelled) / sigma) / sigma) + item.Gross;
    }

    /// <summary>ln of the likelihood of one point by itself: its readings, each with its fixed error and its own, and
    /// what was seen there.</summary>
    public double Alone(int point, ReadOnlySpan<double> predicted)
    {
        var log = SeenLikelihood.Log(points[point], predicted);
        foreach (var item in Items)
            if (item.Point == point)
                log += Math.Log(Alone(item, predicted[item.Channel]));
        return log;
    }

    /// <summary>Mean and variance of what is left of a channel's fixed error once its readings are known, by the normal
    /// rule; without readings the prior's own.</summary>
    public (double Mean, double Variance) LeftOver(Channel channel, ReadOnlySpan<double> predicted, double sharedSigma)
    {
        double precision = 1 / (sharedSigma * sharedSigma),
            weighted = 0;
        foreach (var item in Items)
        {
            if (item.Channel != (int)channel)
                continue;
            var w = 1 / (item.Own * item.Own);
            var off = item.Value - predicted[(item.Point * Predicted.Width) + item.Channel];
            // A misread tells nothing of the fixed error.
            if (Math.Abs(off) > 4 * Math.Sqrt((sharedSigma * sharedSigma) + (item.Own * item.Own)))
                continue;
            precision += w;
            weighted += w * off;
        }

        return (weighted / precision, 1 / precision);
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

    /// <summary>Of one car: for every channel the product over its readings so far, at every fixed error of the
    /// grid.</summary>
    internal sealed class Running
    {
        private readonly ReadingLikelihood all;
        private readonly double[] products;
        private double log;

        public Running(ReadingLikelihood all)
        {
            this.all = all;
            products = new double[all.byChannel.Length * Nodes];
            Clear();
        }

        /// <summary>Another car.</summary>
        public void Clear()
        {
            log = 0;
            for (var i = 0; i < products.Length; i++)
                products[i] = GridWeight[i % Nodes];
        }

        /// <summary>Takes in the next point and gives ln of the likelihood of all so far.</summary>
        /// <param name="point">Its number.</param>
        /// <param name="predicted">A row of <see cref="Predicted.Width"/>.</param>
        public double Add(int point, ReadOnlySpan<double> predicted)
        {
            for (var c = 0; c < all.byChannel.Length; c++)
                foreach (var item in all.byChannel[c])
                    if (item.Point == point)
                        Take(item, predicted[item.Channel], products.AsSpan(c * Nodes, Nodes));
            log += SeenLikelihood.Log(all.points[point], predicted);
            var sum = log;
            for (var c = 0; c < all.byChannel.Length; c++)
            {
                var channel = 0.0;
                foreach (var product in products.AsSpan(c * Nodes, Nodes))
                    channel += product;
                sum += Math.Log(channel);
            }

            return sum;
        }

        private void Take(in Item item, double modelled, Span<double> products)
        {
            var unit = 1 / item.Own;
            double off = (item.Value - modelled) * unit,
                shared = item.Shared * unit;
            // In units of the own sigma, so that the product stays far from the smallest double.
            var gross = item.Gross * item.Own;
            for (var n = 0; n < products.Length; n++)
                products[n] *= ((1 - ErrorModel.GrossChance) * Student(off - (shared * Grid[n]))) + gross;
            log -= Math.Log(item.Own);
        }
    }

    /// <summary>A reading made ready.</summary>
    internal readonly record struct Item(int Channel, int Point, double Value, double Shared, double Own, double Gross);
}
