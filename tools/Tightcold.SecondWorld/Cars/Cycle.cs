namespace Tightcold.SecondWorld.Cars;

/// <summary>One on and off of a switch: relaxation towards two ends, switched at two marks.</summary>
public readonly record struct Cycle(double OnS, double OffS)
{
    public double Duty => OnS / (OnS + OffS);

    /// <summary>Null where the clutch stays in: pumping, the signal would settle above the lower mark.</summary>
    public static Cycle? Between(double pumping, double standing, double lower, double upper, double onS, double offS)
    {
        if (pumping >= lower)
            return null;
        if (standing <= upper)
            return new(onS, 10 * offS);
        return new(
            onS * Math.Log((upper - pumping) / (lower - pumping)),
            offS * Math.Log((standing - lower) / (standing - upper))
        );
    }
}
