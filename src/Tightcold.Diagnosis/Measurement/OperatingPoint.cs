using System.Collections.Immutable;
using Tightcold.Diagnosis.Priors;
using Tightcold.Loop;

namespace Tightcold.Diagnosis.Measurement;

/// <summary>One way of running the car, and what was read then. SI; a sigma is one standard deviation of what is not
/// known about the running, not of the instruments.</summary>
public sealed record OperatingPoint
{
    /// <summary>Outside air, K, 278 to 325.</summary>
    public required double AmbientK { get; init; }

    public double AmbientSigmaK { get; init; } = 1;

    /// <summary>0 to 1.</summary>
    public double RelativeHumidity { get; init; } = 0.5;

    public double HumiditySigma { get; init; } = 0.15;

    public double BarometricPa { get; init; } = 101325;

    /// <summary>Turns a minute.</summary>
    public double EngineRpm { get; init; } = 1500;

    /// <summary>Relative.</summary>
    public double EngineSigma { get; init; } = 0.05;

    /// <summary>Share of the full blower, 0.15 to 1.</summary>
    public double BlowerShare { get; init; } = 1;

    /// <summary>1 fresh, 0 recirculated.</summary>
    public double FreshShare { get; init; } = 1;

    /// <summary>Whether anybody said which air the blower took; if not, <see cref="FreshShare"/> is not used.</summary>
    public bool IntakeSaid { get; init; } = true;

    /// <summary>Cabin air, K; null takes the outside air's with doors open.</summary>
    public double? CabinK { get; init; }

    public double CabinSigmaK { get; init; } = 1;

    /// <summary>Humidity of the cabin air, 0 to 1; null where it follows from the outside air and what the coil
    /// took.</summary>
    public double? CabinRelativeHumidity { get; init; }

    public DoorsAre Doors { get; init; }

    /// <summary>Since the air conditioning was switched on, minutes; null for settled.</summary>
    public double? MinutesRunning { get; init; }

    /// <summary>The low-pressure switch was bridged while reading.</summary>
    public bool SwitchBridged { get; init; }

    public Aid Aid { get; init; }

    public ImmutableArray<Reading> Readings { get; init; } = [];

    /// <summary>Whether both ends of a swinging low side were read.</summary>
    internal bool SwingRead => Readings.Any(reading => reading.Channel == Channel.LowSwingTop);

    /// <summary>Whether both ends of a swinging high side were read.</summary>
    internal bool HighSwingRead => Readings.Any(reading => reading.Channel == Channel.HighSwingTop);

    /// <summary>Clutch cycles a minute, as counted.</summary>
    public double? CyclesPerMinute { get; init; }

    public ClutchSeen Clutch { get; init; }

    public GlassSeen Glass { get; init; }

    public FrostSeen Frost { get; init; }

    /// <summary>Equal in every number and word: readings are compared one by one, the rest as a whole.</summary>
    public bool SaysTheSameAs(OperatingPoint other)
    {
        ArgumentNullException.ThrowIfNull(other);
        return Readings.SequenceEqual(other.Readings) && this with { Readings = [] } == other with { Readings = [] };
    }

    /// <summary>The loop model's conditions for it, with everything that is not known at its middle.</summary>
    public LoopConditions MiddleConditions => ConditionsOf.Of(this, new double[Coordinate.Count]);
}
