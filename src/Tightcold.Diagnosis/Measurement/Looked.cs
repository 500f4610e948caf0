using Tightcold.Loop.Faults;

namespace Tightcold.Diagnosis.Measurement;

/// <summary>A modelled car as somebody looks at it.</summary>
/// <param name="car">How bad its faults are.</param>
/// <param name="row">The car at the first way of running, a row of <see cref="Predicted.Width"/>; empty without
/// any.</param>
/// <param name="tube">Orifice tube in place of a valve.</param>
internal readonly ref struct Looked(LoopFaults car, ReadOnlySpan<double> row, bool tube)
{
    private readonly ReadOnlySpan<double> row = row;

    public LoopFaults Car { get; } = car;

    public bool Tube { get; } = tube;

    /// <summary>The compressor stands still.</summary>
    public bool Off => !row.IsEmpty && row[Predicted.Off] > 0;

    /// <summary>The compressor is switched off and on.</summary>
    public bool Cycles => !row.IsEmpty && row[Predicted.Off] == 0 && row[Predicted.Duty] < 0.97;

    /// <summary>Odds that the low pipe feels cold.</summary>
    public double LowPipeCold =>
        row.IsEmpty ? 0.7 : 0.06 + (0.88 * Logistic((290.15 - row[(int)Channel.SuctionLine]) / 2.5));

    /// <summary>How far a step along the liquid line can be felt, 0 to 1.</summary>
    public double Step => row.IsEmpty ? 0.7 : Logistic((row[(int)Channel.LineStep] - 4) / 1.5);

    private static double Logistic(double x) => 1 / (1 + Math.Exp(-Math.Clamp(x, -40, 40)));
}

/// <summary>What a fault makes of the odds of a look's outcomes; false where it says nothing of that look.</summary>
/// <param name="look">The look's first outcome.</param>
/// <param name="odds">As a sound car would show; replaced.</param>
internal delegate bool SignRule(Sign look, Looked at, Span<double> odds);
