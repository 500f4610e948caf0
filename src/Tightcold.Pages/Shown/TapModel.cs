using System.Collections.Immutable;
using Tightcold.Jobs.Entries;
using Tightcold.Jobs.Journals;
using Tightcold.Pages.Forms;

namespace Tightcold.Pages.Shown;

/// <summary>An entry of one choice as a page of big rows: tapped is written down.</summary>
/// <param name="Id">Made with the page, so that sending it twice adds nothing twice.</param>
/// <param name="Wrote">The entry that was just written here, to be read back; or null.</param>
/// <param name="First">The group that a person came here for; null where none stands out.</param>
public sealed record TapModel(JobRecord Record, FormSheet Sheet, Guid Id, Entry? Wrote, string? First)
{
    /// <summary>One look and what may be found; <paramref name="Last"/> is what was found last.</summary>
    public sealed record Group(string? Name, ImmutableArray<string> Words, string? Last);

    /// <summary>The one field of the entry.</summary>
    public string Field => Sheet.Schema.Fields[0].Name;

    public ImmutableArray<Group> Groups =>
        Sheet.Schema.Name == EntryKinds.Story
            ? [new(null, StoryWords.All, LastOf(StoryWords.All))]
            : [.. SignWords.Groups.Select(group => new Group(group.Name, group.Seen, LastOf(group.Seen)))];

    /// <summary>Kinds that are written by a tap.</summary>
    public static bool Fits(string kind) => kind is EntryKinds.Story or EntryKinds.Sign;

    private string? LastOf(ImmutableArray<string> words) =>
        Record
            .Journal.OfKind(Sheet.Schema.Name)
            .Select(entry => entry.Fields.Text(Field))
            .LastOrDefault(word => word is not null && words.Contains(word));
}
