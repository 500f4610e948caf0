using Tightcold.Jobs.Entries;
using Tightcold.Picture;
using Tightcold.Picture.Pressures;
using Tightcold.Quantities;

namespace Tightcold.Findings.Steps;

/// <summary>The complaint, and the weather everything else is judged against.</summary>
internal static class ComplaintFinding
{
    private const string Title = "Complaint and weather";

    public static Finding Of(JobPicture picture)
    {
        var record = picture.Record;
        var complaint = Phrase.Of($"“{record.Job.Complaint}”");
        var weather = record.Journal.OfKind(EntryKinds.Weather).FirstOrDefault();
        if (weather is null)
        {
            // A reading may bring its own air temperature; then only the place is still unknown.
            var asked = record.Journal.Standing.Any(entry => entry.Fields.Si("ambient-temperature") is not null);
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
                ],
            };
        }
        var air = AirPressure.At(record, weather.ObservedAt);
        var humid = weather.Fields.Si("relative-humidity") is not null;
        return new(
            Step.ComplaintAndWeather,
            Title,
            humid && air.Assumption is null ? Certainty.Stands : Certainty.Weak,
            Judgement.Good,
            Phrase.Of($"{complaint}, at {weather.Fields.Get<Temperature>("ambient-temperature")!.Value} outside.")
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
            Assumptions = air.Assumption is { } assumed ? [assumed] : [],
            Missing = humid ? [] : [Phrase.Words("humidity: damp air loads the coil as much as heat does")],
        };
    }
}
