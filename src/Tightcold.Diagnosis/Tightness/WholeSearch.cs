using System.Collections.Immutable;
using Tightcold.Diagnosis.Leaks;

namespace Tightcold.Diagnosis.Tightness;

/// <summary>One search round the whole circuit that found nothing but at the spots that have a check of their
/// own.</summary>
/// <param name="Like">Kind, pressure, seconds a spot, wind, dye, time, blindness; the outcome is "nothing".</param>
/// <param name="NotReached">Names of spots struck out.</param>
public sealed record WholeSearch(LeakTest Like, ImmutableArray<string> NotReached)
{
    /// <summary>Seconds at a spot where nobody counted: a pass by is hastier than a check of one spot;
    /// assumed.</summary>
    public const double HastySeconds = 20;
}
