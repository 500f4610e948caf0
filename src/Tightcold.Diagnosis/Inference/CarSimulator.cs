using System.Collections.Immutable;
using Tightcold.Diagnosis.Faults;
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
    private readonly RefrigerantTable[] others;
    private readonly Population population;
    private readonly bool hidden;
    private readonly CarMemory? memory;

    /// <param name="knowledge">What is known of the car.</param>
    /// <param name="hidden">Whether a shortage that does not show counts as sound.</param>
    /// <param name="population">What sound cars are like; null for the shipped one.</param>
    /// <param name="memory">What this car was like when it was sound; null where nobody knows.</param>
    public CarSimulator(
        CarKnowledge knowledge,
        bool hidden = false,
        Population? population = null,
        CarMemory? memory = null
    )
    {
        this.memory = memory;
        this.population = population ?? Population.Shipped;
        car = new CarPrior(knowledge, this.population);
        this.hidden = hidden;
        table = RefrigerantTables.For(knowledge.Refrigerant);
        others =
            knowledge.Refrigerant == "R134a"
                ? [RefrigerantTables.For("R152a"), RefrigerantTables.For("R1234yf")]
                : [RefrigerantTables.For("R134a"), RefrigerantTables.For("R152a")];
    }

    public double LabelKg => car.LabelKg;

    /// <summary>Whether a shortage that receiver or accumulator covers counts as sound.</summary>
    public bool HiddenIsSound => hidden;

    /// <summary>Ranges of the coordinate of the circuit's kind, one a kind that can have these faults.</summary>
    public ImmutableArray<KindRange> KindRanges(IReadOnlyList<Fault> faults) => car.KindRanges(faults);

    /// <summary>The car of these coordinates, ready to be run.</summary>
    public Car At(IReadOnlyList<Fault> faults, ReadOnlySpan<double> drawn)
    {
        Span<double> own = stackalloc double[memory is null ? 0 : Coordinate.Count];
        memory?.Recall(drawn, own);
        var z = memory is null ? drawn : own;
        var (share, model) = FaultPrior.Of(faults, z, hidden);
        var design = car.Design(z, faults);
        var filled = faults.Contains(Fault.WrongRefrigerant) ? others[z[Coordinate.Form] < 0 ? 0 : 1] : table;
        return new(new LoopModel(design, filled), design, share * design.LabelChargeKg, model)
        {
            Iced = FaultPrior.Attacked(faults, model, z),
        };
    }

    /// <summary>Runs a car at a point and stores the numbers; null when the model finds no steady state.</summary>
    /// <param name="iced">Its throttle closed by ice just now.</param>
    public LoopResult? Run(
        Car car,
        OperatingPoint point,
        ReadOnlySpan<double> drawn,
        LoopStart? near,
        Span<double> row,
        bool iced = false
    )
    {
        Span<double> own = stackalloc double[memory is null ? 0 : Coordinate.Count];
        memory?.Recall(drawn, own);
        var z = memory is null ? drawn : own;
        var faults = iced ? car.Iced! : car.Faults;
        var result = car.Model.Solve(ConditionsOf.Of(point, z, population), car.ChargeKg, faults, near);
        if (result.Readings is null)
            return null;
        Predicted.Store(result, point, row);
        memory?.Correct(own, row);
        row[Predicted.AirPa] = faults.AirExcessPa;
        row[Predicted.Tube] = car.HasTube ? 1 : 0;
        return result;
    }

    /// <summary>Standing pressure and the refrigerant's own at that temperature, Pa absolute.</summary>
    public static (double PressurePa, double SaturationPa) Standing(Car car, double temperatureK)
    {
        var conditions = new LoopConditions
        {
            AmbientK = Math.Clamp(temperatureK, LoopLimits.MinAmbientK, LoopLimits.MaxAmbientK),
        };
        // A clutch that does not pull leaves the model nothing to solve but the parked car.
        var parked = car.Model.Solve(conditions, car.ChargeKg, car.Faults with { ClutchSlip = 1 });
        return (parked.StaticPa, car.Model.Refrigerant.SaturationPressurePa(conditions.AmbientK));
    }

    /// <summary>A design with its faults and charge.</summary>
    internal sealed record Car(LoopModel Model, LoopDesign Design, double ChargeKg, LoopFaults Faults)
    {
        /// <summary>The same with its throttle iced up; null where no water is in it.</summary>
        public LoopFaults? Iced { get; init; }

        public bool HasTube => Design.Expansion == ExpansionKind.OrificeTube;
    }
}
