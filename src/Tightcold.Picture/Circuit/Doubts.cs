using Tightcold.Jobs.Entries;
using Tightcold.Jobs.Fields;
using Tightcold.Jobs.Journals;
using Tightcold.Picture.Pressures;
using Tightcold.Properties;

namespace Tightcold.Picture.Circuit;

/// <summary>Gauge readings that cannot be, told apart before anything else looks at them.</summary>
internal static class Doubts
{
    /// <summary>Errors of two gauges and what is left of the last run, in standard deviations and Pa;
    /// assumed.</summary>
    private const double Sigmas = 4,
        ApartPa = 0.3e5;

    /// <summary>A hot bay may warm a resting circuit this much above every temperature that was read, K; another gas
    /// may add this much, Pa. Both wider than practice knows.</summary>
    private const double HotterK = 25,
        OtherGasPa = 5e5;

    /// <summary>Relief devices open at 35 to 40 bar; common practice. R-744 systems are not judged here.</summary>
    private const double ReliefPa = 42e5;

    public static Doubt? Of(JobRecord record, Entry entry)
    {
        if (entry.Kind is not (EntryKinds.StandingReading or EntryKinds.RunningReading))
            return null;
        var (low, high) = (
            Gauges.Read(record, entry, FieldNames.LowSide),
            Gauges.Read(record, entry, FieldNames.HighSide)
        );
        if (
            low is { } l
            && high is { } h
            && l.Pascals - h.Pascals > (Sigmas * Math.Sqrt(Square(l.GaugeSigmaPa) + Square(h.GaugeSigmaPa))) + ApartPa
        )
            return Doubt.ChangedOver;
        var most = Math.Max(low?.Pascals ?? 0, high?.Pascals ?? 0);
        if (most > ReliefPa)
            return Doubt.TooHigh;
        return entry.Kind == EntryKinds.StandingReading && most > Highest(record, entry) ? Doubt.TooHigh : null;
    }

    /// <summary>What any refrigerant that fits these ports, with another gas, can stand at.</summary>
    private static double Highest(JobRecord record, Entry entry)
    {
        string[] fields =
        [
            FieldNames.AmbientTemperature,
            FieldNames.CondenserTemperature,
            FieldNames.EngineBayTemperature,
            FieldNames.CabinTemperature,
        ];
        var hottestK = fields.Max(field => entry.Fields.Si(field) ?? 0) + HotterK;
        var fluid = FluidCatalog.Get(record.Car.Refrigerant);
        return fluid.SaturationAtTemperature(Math.Clamp(hottestK, 250, fluid.CriticalTemperatureK - 1)).PressurePa
            + OtherGasPa;
    }

    private static double Square(double value) => value * value;
}
