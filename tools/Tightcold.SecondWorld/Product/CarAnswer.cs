using Tightcold.Findings;
using Tightcold.Jobs.Entries;
using Tightcold.Jobs.Journals;
using Tightcold.Picture;

namespace Tightcold.SecondWorld.Product;

/// <summary>Where nine in ten sound cars would show a reading, by the product: SI, pressures absolute.</summary>
internal sealed record SoundBand(int Point, string Channel, double Low, double Middle, double High);

/// <summary>
/// What the product says of a car's faults, read from its picture. The only file that knows those types.
/// </summary>
internal sealed record CarAnswer
{
    public const string Sound = "nothing-wrong";
    public const string None = "none-of-these";

    /// <summary>Odds of each fault by itself, of nothing wrong and of none of these; likeliest first.</summary>
    public required IReadOnlyList<(string Key, double Odds)> Odds { get; init; }

    /// <summary>What the product held before any reading: nothing wrong.</summary>
    public required double SoundBefore { get; init; }
    public required double ChargeLowKg { get; init; }
    public required double ChargeHighKg { get; init; }
    public required string Verdict { get; init; }

    /// <summary>An earlier visit narrows what a sound car would read.</summary>
    public required bool Remembers { get; init; }
    public required bool Stands { get; init; }
    public required IReadOnlyList<SoundBand> Bands { get; init; }

    public string First => Odds.Count > 0 ? Odds[0].Key : "";

    public double Of(string key) => Odds.FirstOrDefault(line => line.Key == key).Odds;

    /// <summary>Null where the product weighs nothing.</summary>
    public static CarAnswer? Of(JobRecord record, JobRecord? earlier = null)
    {
        var picture = new JobPicture(record, earlier is null ? [] : [earlier]);
        var finding = Walk.Of(Step.WhatIsWrong, picture);
        if (picture.Machine is not { } diagnosis)
            return null;
        var answer = diagnosis.Answer;
        return new()
        {
            Odds = [.. answer.ByFault().Select(line => (line.Alone.Key, line.Odds))],
            SoundBefore = answer.Beliefs.First(belief => belief.Hypothesis.IsNothingWrong).Hypothesis.Prior,
            ChargeLowKg = answer.ChargeKg.Low,
            ChargeHighKg = answer.ChargeKg.High,
            Verdict = finding.Verdict.ToString(),
            Remembers = !diagnosis.Evidence.Evidence.Earlier.IsEmpty,
            Stands = finding.Certainty == Certainty.Stands,
            Bands =
            [
                .. answer.Readings.Select(reading => new SoundBand(
                    reading.Point,
                    reading.Channel.ToString(),
                    reading.Healthy.Low,
                    reading.Healthy.Median,
                    reading.Healthy.High
                )),
            ],
        };
    }
}
