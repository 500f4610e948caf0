using System.Collections.Immutable;

namespace Tightcold.Procedures.Cans;

/// <summary>How a can gave: modelled, not measured.</summary>
/// <param name="Moments">From opening to the end.</param>
/// <param name="End">Why it stopped.</param>
/// <param name="GivenKg">Left the can in all.</param>
/// <param name="StallSeconds">When the flow first fell below a tenth of a gram a second with liquid left; null if it
/// never did.</param>
/// <param name="HeatInJ">From the surroundings.</param>
/// <param name="EnthalpyOutJ">Carried off, with the zero of the fluid's equation.</param>
/// <param name="EnergyErrorJ">Energy at the end minus (at the start + heat − enthalpy): what the model failed to
/// account for.</param>
/// <param name="SurroundingsEndK">Temperature of air or bath at the end.</param>
public sealed record CanRun(
    ImmutableArray<CanMoment> Moments,
    CanEnd End,
    double GivenKg,
    double? StallSeconds,
    double HeatInJ,
    double EnthalpyOutJ,
    double EnergyErrorJ,
    double SurroundingsEndK
)
{
    public double Seconds => Moments[^1].Seconds;

    /// <summary>The coldest the can gets, K.</summary>
    public double ColdestK => Moments.Min(moment => moment.TemperatureK);
}
