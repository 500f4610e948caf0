namespace Tightcold.Loop.Solving;

/// <summary>How a solve ended.</summary>
internal enum SolveEnd
{
    /// <summary>All residuals vanish.</summary>
    Converged,

    /// <summary>Even at the highest pressure of the table the circuit holds less than the charge.</summary>
    NoRoomForCharge,

    /// <summary>Even at the lowest pressure of the table the circuit holds more than the charge.</summary>
    ChargeTooSmall,

    /// <summary>The brackets closed on a jump, or there was none: no steady state was found.</summary>
    NotClosed,
}
