using Tightcold.Jobs.Cars;
using Tightcold.Jobs.Entries;
using Tightcold.Jobs.Kits;
using Tightcold.Properties;
using Tightcold.Quantities;

namespace Tightcold.Picture.Pressures;

/// <summary>Readings with their standard deviations: a ± of an instrument is taken as its 95 % limit.</summary>
public static class Evidence
{
    public const double SigmasInPlusMinus = Gauges.SigmasInPlusMinus;

    public static Fluid FluidOf(Car car) => FluidCatalog.Get(car.Refrigerant);

    public static double TemperatureSigma(Entry entry, string field, Kit kit) =>
        (entry.Fields.PlusMinusSi(field) ?? kit.ThermometerPlusMinusK) / SigmasInPlusMinus;

    public static double MassSigma(Entry entry, string field, Kit kit) =>
        (entry.Fields.PlusMinusSi(field) ?? kit.ScalePlusMinusKg) / SigmasInPlusMinus;

    /// <summary>Internal volume: the car's own figure, else from the label charge at 0.26 kg per litre (0.22 to 0.30
    /// for vehicle systems; common practice), else 2.5 L.</summary>
    public static (double M3, double RelativeSigma, Assumption? Assumption) VolumeOf(Car car)
    {
        if (car.InternalVolume is { } known)
            return (
                known.CubicMetres,
                car.VolumeMeasured ? 0.03 : 0.10,
                car.VolumeMeasured
                    ? null
                    : new(
                        Phrase.Of($"Internal volume {known}, not measured"),
                        Phrase.Of($"the mass follows it one to one")
                    )
            );
        if (car.LabelCharge is { } label)
        {
            var guess = label.Kilograms / 260;
            return (
                guess,
                0.15,
                new(
                    Phrase.Of(
                        $"Internal volume about {InternalVolume.FromCubicMetres(guess)}, from the label charge at "
                            + $"{RefrigerantMass.FromKilograms(0.26)} a litre as such systems have"
                    ),
                    Phrase.Of($"the mass follows it one to one; measured once, it serves for the life of the car")
                )
            );
        }
        return (
            2.5e-3,
            0.25,
            new(
                Phrase.Of($"Internal volume {InternalVolume.FromCubicMetres(2.5e-3)}, as a middle-sized car has"),
                Phrase.Of($"the mass follows it one to one: give the label charge or the volume")
            )
        );
    }

    /// <summary>Oil in the system: the car's figure, else 130 mL (100 to 180 mL for passenger cars; common
    /// practice).</summary>
    public static double OilM3(Car car) => car.OilAmount?.CubicMetres ?? 130e-6;

    public static Measure Kelvins(double kelvins) => Measure.Kelvins(kelvins);

    public static Measure At(double kelvins) => Measure.AbsoluteTemperature(kelvins);

    public static Measure Kilograms(double kilograms) => Measure.Kilograms(Math.Abs(kilograms) < 5e-7 ? 0 : kilograms);

    /// <summary>Odds for a person: never nought and never certain.</summary>
    public static Measure Odds(double odds) => Measure.Ratio(Math.Clamp(odds, 0.01, 0.99));

    public static Measure Share(double share) => Measure.Ratio(share);

    public static Measure Gauge(double pascals) => new(QuantityKind.GaugePressure, pascals);

    public static Measure Absolute(double pascals) => new(QuantityKind.AbsolutePressure, pascals);

    public static Measure Vacuum(double pascals) => new(QuantityKind.Vacuum, Math.Max(0, pascals));

    public static Measure Difference(double pascals) => new(QuantityKind.PressureDifference, pascals);

    public static Measure GramsPerYear(double kilogramsPerSecond) => new(QuantityKind.LeakRate, kilogramsPerSecond);
}
