namespace Tightcold.Loop.Results;

/// <summary>
/// How well the running state behind an answer closes. Energy is summed from the outside: air over the evaporator, gas
/// work, line gains and losses, condenser; not from the solver's own residual.
/// </summary>
/// <param name="Flow">Throttle's flow less the compressor's, over their mean.</param>
/// <param name="Energy">Heat and work into the circuit less what leaves it, over the heat that leaves it.</param>
/// <param name="Charge">Refrigerant in all parts and what found no room, less the charge, over the charge.</param>
/// <param name="UnplacedChargeKg">Charge that finds no place at the cut-out pressure and backs up as liquid until the
/// switch opens; 0 in front of the high-pressure switch.</param>
public readonly record struct LoopBalance(double Flow, double Energy, double Charge, double UnplacedChargeKg)
{
    /// <summary>The largest of the three, without sign.</summary>
    public double Worst => Math.Max(Math.Abs(Flow), Math.Max(Math.Abs(Energy), Math.Abs(Charge)));
}
