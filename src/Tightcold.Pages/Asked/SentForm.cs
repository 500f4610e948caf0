using System.Collections.Immutable;
using System.Globalization;
using Tightcold.Jobs.Cars;
using Tightcold.Jobs.Entries;
using Tightcold.Jobs.Fields;
using Tightcold.Jobs.Kits;
using Tightcold.Pages.Words;
using Tightcold.Tongues;

namespace Tightcold.Pages.Asked;

/// <summary>A form that was sent and could not be kept, to be sent again as it was: under the same id, so that it
/// counts once, and with the time at which it was sent first.</summary>
/// <param name="Action">Where it goes.</param>
/// <param name="Fields">Everything in it but its token, which is made anew.</param>
/// <param name="Files">Names of files that came with it; a page cannot hand those back.</param>
public sealed record SentForm(
    string Action,
    ImmutableArray<(string Name, string Value)> Fields,
    ImmutableArray<string> Files
)
{
    /// <summary>The field that says when it was sent first, by this machine's clock, in milliseconds.</summary>
    public const string First = "first-sent";

    /// <summary>The field that says how many seconds ago that was.</summary>
    public const string Ago = "ago";

    /// <param name="action">Where it went.</param>
    /// <param name="fields">All of it; a token, and what was said of when it was sent, are taken out.</param>
    /// <param name="files">Names of files that came with it; empty ones are none.</param>
    /// <param name="now">When it came. How long ago it was is counted on from here, however long the page is looked
    /// at.</param>
    public static SentForm Of(
        string action,
        IReadOnlyCollection<(string Name, string Value)> fields,
        IEnumerable<string> files,
        DateTimeOffset now
    )
    {
        string? Said(string name) => fields.FirstOrDefault(field => field.Name == name).Value;
        var waited = double.TryParse(
            Said(Ago),
            NumberStyles.AllowDecimalPoint,
            CultureInfo.InvariantCulture,
            out var seconds
        )
            ? Math.Min(seconds, TimeSpan.FromDays(365).TotalSeconds)
            : 0;
        var first = Moment(Said(First)) ?? now.AddSeconds(-waited);
        return new(
            action,
            [
                .. fields.Where(field => field.Name is not ("token" or First or Ago)),
                (First, first.ToUnixTimeMilliseconds().ToString(CultureInfo.InvariantCulture)),
            ],
            [.. files.Where(name => name.Length > 0)]
        );
    }

    /// <summary>What <see cref="Ago"/> says now of a form that says when it was sent first; null where it does
    /// not.</summary>
    public static string? AgoOf(string? first, DateTimeOffset now) =>
        Moment(first) is { } then
            ? Math.Max(0, (now - then).TotalSeconds).ToString("0.###", CultureInfo.InvariantCulture)
            : null;

    private static DateTimeOffset? Moment(string? text) =>
        long.TryParse(text, NumberStyles.None, CultureInfo.InvariantCulture, out var milliseconds)
        && milliseconds < DateTimeOffset.MaxValue.ToUnixTimeMilliseconds()
            ? DateTimeOffset.FromUnixTimeMilliseconds(milliseconds)
            : null;

    /// <summary>What a person typed, as the fields name it, with its unit behind it.</summary>
    public IEnumerable<(string Name, string Value)> Typed =>
        Fields
            .Where(one => one.Name.StartsWith("f.", StringComparison.Ordinal) && one.Value.Length > 0)
            .Select(one => Read(one.Name[2..], one.Value));

    private (string, string) Read(string name, string value) =>
        Schema?.Find(name) is { } field
            ? (Say.Within(field.Label), $"{EntryWords.Read(field, value)} {UnitOf(name)}".Trim())
            : (name.Replace('-', ' '), $"{value} {UnitOf(name)}".Trim());

    /// <summary>Whose fields they are, by where it goes; null where that is not known.</summary>
    private Schema? Schema =>
        EntryKinds.Find(Action.Split('?')[0].Split('/')[^1])
        ?? (
            Action.StartsWith(Routes.NewContainer, StringComparison.Ordinal) ? Container.Schema
            : Action.StartsWith(Routes.Kit, StringComparison.Ordinal) ? Kit.Schema
            : Action.StartsWith(Routes.Cars, StringComparison.Ordinal) ? Car.Schema
            : null
        );

    private string? UnitOf(string name) => Fields.FirstOrDefault(one => one.Name == "u." + name).Value;
}
