using Tightcold.Diagnosis.Priors;
using Tightcold.Jobs.Cars;
using Tightcold.Loop.Designs;
using Tightcold.Quantities;
using static Tightcold.Picture.Pressures.Evidence;

namespace Tightcold.Picture.Machine;

/// <summary>What the label and the owner know, for the diagnosis.</summary>
internal static class CarMaker
{
    // Density of refrigeration oil, kg/m3; common practice.
    private const double OilDensity = 990;

    public static CarKnowledge Of(Car car, List<Assumption> assumptions)
    {
        if (car.LabelCharge is null)
            assumptions.Add(
                new(
                    Phrase.Of($"A label charge of {RefrigerantMass.FromKilograms(0.6)}, as a middle-sized car has"),
                    Phrase.Words("how full it is, is judged against the label: read the plate under the bonnet")
                )
            );
        if (car.Compressor is null || car.Device is null)
            assumptions.Add(
                new(
                    Phrase.Words("Every usual kind of circuit, by how common it is"),
                    Phrase.Words(
                        "which faults are possible hangs on compressor and expansion device: enter them with the car"
                    )
                )
            );
        return new(FluidOf(car).Name)
        {
            LabelChargeKg = car.LabelCharge?.Kilograms,
            Compressor = car.Compressor switch
            {
                Car.Cycling => CompressorKind.FixedCycling,
                Car.Fixed => CompressorKind.FixedWithFinThermostat,
                Car.Variable => CompressorKind.Variable,
                Car.Electric => CompressorKind.Electric,
                _ => null,
            },
            Expansion = car.Device switch
            {
                Car.ExpansionValve => ExpansionKind.ExpansionValve,
                Car.OrificeTube => ExpansionKind.OrificeTube,
                _ => null,
            },
            Evaporators = car.Evaporators,
            InternalVolumeM3 = car.InternalVolume?.CubicMetres,
            OilKg = car.OilAmount is { } oil ? oil.CubicMetres * OilDensity : null,
        };
    }
}
