namespace Tightcold.Findings;

/// <summary>A number that bears no more than one figure.</summary>
public static class OneFigure
{
    /// <param name="value">Above 0.</param>
    public static double Of(double value)
    {
        var step = Math.Pow(10, Math.Floor(Math.Log10(value)));
        return Math.Round(value / step) * step;
    }
}
