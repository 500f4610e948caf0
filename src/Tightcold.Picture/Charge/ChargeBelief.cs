using Tightcold.Picture.Circuit;
using Tightcold.Picture.Standing;
using Tightcold.Quantities;

namespace Tightcold.Picture.Charge;

/// <summary>What the charge is known by.</summary>
public enum ChargeFrom
{
    /// <summary>Nothing tells.</summary>
    Nothing,

    /// <summary>None stands inside: open, pulled down, or under nitrogen.</summary>
    None,

    /// <summary>By the scale, from empty.</summary>
    Scale,

    /// <summary>Vapour only: by pressure, temperature and volume.</summary>
    StandingPressure,

    /// <summary>Liquid stands there: a lower bound.</summary>
    LiquidAtLeast,

    /// <summary>By how the gauges fit the model's cars.</summary>
    Model,
}

/// <summary>How much refrigerant stands in the circuit now: stated once, from the source that knows best.</summary>
/// <param name="Kg">Median; null where only a bound is known, or nothing.</param>
/// <param name="LowKg">5 % limit, or the least there is.</param>
/// <param name="HighKg">95 % limit; null where nothing bounds it from above.</param>
public sealed record ChargeBelief(ChargeFrom From, double? Kg, double? LowKg, double? HighKg)
{
    public static ChargeBelief Of(JobPicture picture)
    {
        ArgumentNullException.ThrowIfNull(picture);
        var state = picture.Timeline.Now;
        if (state.Inside is Inside.Air or Inside.Vacuum or Inside.Nitrogen)
            return new(ChargeFrom.None, 0, 0, 0);
        var mass = picture.Mass;
        if (state.Inside == Inside.Charge && mass is { SystemKnown: true, DrawnKg: > 0 })
            return Normal(ChargeFrom.Scale, mass.SystemKg, Math.Sqrt(mass.SystemVarianceKg2));
        if (state.Inside == Inside.Recovered && picture.Recovery is { End: { } end })
            return new(ChargeFrom.Scale, 0.5 * (end.LeftLeastKg + end.LeftMostKg), end.LeftLeastKg, end.LeftMostKg);
        if (state.Inside != Inside.AsItCame)
            return new(ChargeFrom.Nothing, null, null, null);
        return picture.Came switch
        {
            { Says: StandingSays.VapourOnly, Left: { } left } => Normal(
                ChargeFrom.StandingPressure,
                left.MeanKg,
                left.SigmaKg
            ),
            { Says: StandingSays.NotTheLabels or StandingSays.MayBeAnother or StandingSays.OtherGas } => new(
                ChargeFrom.Nothing,
                null,
                null,
                null
            ),
            _ when picture.Machine is { Answer.ChargeKg: var fitted } => new(
                ChargeFrom.Model,
                fitted.Median,
                Math.Min(fitted.Median, Math.Max(fitted.Low, picture.Came.LeastKg ?? 0)),
                fitted.High
            ),
            { LeastKg: { } least } => new(ChargeFrom.LiquidAtLeast, null, least, null),
            _ => new(ChargeFrom.Nothing, null, null, null),
        };
    }

    private static ChargeBelief Normal(ChargeFrom from, double mean, double sigma) =>
        new(
            from,
            Math.Max(0, mean),
            Math.Max(0, mean - (Estimate.Z90 * sigma)),
            Math.Max(0, mean + (Estimate.Z90 * sigma))
        );
}
