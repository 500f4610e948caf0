using Tightcold.Jobs.Entries;
using Tightcold.Jobs.Fields;
using Tightcold.Picture;
using Tightcold.Picture.Circuit;
using Tightcold.Picture.Pressures;
using Tightcold.Quantities;

namespace Tightcold.Findings.Steps;

/// <summary>The complaint, and the weather everything else is judged against.</summary>
internal static class ComplaintFinding
{
    private const string Title = "Complaint and weather";

    private static NextAction Tell { get; } =
        new(
            Phrase.Words("Say why it is here: one tap"),
            Phrase.Words("what is likely before any reading"),
            1,
            EntryKinds.Story
        );

    private static bool SameWords(string story, string complaint) =>
        string.Equals(story, complaint, StringComparison.OrdinalIgnoreCase);

    public static Finding Of(JobPicture picture)
    {
        var record = picture.Record;
        var told = record.Journal.Last(EntryKinds.Story);
        var story = told?.Fields.Text(FieldNames.Told);
        var own = Phrase.Verbatim(record.Job.Complaint);
        var complaint =
            story is null or StoryWords.NotSaid || SameWords(story, record.Job.Complaint)
                ? Phrase.Of($"“{own}”")
                : Phrase.Of($"“{own}”, {told!.Says(FieldNames.Told)}");
        // Of what was filled here the journal knows why it is read.
        NextAction[] tell = story is null && picture.Timeline.Now.Inside == Inside.AsItCame ? [Tell] : [];
        var weather = record.Journal.OfKind(EntryKinds.Weather).FirstOrDefault();
        if (weather is null)
        {
            // A reading may bring its own air temperature; then only the place is still unknown.
            var asked = record.Journal.Standing.Any(entry =>
                entry.Fields.Si(FieldNames.AmbientTemperature) is not null
            );
            return new(Step.ComplaintAndWeather, Title, Certainty.Weak, Judgement.Open, Phrase.Of($"{complaint}."))
            {
                Missing = asked
                    ? []
                    : [Phrase.Words("the air temperature and humidity of today, and the altitude or a barometer")],
                Next =
                [
                    new(
                        Phrase.Words("Write down the weather"),
                        Phrase.Words("what a sound car would show today"),
                        2,
                        EntryKinds.Weather
                    ),
                    .. tell,
                ],
            };
        }
        var air = AirPressure.At(record, weather.ObservedAt);
        var humid = weather.Fields.Si(FieldNames.RelativeHumidity) is not null;
        return new(
            Step.ComplaintAndWeather,
            Title,
            humid && air.Assumption is null ? Certainty.Stands : Certainty.Weak,
            Judgement.Good,
            Phrase.Of(
                $"{complaint}, at {weather.Fields.Get<Temperature>(FieldNames.AmbientTemperature)!.Value} outside."
            )
        )
        {
            Estimates =
            [
                Estimate.Normal(
                    "air-pressure",
                    "Air pressure here",
                    QuantityKind.AbsolutePressure,
                    air.Pascals,
                    air.SigmaPa,
                    air.From == AirKnown.Barometer ? EstimateOrigin.Measured : EstimateOrigin.Computed
                ),
            ],
            RestsOn = [weather.Id],
            Next = [.. tell],
            Assumptions = air.Assumption is { } assumed ? [assumed] : [],
            Missing = humid ? [] : [Phrase.Words("humidity: damp air loads the coil as much as heat does")],
        };
    }
}
