namespace Tightcold.Procedures.Hold;

/// <summary>What can make the pressure of a shut-off system move as it did, or stay.</summary>
public enum HoldExplanation
{
    /// <summary>Nothing comes in: the gas only follows its temperature.</summary>
    Tight,

    /// <summary>Tight; the oil still gives off dissolved gas, fading.</summary>
    OilGas,

    /// <summary>Tight; the rise or fall is the temperature's doing, more than the gas law alone.</summary>
    TemperatureDrift,

    /// <summary>Air comes in through a hole of the car.</summary>
    Leak,

    /// <summary>Air comes in through a hose, a valve of the gauge set, or a coupler.</summary>
    HoseLeak,

    /// <summary>Tight; water or ice boils off inside.</summary>
    Moisture,

    /// <summary>A hole, and the oil still gives off gas.</summary>
    LeakAndOilGas,

    /// <summary>A hole, and water boils off.</summary>
    LeakAndMoisture,

    /// <summary>A hole whose rise a cooling car hides, or a warming one enlarges.</summary>
    LeakAndTemperature,
}
