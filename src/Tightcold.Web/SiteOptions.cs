using System.Collections.Immutable;
using Tightcold.Findings;
using Tightcold.Picture;
using Tightcold.Storage;
using Tightcold.Web.Lan;

namespace Tightcold.Web;

/// <summary>What the site needs to know to run.</summary>
/// <param name="DataFolder">Holds the data file and the keys that let a form survive a restart.</param>
/// <param name="Port">On loopback; 0 takes any free one.</param>
/// <param name="Clock">Now, and the local time zone.</param>
public sealed record SiteOptions(string DataFolder, int Port, TimeProvider Clock)
{
    /// <summary>Where findings come from; tests of the pages put constructed ones here.</summary>
    internal Func<JobPicture, ImmutableArray<Finding>> Findings { get; init; } = Walk.Of;

    /// <summary>Opens the data otherwise than usual; tests put a small disk or little patience here.</summary>
    internal Func<Task<JobStore>>? Store { get; init; }

    /// <summary>How long a job's page waits for faults to be weighed before it comes without them and shows them when
    /// they are there; by default not at all, since weighing takes a second.</summary>
    public TimeSpan Patience { get; init; }

    /// <summary>A database on a server instead of the file in the folder.</summary>
    public string? Connection { get; init; }

    /// <summary>Lets paired devices of the same network in; null, as by default, lets nobody in but this
    /// machine.</summary>
    public LanOptions? Lan { get; init; }

    /// <summary>The port of the documents, where nobody asks for another.</summary>
    public const int UsualPort = 5217;

    /// <summary>The program for the phone itself, as <c>./package phone</c> makes it, to be handed out at
    /// <see cref="Pages.Asked.Routes.Phone"/>; null, or a folder that holds none, hands out nothing.</summary>
    public string? PhoneFolder { get; init; }

    /// <summary>Of the environment, names that folder.</summary>
    public const string PhoneVariable = "TIGHTCOLD_PHONE";

    /// <summary>Whether a folder holds a whole program for phones.</summary>
    public static bool HoldsPhone(string? folder) => Http.PhoneFiles.AreIn(folder);

    /// <summary>Told of every failure that a person saw as an error page.</summary>
    public Action<string>? Log { get; init; }

    /// <summary>A folder for the log (see <see cref="Http.SiteLog"/>); null keeps none.</summary>
    public string? LogFolder { get; init; }
}
