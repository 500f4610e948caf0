using Tightcold.Loop.Designs;
using Tightcold.Loop.Faults;
using Tightcold.Loop.Refrigerant;
using Tightcold.Loop.Results;
using Tightcold.Loop.Solving;

namespace Tightcold.Loop;

/// <summary>
/// What a car's air conditioning would read in the steady state. Immutable and thread-safe; one solve takes some tens
/// of microseconds. Inputs outside <see cref="LoopLimits"/> are refused with <see cref="ArgumentOutOfRangeException"/>;
/// within them every answer is a named state, closed to 1e-6 or <see cref="LoopState.NotClosed"/> with the reason.
/// </summary>
public sealed class LoopModel
{
    private readonly RefrigerantTable _table;

    /// <summary>A model of a design filled with the refrigerant of its label.</summary>
    public LoopModel(LoopDesign design)
        : this(design, RefrigerantTables.For((design ?? throw new ArgumentNullException(nameof(design))).Refrigerant))
    { }

    /// <summary>A model of a design filled with whatever the table describes: a wrong or mixed refrigerant.</summary>
    public LoopModel(LoopDesign design, RefrigerantTable table)
    {
        ArgumentNullException.ThrowIfNull(design);
        ArgumentNullException.ThrowIfNull(table);
        Design = design;
        _table = table;
    }

    public LoopDesign Design { get; }

    /// <summary>The refrigerant as the model reads it, for turning pressures into saturation temperatures.</summary>
    public RefrigerantTable Refrigerant => _table;

    /// <summary>A sound car with its label charge.</summary>
    public LoopResult Solve(LoopConditions conditions) => Solve(conditions, Design.LabelChargeKg, LoopFaults.None);

    /// <summary>The steady state for a charge and faults.</summary>
    /// <param name="conditions">The day and how the car is run.</param>
    /// <param name="chargeKg">Refrigerant in the circuit, kg.</param>
    /// <param name="faults">What is wrong.</param>
    /// <param name="near">Where to start: an answer's <see cref="LoopResult.Start"/> to nearly the same question saves
    /// about half the work.</param>
    /// <exception cref="ArgumentOutOfRangeException">An input outside <see cref="LoopLimits"/> or not a
    /// number.</exception>
    public LoopResult Solve(LoopConditions conditions, double chargeKg, LoopFaults faults, LoopStart? near = null)
    {
        InputCheck.All(Design, conditions, chargeKg, faults);
        var work = new RunningWork(_table, Design, conditions, chargeKg, faults);
        return work.Answer(near);
    }
}
