namespace Tightcold.Procedures.Evacuation;

/// <summary>Liquid water that may be inside, before anything is read.</summary>
public static class WaterGuess
{
    /// <summary>Water inside, kg: a film from the air of the closed-up system, and what oil and desiccant took up while
    /// it stood open. Assumed: 0.05 g at once, 0.15 g more each hour open in air of 10 g/m³ vapour; a new drier takes
    /// most of it.</summary>
    /// <param name="openSeconds">Open to air.</param>
    /// <param name="vapourKgPerM3">Water in the air outside.</param>
    /// <param name="newDrier">A new drier was fitted last.</param>
    public static (double Kilograms, double Spread) Of(double openSeconds, double vapourKgPerM3, bool newDrier)
    {
        var hours = Math.Clamp(openSeconds / 3600, 0, 24 * 30);
        var grams = 0.05 + 0.15 * Math.Min(hours, 48) * vapourKgPerM3 / 0.010;
        return (1e-3 * grams * (newDrier ? 0.4 : 1), 0.8);
    }
}
