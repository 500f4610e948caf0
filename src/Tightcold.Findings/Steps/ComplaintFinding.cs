using Tightcold.Jobs.Entries;
using Tightcold.Jobs.Journals;
using Tightcold.Quantities;

namespace Tightcold.Findings.Steps;

/// <summary>The complaint, and the weather everything else is judged against.</summary>
internal static class ComplaintFinding
{
    public static Finding Of(JobRecord record)
    {
        var weather = record.Journal.OfKind(EntryKinds.Weather).FirstOrDefault();
        if (weather is null)
        {
            return new(Step.ComplaintAndWeather, "Complaint and weather", Certainty.Weak, Judgement.Open, Phrase.Of($"“{record.Job.Complaint}”."))
            {
                Missing = [Phrase.Words("today's air temperature, humidity and altitude or barometer: without them no gauge can be judged")],
                Next = [new(Phrase.Words("Write down the weather"), Phrase.Words("what a healthy car would show today"), 2, EntryKinds.Weather)],
            };
        }
        var air = AirPressure.At(record, weather.ObservedAt);
        var missing = new List<Phrase>();
        if (weather.Fields.Si("relative-humidity") is null) missing.Add(Phrase.Words("humidity: damp air loads the coil as much as heat does"));
        var estimates = new List<Estimate>
        {
            Estimate.Normal("air-pressure", "Air pressure here", QuantityKind.AbsolutePressure, air.Pascals, air.SigmaPa,
                air.Assumption is null ? EstimateOrigin.Measured : EstimateOrigin.Computed),
        };
        return new(Step.ComplaintAndWeather, "Complaint and weather", missing.Count == 0 && air.Assumption is null ? Certainty.Stands : Certainty.Weak,
            Judgement.Good, Phrase.Of($"“{record.Job.Complaint}”, at {weather.Fields.Get<Temperature>("ambient-temperature")!.Value} outside."))
        {
            Estimates = [.. estimates],
            RestsOn = [weather.Id],
            Assumptions = air.Assumption is { } assumed ? [assumed] : [],
            Missing = [.. missing],
        };
    }
}
