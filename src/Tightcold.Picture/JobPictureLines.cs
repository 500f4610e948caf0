namespace Tightcold.Picture;

/// <summary>Odds from which something is told, the same on every page.</summary>
public static class JobPictureLines
{
    /// <summary>A fault, or that nothing is wrong, is told as the answer.</summary>
    public const double Told = 0.8;

    /// <summary>It is named as the likely one.</summary>
    public const double Likely = 0.5;
}
