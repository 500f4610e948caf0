namespace Tightcold.Numerics.Roots;

/// <summary>
/// Where a yes begins, by halving: for questions whose answer has no size that <see cref="BracketedRoot"/> could use,
/// and where a coarse place is all that is wanted.
/// </summary>
public static class Halving
{
    /// <summary>Narrows the stretch from <paramref name="low"/> to <paramref name="high"/> about the place where no
    /// turns into yes.</summary>
    /// <param name="times">How often the stretch is halved.</param>
    /// <returns>The last no and the first yes; where all answers are the same, one of them is the end given.</returns>
    public static (double No, double Yes) Narrow<TQ>(ref TQ question, double low, double high, int times)
        where TQ : struct, IQuestion
    {
        for (var i = 0; i < times; i++)
        {
            var middle = 0.5 * (low + high);
            if (question.Says(middle))
                high = middle;
            else
                low = middle;
        }

        return (low, high);
    }

    /// <summary>As above for a question written where it is wanted.</summary>
    public static (double No, double Yes) Narrow(Func<double, bool> says, double low, double high, int times)
    {
        var question = new Written(says);
        return Narrow(ref question, low, high, times);
    }

    private readonly struct Written(Func<double, bool> says) : IQuestion
    {
        public bool Says(double x) => says(x);
    }
}
