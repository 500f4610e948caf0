namespace Tightcold.Procedures.Cold;

/// <summary>How much cooling a wrong charge can cost.</summary>
public static class ChargeEffect
{
    /// <summary>
    /// Share of the capacity lost at the most, 0 to 1: 0.25·((1 − r)/0.4)² below and 0.25·((r − 1)/0.2)² above the
    /// right charge, through the two points of one published car rig (up to a quarter lost at 40 % less or 20 % more;
    /// Atik and Aktaş 2011) and flat at the right charge. Systems with a receiver lose less until their liquid line
    /// runs out.
    /// </summary>
    /// <param name="chargeRatio">Charge over the right charge, 0 or more.</param>
    public static double MostLost(double chargeRatio)
    {
        if (!(chargeRatio >= 0 && double.IsFinite(chargeRatio)))
            throw new ArgumentOutOfRangeException(nameof(chargeRatio), chargeRatio, "0 or more");
        var off = chargeRatio < 1 ? (1 - chargeRatio) / 0.4 : (chargeRatio - 1) / 0.2;
        return Math.Min(1, 0.25 * off * off);
    }
}
