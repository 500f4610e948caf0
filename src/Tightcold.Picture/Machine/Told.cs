using System.Collections.Immutable;
using Tightcold.Diagnosis.Priors;
using Tightcold.Jobs.Entries;
using Tightcold.Jobs.Fields;
using Tightcold.Picture.Circuit;
using Tightcold.Quantities;

namespace Tightcold.Picture.Machine;

/// <summary>Why the readings were taken, and who says so.</summary>
/// <param name="Why">Sets what is likely before any reading.</param>
/// <param name="Entry">That tells it; null where none does.</param>
public sealed record Told(ReadingReason Why, Guid? Entry)
{
    /// <summary>Nobody told; the journal shows a circuit filled by the scale in this job.</summary>
    public bool ByTheScale => Entry is null && Why == ReadingReason.JustMendedAndWeighed;

    private static readonly ImmutableDictionary<string, ReadingReason> ByWord = new Dictionary<string, ReadingReason>
    {
        [StoryWords.BroughtInWarm] = ReadingReason.BroughtInWarm,
        [StoryWords.WarmAtIdle] = ReadingReason.WarmAtIdle,
        [StoryWords.WarmAfterTenMinutes] = ReadingReason.WarmAfterTenMinutes,
        [StoryWords.CheckUp] = ReadingReason.CheckUp,
        [StoryWords.JustMended] = ReadingReason.JustMendedAndWeighed,
        [StoryWords.CameBack] = ReadingReason.CameBackAfterAWeek,
        [StoryWords.NotSaid] = ReadingReason.NotSaid,
    }.ToImmutableDictionary(StringComparer.Ordinal);

    /// <summary>The word of the journal for a reason.</summary>
    public static string Word(ReadingReason why) => ByWord.First(pair => pair.Value == why).Key;

    /// <summary>The same for a person to read.</summary>
    public static Phrase Says(ReadingReason why) =>
        EntryKinds.Get(EntryKinds.Story).Find(FieldNames.Told)!.Says(Word(why));

    /// <summary>The story of the car in a stretch of the timeline. A story tells of the car as it came, and ends with
    /// the charge that came with it; told after a filling it tells of that filling.</summary>
    internal static Told Of(Timeline timeline, int epoch)
    {
        var moments = timeline.Moments;
        var last = 0;
        for (var i = 0; i < moments.Length; i++)
            if (moments[i].After.Epoch == epoch)
                last = i;
        var state = moments[last].After;
        var filledHere = state.Inside == Inside.Charge;
        var from = last;
        while (filledHere && from > 0 && moments[from - 1].After.Inside == Inside.Charge)
            from--;
        var story = filledHere
            ? moments[from..(last + 1)].Select(moment => moment.Entry).LastOrDefault(IsStory)
            : moments
                .TakeWhile(moment => moment.After.Inside != Inside.Charge)
                .Select(moment => moment.Entry)
                .LastOrDefault(IsStory);
        if (story is not null)
            return new(ByWord[story.Fields.Text(FieldNames.Told)!], story.Id);
        return state is { Inside: Inside.Charge, ChargedOnto: Foreign.Nothing, OntoARest: false, Unwritten: false }
            ? new(ReadingReason.JustMendedAndWeighed, null)
            : new(ReadingReason.NotSaid, null);
    }

    private static bool IsStory(Entry entry) => entry.Kind == EntryKinds.Story;
}
