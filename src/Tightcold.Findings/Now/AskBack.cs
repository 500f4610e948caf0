using Tightcold.Jobs.Entries;
using Tightcold.Jobs.Fields;
using Tightcold.Picture;
using Tightcold.Picture.Circuit;
using Tightcold.Quantities;

namespace Tightcold.Findings.Now;

/// <summary>What a person is asked back once before it is written down: it can be so, and it spoils the job.</summary>
public static class AskBack
{
    /// <summary>A fall on the scale that is a draw, kg.</summary>
    private const double DrawnKg = 0.005;

    /// <summary>The question; null where there is none.</summary>
    public static Phrase? Of(JobPicture picture, string kind, FieldBag fields)
    {
        ArgumentNullException.ThrowIfNull(picture);
        ArgumentNullException.ThrowIfNull(fields);
        if (!FillsIn(picture, kind, fields))
            return null;
        return picture.Timeline.Now switch
        {
            { Inside: Inside.Nitrogen } => Phrase.Words(
                "Nitrogen is inside: what goes in now mixes with it and must come out again. Let it out and pull a vacuum first."
            ),
            { Inside: Inside.Air, CameOpen: true, Openings: 0 } => Phrase.Words(
                "It came without pressure, and air is inside: what goes in now mixes with it. Find the hole and pull a vacuum first."
            ),
            { Inside: Inside.Air } => Phrase.Words(
                "It was opened and not pulled down since: air is inside, and what goes in now mixes with it. Pull a vacuum first."
            ),
            { Inside: Inside.Recovered } => Phrase.Words(
                "It was recovered and not pulled down since: what is left inside is not known. Pull a vacuum first."
            ),
            _ => null,
        };
    }

    private static bool FillsIn(JobPicture picture, string kind, FieldBag fields)
    {
        if (kind == EntryKinds.ContainerMoved)
            return fields.Text("action") is "opened" or "emptied";
        if (kind != EntryKinds.ScaleReading || fields.Text("container") is not { } name)
            return false;
        return picture.Mass.Holdings.TryGetValue(name, out var holding)
            && holding is { Weighed: true, GrossKg: { } before }
            && before - fields.Si("gross") > DrawnKg;
    }
}
