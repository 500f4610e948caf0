using Tightcold.Diagnosis.Leaks;

namespace Tightcold.Diagnosis.Tightness;

/// <summary>How leaks of a kind behave under a test that is not rest with liquid inside. Assumed from
/// practice.</summary>
/// <param name="ShutsUnderVacuum">Odds that such a leak closes when the air presses from outside: lips, flaps,
/// cores.</param>
/// <param name="OpensRunning">Odds that it leaks only warm or running, hardly at rest.</param>
internal readonly record struct SpotHabit(double ShutsUnderVacuum, double OpensRunning)
{
    /// <summary>What a shut leak still passes, and what one that opens running passes at rest.</summary>
    public const double ShutShare = 0.02,
        RestShare = 0.1;

    public static SpotHabit Of(LeakComponent component) =>
        component switch
        {
            LeakComponent.ShaftSeal => new(0.30, 0.15),
            LeakComponent.Relief or LeakComponent.ServiceValve => new(0.25, 0.04),
            LeakComponent.Hose => new(0.12, 0.08),
            LeakComponent.Joint or LeakComponent.ValveBlock or LeakComponent.Sensor => new(0.10, 0.05),
            _ => new(0.05, 0.04),
        };
}
