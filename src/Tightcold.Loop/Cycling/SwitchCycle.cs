using Tightcold.Numerics.Smoothing;

namespace Tightcold.Loop.Cycling;

/// <summary>
/// A body of heat capacity C that the running compressor drives from one switch point to the other and that drifts back
/// while it rests: both exponential, so times and means are closed form.
/// </summary>
/// <param name="Duty">Share of time the compressor runs.</param>
/// <param name="PeriodS">On and off together, s.</param>
/// <param name="MeanK">Time mean of the temperature.</param>
/// <param name="OnMeanK">Its mean while the compressor runs.</param>
/// <param name="OffMeanK">Its mean while it rests.</param>
internal readonly record struct SwitchCycle(double Duty, double PeriodS, double MeanK, double OnMeanK, double OffMeanK)
{
    // A steady state within this of a switch point is not told from it: the logarithm stays finite.
    private const double LeastDistanceK = 0.3;

    /// <param name="offK">Temperature where the switch opens.</param>
    /// <param name="onK">Temperature where it closes again.</param>
    /// <param name="runningK">Where running would end.</param>
    /// <param name="restingK">Where resting would end.</param>
    /// <param name="heatCapacity">J/K.</param>
    /// <param name="runningWPerK">Conductance towards <paramref name="runningK"/>.</param>
    /// <param name="restingWPerK">Conductance towards <paramref name="restingK"/>.</param>
    public static SwitchCycle Of(
        double offK,
        double onK,
        double runningK,
        double restingK,
        double heatCapacity,
        double runningWPerK,
        double restingWPerK
    )
    {
        var sign = Math.Sign(onK - offK);
        var swing = Math.Abs(onK - offK);
        var beyondOff = Smooth.Max(sign * (offK - runningK), LeastDistanceK, LeastDistanceK);
        var beyondOn = Smooth.Max(sign * (restingK - onK), LeastDistanceK, LeastDistanceK);
        var onLog = Math.Log(1 + (swing / beyondOff));
        var offLog = Math.Log(1 + (swing / beyondOn));
        var on = heatCapacity / runningWPerK * onLog;
        var off = heatCapacity / restingWPerK * offLog;
        var duty = on / (on + off);
        var onMean = offK - (sign * beyondOff) + (sign * swing / onLog);
        var offMean = onK + (sign * beyondOn) - (sign * swing / offLog);
        return new(duty, on + off, (duty * onMean) + ((1 - duty) * offMean), onMean, offMean);
    }
}
