using System.Collections.Immutable;
using Tightcold.Diagnosis.Measurement;
using Tightcold.Diagnosis.Priors;
using Tightcold.Loop;
using Tightcold.Loop.Designs;
using Tightcold.Loop.Faults;
using Tightcold.Loop.Refrigerant;
using Tightcold.Loop.Results;

namespace Tightcold.Diagnosis.Inference;

/// <summary>From the coordinates of one explanation to what the instruments would show at every point.</summary>
internal sealed class CarSimulator
{
    private readonly CarPrior car;
    private readonly RefrigerantTable table;

    public CarSimulator(CarKnowledge knowledge)
    {
        car = new CarPrior(knowledge);
        table = RefrigerantTables.For(knowledge.Refrigerant);
    }

    public double LabelKg => car.LabelKg;

    /// <summary>Ranges of the coordinate of the circuit's kind, one a kind that can have these faults.</summary>
    public ImmutableArray<KindRange> KindRanges(IReadOnlyList<Fault> faults) => car.KindRanges(faults);

    /// <summary>The car of these coordinates, ready to be run.</summary>
    public Car At(IReadOnlyList<Fault> faults, ReadOnlySpan<double> z)
    {
        var (share, model) = FaultPrior.Of(faults, z);
        var design = car.Design(z, faults);
        return new(new LoopModel(design, table), design, share * design.LabelChargeKg, model);
    }

    /// <summary>Runs a car at a point and stores the numbers; null when the model finds no steady state.</summary>
    public static LoopResult? Run(Car car, OperatingPoint point, ReadOnlySpan<double> z, LoopStart? near, Span<double> row)
    {
        var result = car.Model.Solve(ConditionsOf.Of(point, z), car.ChargeKg, car.Faults, near);
        if (result.Readings is null) return null;
        Predicted.Store(result, row, point.SwingRead);
        return result;
    }

    /// <summary>Standing pressure and the refrigerant's own at that temperature, Pa absolute.</summary>
    public (double PressurePa, double SaturationPa) Standing(Car car, double temperatureK)
    {
        var conditions = new LoopConditions { AmbientK = Math.Clamp(temperatureK, LoopLimits.MinAmbientK, LoopLimits.MaxAmbientK) };
        // A clutch that does not pull leaves the model nothing to solve but the parked car.
        var parked = car.Model.Solve(conditions, car.ChargeKg, car.Faults with { ClutchSlip = 1 });
        return (parked.StaticPa, table.SaturationPressurePa(conditions.AmbientK));
    }

    /// <summary>A design with its faults and charge.</summary>
    internal sealed record Car(LoopModel Model, LoopDesign Design, double ChargeKg, LoopFaults Faults);
}
