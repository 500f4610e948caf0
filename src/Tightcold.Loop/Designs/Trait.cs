namespace Tightcold.Loop.Designs;

/// <summary>Level and spread of one trait over sound cars. A trait that is a factor has its spread as the standard
/// deviation of its logarithm, any other in the trait's own unit (SI).</summary>
/// <param name="Level">The middle car's.</param>
/// <param name="Spread">One standard deviation from car to car.</param>
/// <param name="IsFactor">Whether <paramref name="Level"/> multiplies the ordinary design's figure.</param>
public readonly record struct Trait(double Level, double Spread, bool IsFactor)
{
    /// <summary>The trait of a car so many standard deviations from the middle one.</summary>
    public double At(double standardScore) =>
        IsFactor ? Level * Math.Exp(Spread * standardScore) : Level + (Spread * standardScore);
}
