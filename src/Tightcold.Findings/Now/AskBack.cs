using Tightcold.Jobs.Entries;
using Tightcold.Jobs.Fields;
using Tightcold.Picture;
using Tightcold.Picture.Circuit;
using Tightcold.Quantities;
using static Tightcold.Picture.Pressures.Evidence;

namespace Tightcold.Findings.Now;

/// <summary>What a person is asked back once before it is written down: it can be so, and it spoils the job.</summary>
public static class AskBack
{
    /// <summary>A fall on the scale that is a draw, kg.</summary>
    private const double DrawnKg = 0.005;

    /// <summary>A tap lets several grams of liquid through a second; faster than this nothing flows; assumed.</summary>
    private const double FastestKgPerS = 0.015;

    /// <summary>A scale shows less than this by itself: a hose that settles, a hand that leans; assumed.</summary>
    private const double LeansKg = 0.010;

    /// <summary>So much more than was to go is a slip of a digit rather than a charge; assumed.</summary>
    private const double FarOverKg = 0.050;

    /// <summary>Nobody changes the can and the hose in less; assumed.</summary>
    private static readonly TimeSpan Changes = TimeSpan.FromMinutes(3);

    /// <summary>What the scale cannot show of the can that is said to stand on it, asked where a person stands beside
    /// it; null where there is nothing to ask.</summary>
    /// <param name="picture">The job before the entry.</param>
    /// <param name="kind">Of the entry.</param>
    /// <param name="fields">Of the entry.</param>
    /// <param name="moment">When it was read.</param>
    public static Phrase? AtTheScale(JobPicture picture, string kind, FieldBag fields, DateTimeOffset moment)
    {
        ArgumentNullException.ThrowIfNull(picture);
        ArgumentNullException.ThrowIfNull(fields);
        if (kind != EntryKinds.ScaleReading)
            return null;
        if (
            fields.Text(FieldNames.Container) is not { } name
            || fields.Si(FieldNames.Gross) is not { } gross
            || !picture.Mass.Holdings.TryGetValue(name, out var holding)
            // Refused in any case: nothing weighs less than its own tare.
            || gross < holding.Container.Tare?.Kilograms
        )
            return null;
        var readings = picture.Record.Journal.OfKind(EntryKinds.ScaleReading).ToArray();
        if (
            readings is [.., var last]
            && last.Fields.Text(FieldNames.Container) is { } other
            && !string.Equals(other, name, StringComparison.OrdinalIgnoreCase)
            && moment - last.ObservedAt < Changes
            && picture.Mass.Holdings.TryGetValue(other, out var before)
            && before.Connected
        )
            return Phrase.Of(
                $"A moment ago {Phrase.Verbatim(other)} stood on the scale, and it is still on the hose. Is it really "
                    + $"{Phrase.Verbatim(name)} now?"
            );
        if (holding is not { Weighed: true, GrossKg: { } was })
            return null;
        var own = Phrase.Verbatim(name);
        var slack = Math.Max(LeansKg, 3 * picture.Record.Kit.ScalePlusMinusKg);
        if (gross > was + slack)
            return Phrase.Of(
                $"{own} got heavier by {Kilograms(gross - was)}: a hose pulls on the scale, another can stands on "
                    + $"it, or it fills from the car. Look before you write it down."
            );
        var fell = was - gross;
        var seconds = (
            moment
            - readings
                .LastOrDefault(entry =>
                    string.Equals(entry.Fields.Text(FieldNames.Container), name, StringComparison.OrdinalIgnoreCase)
                )
                ?.ObservedAt
        )?.TotalSeconds;
        if (seconds is { } passed && fell > slack + FastestKgPerS * Math.Max(0, passed))
            return Phrase.Of(
                $"{own} lost {Kilograms(fell)} in {Measure.Seconds(passed)}: nothing flows that fast. Is the digit "
                    + $"right, and the can?"
            );
        return picture.WeighIn is { TargetKg: not null, ToGoKg: var toGo } && fell > Math.Max(0, toGo) + FarOverKg
            ? Phrase.Of(
                $"{own} lost {Kilograms(fell)}, and {Kilograms(Math.Max(0, toGo))} was to go. If that is right, "
                    + $"close it now."
            )
            : null;
    }

    /// <summary>What would go in on top of something foreign; null where nothing would.</summary>
    public static Phrase? Of(JobPicture picture, string kind, FieldBag fields)
    {
        ArgumentNullException.ThrowIfNull(picture);
        ArgumentNullException.ThrowIfNull(fields);
        if (!FillsIn(picture, kind, fields))
            return null;
        return picture.Timeline.Now switch
        {
            { Inside: Inside.Nitrogen } => Phrase.Words(
                "Nitrogen is inside: what goes in now mixes with it and must come out again. Let it out and pull a "
                    + "vacuum first."
            ),
            { Inside: Inside.Air, CameOpen: true, Openings: 0 } => Phrase.Words(
                "It came without pressure, and air is inside: what goes in now mixes with it. Find the hole and pull "
                    + "a vacuum first."
            ),
            { Inside: Inside.Air } => Phrase.Words(
                "It was opened and not pulled down since: air is inside, and what goes in now mixes with it. Pull a "
                    + "vacuum first."
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
            return fields.Text(FieldNames.Action) is Chosen.Opened or Chosen.Emptied;
        if (kind != EntryKinds.ScaleReading || fields.Text(FieldNames.Container) is not { } name)
            return false;
        return picture.Mass.Holdings.TryGetValue(name, out var holding)
            && holding is { Weighed: true, GrossKg: { } before }
            && before - fields.Si(FieldNames.Gross) > DrawnKg;
    }
}
