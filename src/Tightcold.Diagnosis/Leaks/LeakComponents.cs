namespace Tightcold.Diagnosis.Leaks;

/// <summary>From a spot's name to its kind, also for names that a person gave.</summary>
public static class LeakComponents
{
    private static readonly (string Word, LeakComponent Component)[] Words =
    [
        ("shaft", LeakComponent.ShaftSeal),
        ("relief", LeakComponent.Relief),
        ("service valve", LeakComponent.ServiceValve),
        ("port", LeakComponent.ServiceValve),
        ("valve core", LeakComponent.ServiceValve),
        ("switch", LeakComponent.Sensor),
        ("sensor", LeakComponent.Sensor),
        ("transducer", LeakComponent.Sensor),
        ("expansion valve", LeakComponent.ValveBlock),
        ("block", LeakComponent.ValveBlock),
        ("joint", LeakComponent.Joint),
        ("fitting", LeakComponent.Joint),
        ("o-ring", LeakComponent.Joint),
        ("hose", LeakComponent.Hose),
        ("crimp", LeakComponent.Hose),
        ("condenser", LeakComponent.Condenser),
        ("evaporator", LeakComponent.Evaporator),
        ("drier", LeakComponent.Drier),
        ("accumulator", LeakComponent.Drier),
        ("compressor", LeakComponent.CompressorBody),
        ("line", LeakComponent.Pipe),
        ("pipe", LeakComponent.Pipe),
    ];

    public static LeakComponent FromName(string spot)
    {
        foreach (var (word, component) in Words)
            if (spot.Contains(word, StringComparison.OrdinalIgnoreCase))
                return component;
        return LeakComponent.Joint;
    }
}
