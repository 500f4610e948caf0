using System.Globalization;
using Tightcold.Jobs.Fields;
using Tightcold.Quantities;

namespace Tightcold.Pages.Shown;

/// <summary>How many seconds ago something was read, as the browser that kept it says: a phone's clock may run wrong,
/// its difference does not.</summary>
internal static class Waited
{
    /// <summary>An entry that waited longer than this in a browser is asked about instead of taken.</summary>
    private static readonly TimeSpan Longest = TimeSpan.FromDays(14);

    public static (DateTimeOffset? When, InputProblem? Problem) Since(string? ago, DateTimeOffset now)
    {
        if (string.IsNullOrWhiteSpace(ago))
            return (null, null);
        return
            double.TryParse(ago, NumberStyles.AllowDecimalPoint, CultureInfo.InvariantCulture, out var seconds)
            && seconds <= Longest.TotalSeconds
            ? (now.AddSeconds(-Math.Floor(seconds)), null)
            : (
                null,
                new(
                    "ago",
                    ago,
                    Phrase.Words("an entry may wait fourteen days in a browser; write an older one down with its time")
                )
            );
    }
}
