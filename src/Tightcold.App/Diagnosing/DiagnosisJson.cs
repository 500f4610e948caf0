using System.Globalization;
using System.Text.Json.Nodes;
using Tightcold.App.Units;
using Tightcold.Diagnosis.Inference;
using Tightcold.Diagnosis.Leaks;
using Tightcold.Diagnosis.NextTest;
using Tightcold.Findings.Diagnosing;
using Tightcold.Picture.Machine;
using Tightcold.Quantities;

namespace Tightcold.App.Diagnosing;

/// <summary>A diagnosis for machines: SI units named in the keys, odds with their errors.</summary>
public static class DiagnosisJson
{
    /// <param name="units">Of the sentences, which are English whatever language the reader has.</param>
    public static JsonObject Write(JobDiagnosis diagnosis, IMeasureFormat units)
    {
        ArgumentNullException.ThrowIfNull(diagnosis);
        units = units is ReaderUnits reader ? new ReaderUnits(reader.System, CultureInfo.InvariantCulture) : units;
        var answer = diagnosis.Answer;
        return new()
        {
            ["explanations"] = new JsonArray([
                .. answer
                    .Beliefs.Where(belief => belief.Odds >= 0.001)
                    .Select(belief => (JsonNode)One(belief, diagnosis, units)),
            ]),
            ["charge-kg"] = Range(answer.ChargeKg),
            ["label-kg"] = answer.LabelKg,
            ["fit"] = answer.Fit,
            ["evidence-uncertain"] = answer.EvidenceUncertain,
            ["loop-solves"] = answer.Solves,
            ["story"] = Told.Word(diagnosis.Evidence.Told.Why),
            ["would-hide"] = new JsonArray([
                .. diagnosis.WouldHide.Select(hidden => (JsonNode)JsonValue.Create(hidden.Key)),
            ]),
            ["does-not-fit"] = answer.DoesNotFit is { } least
                ? ReadingWords.DoesNotFit(least, diagnosis.Evidence.Evidence).Render(units)
                : null,
            ["history"] = History(diagnosis, units),
            ["contradictions"] = new JsonArray([
                .. answer.Contradictions.Select(one =>
                    (JsonNode)
                        new JsonObject
                        {
                            ["kind"] = Kebab(one.Kind.ToString()),
                            ["sentence"] = ReadingWords.Of(one, diagnosis.Evidence.Evidence).Render(units),
                        }
                ),
            ]),
            ["readings"] = new JsonArray([
                .. answer.Readings.Select(reading =>
                    (JsonNode)
                        new JsonObject
                        {
                            ["point"] = reading.Point + 1,
                            ["channel"] = Kebab(reading.Channel.ToString()),
                            ["unit"] = ReadingWords.IsPressure(reading.Channel) ? "Pa absolute" : "K",
                            ["observed"] = reading.Observed,
                            ["healthy"] = Range(reading.Healthy),
                            ["leading"] = Range(reading.Leading),
                            ["misread-odds"] = reading.MisreadOdds,
                        }
                ),
            ]),
            ["next-tests"] = new JsonArray([
                .. diagnosis.Tests.Take(6).Select(test => (JsonNode)Test(test, diagnosis, units)),
            ]),
        };
    }

    /// <summary>The last filling, as it was weighed; null without one.</summary>
    private static JsonObject? History(JobDiagnosis diagnosis, IMeasureFormat units) =>
        diagnosis.Evidence.Filling is not { } filling || diagnosis.Answer.ChargeShareByHistory is not { } expected
            ? null
            : new()
            {
                ["filled"] = Kebab(filling.History.How.ToString()),
                ["months-ago"] = Math.Round(12 * filling.History.Seconds / LeakForecast.Year, 1),
                ["job"] = filling.Job,
                ["remembered"] = filling.History.Remembered,
                ["proven-tight"] = filling.History.ProvenTight,
                ["lost-before-kg"] = filling.History.LostBefore?.LostKg,
                ["charge-share"] = Range(expected),
                ["sentence"] = HistoryWords.Speaks(filling.History, expected).Render(units),
            };

    private static JsonObject One(Belief belief, JobDiagnosis diagnosis, IMeasureFormat units) =>
        new()
        {
            ["key"] = belief.Hypothesis.Key,
            ["name"] = FaultWords.Name(belief.Hypothesis).Render(units),
            ["odds"] = belief.Odds,
            ["odds-error"] = belief.OddsError,
            ["odds-without-history"] = belief.OddsWithoutHistory,
            ["prior"] = belief.Hypothesis.Prior,
            ["charge-share"] = belief.Hypothesis.IsNoneOfThese ? null : Range(belief.ChargeShare),
            ["severities"] = new JsonArray([
                .. belief.Severities.Select(
                    (interval, i) =>
                        (JsonNode)
                            new JsonObject
                            {
                                ["fault"] = belief.Hypothesis.Faults[i].Key,
                                ["low"] = interval.Low,
                                ["median"] = interval.Median,
                                ["high"] = interval.High,
                            }
                ),
            ]),
            ["reasons"] = new JsonArray([
                .. belief.Reasons.Select(reason =>
                    (JsonNode)
                        new JsonObject
                        {
                            ["for"] = reason.Weight > 0,
                            ["weight"] = reason.Weight,
                            ["sentence"] = ReadingWords.Reason(reason, diagnosis.Evidence.Evidence).Render(units),
                        }
                ),
            ]),
            ["signs"] = new JsonArray([
                .. belief.SignReasons.Select(reason =>
                    (JsonNode)
                        new JsonObject
                        {
                            ["for"] = reason.Weight > 0,
                            ["weight"] = reason.Weight,
                            ["sentence"] = SignTold.Speaks(reason, FaultWords.Name(belief.Hypothesis)).Render(units),
                        }
                ),
            ]),
        };

    private static JsonObject Test(TestValue test, JobDiagnosis diagnosis, IMeasureFormat units)
    {
        var barometer = diagnosis.Evidence.Evidence.Points is [.., var last] ? last.BarometricPa : 101_325;
        var action = TestWords.Action(test, barometer);
        return new()
        {
            ["test"] = test.Kind.Key,
            ["what"] = action.What.Render(units),
            ["tells"] = action.Tells.Render(units),
            ["bits"] = test.Bits,
            ["minutes"] = test.Minutes,
            ["entry-kind"] = action.EntryKind,
            ["begins-at"] = action.First,
            ["bits-per-minute"] = test.BitsPerMinute,
            ["bits-per-cost"] = test.BitsPerCost,
        };
    }

    private static JsonObject Range(Interval interval) =>
        new()
        {
            ["low"] = interval.Low,
            ["median"] = interval.Median,
            ["high"] = interval.High,
        };

    private static string Kebab(string name) =>
        string.Concat(
            name.Select(
                (letter, index) =>
                    char.IsUpper(letter) && index > 0
                        ? "-" + char.ToLowerInvariant(letter)
                        : char.ToLowerInvariant(letter).ToString()
            )
        );
}
