namespace Tightcold.Procedures.Cans;

/// <summary>Why a can stopped giving.</summary>
public enum CanEnd
{
    /// <summary>What was wanted has left it.</summary>
    Delivered,

    /// <summary>No liquid left, and its vapour stands at the pressure of the system.</summary>
    Emptied,

    /// <summary>Pressures are equal with liquid still in the can: nothing more will come.</summary>
    Equalised,

    /// <summary>The system stands above the can: opening it would fill the can.</summary>
    Backflow,

    /// <summary>Still giving when the time was up.</summary>
    TimeUp,
}
