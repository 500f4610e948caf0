using System.Collections.Immutable;
using Tightcold.Quantities;

namespace Tightcold.Jobs.Entries;

/// <summary>Why a car is looked at, as it is written down.</summary>
public static class StoryWords
{
    public const string BroughtInWarm = "brought in warm";
    public const string WarmAtIdle = "works at speed, fails at idle";
    public const string WarmAfterTenMinutes = "warm after ten minutes";
    public const string CheckUp = "check-up";
    public const string JustMended = "just mended and weighed";
    public const string CameBack = "came back after a week";
    public const string NotSaid = "not said";

    [Said]
    public static ImmutableArray<string> All { get; } =
    [BroughtInWarm, WarmAtIdle, WarmAfterTenMinutes, CheckUp, JustMended, CameBack, NotSaid];
}
