namespace Tightcold.Diagnosis.Leaks;

/// <summary>What a person can do about a car that loses refrigerant.</summary>
public enum WayForward
{
    RepairAllFound,
    RepairLikeliest,

    /// <summary>Only where the law allows it.</summary>
    TopUpAndWatch,
    Workshop,
}
