using System.Collections.Immutable;
using Tightcold.Findings;
using Tightcold.Jobs.Entries;
using Tightcold.Jobs.Journals;
using Tightcold.Pages.Words;
using Tightcold.Procedures.Substances;
using Tightcold.Quantities;

namespace Tightcold.Web.Tests.Bench;

/// <summary>Findings made up for the tests of the pages: every part that a finding can have occurs, no number is
/// claimed to be true. Up to the given step there is an answer, after it nothing yet.</summary>
public static class InventedFindings
{
    public static Func<JobRecord, ImmutableArray<Finding>> Until(Step last) => record => Of(record, last);

    public static ImmutableArray<Finding> Of(JobRecord record, Step last) =>
        [.. Enum.GetValues<Step>().Select(step => step <= last ? Answer(record, step) : Nothing(step))];

    private static Finding Nothing(Step step) =>
        new(
            step,
            StepWords.Title(step),
            Certainty.NothingYet,
            Judgement.Open,
            Phrase.Words("Nothing written down for this step yet.")
        )
        {
            Missing = [Phrase.Words("a first reading")],
        };

    private static Finding Answer(JobRecord record, Step step)
    {
        var rests = record.Journal.Standing.Take(3).Select(entry => entry.Id).ToImmutableArray();
        return step switch
        {
            Step.ComplaintAndWeather => Good(
                step,
                Phrase.Of($"Blows warm at {Temperature.FromKelvins(305.15)}, {Measure.Ratio(0.21)} humidity.")
            ) with
            {
                RestsOn = rests,
            },
            Step.StandingPressure => new(
                step,
                "What is left",
                Certainty.Weak,
                Judgement.Bad,
                Phrase.Of(
                    $"Vapour only: about {RefrigerantMass.FromKilograms(0.093)} of {RefrigerantMass.FromKilograms(0.55)} is left."
                )
            )
            {
                Why = Phrase.Of(
                    $"Liquid would hold the pressure at saturation, {GaugePressure.FromPascals(650e3)} at this temperature; the gauge shows {GaugePressure.FromPascals(280e3)}, so no liquid is left anywhere."
                ),
                Estimates =
                [
                    Estimate.Between("mass-left", "Refrigerant left", QuantityKind.Mass, 0.093, 0.071, 0.118),
                    Estimate.AtLeast("mass-lost", "Lost since the label charge", QuantityKind.Mass, 0.42),
                ],
                RestsOn = rests,
                Assumptions =
                [
                    new(
                        Phrase.Of($"internal volume {InternalVolume.FromCubicMetres(2.6e-3)}, by class"),
                        Phrase.Words("Half as much volume halves the mass.")
                    ),
                ],
                Missing =
                [
                    Phrase.Words("the temperature of the condenser; with it the spread would be about half as wide"),
                ],
                Next =
                [
                    new(
                        Phrase.Words("Search for the leak before anything else."),
                        Phrase.Words("Tells where it went."),
                        40,
                        EntryKinds.LeakCheck
                    ),
                ],
            },
            Step.RunningPressures => new(
                step,
                "Gauges running",
                Certainty.Stands,
                Judgement.CannotTell,
                Phrase.Words(
                    "The clutch cycles every few seconds: too little refrigerant for this reading to say more."
                )
            )
            {
                Estimates =
                [
                    Estimate.Normal("low-side-saturation", "Low side boils at", QuantityKind.Temperature, 262, 1.2),
                    Estimate.Normal(
                        "high-side-saturation",
                        "High side condenses at",
                        QuantityKind.Temperature,
                        312,
                        0.9
                    ),
                    Estimate.Between("pressure-ratio", "Pressure ratio", QuantityKind.Number, 4.1, 3.7, 4.6),
                ],
                Hazards =
                [
                    new("invented", Danger.Hurts, Phrase.Words("Keep hoses and sleeves away from belt and fan."), ""),
                ],
            },
            Step.LeakSearch => new(
                step,
                "Leak checks",
                Certainty.Weak,
                Judgement.Bad,
                Phrase.Words("Two leaks found: condenser and low-side service valve. Nine spots not checked.")
            )
            {
                Table = new(
                    "Spots and outcomes",
                    ["Spot", "Test", "Outcome"],
                    [
                        [Phrase.Words("condenser"), Phrase.Words("UV lamp"), Phrase.Words("clear leak")],
                        [Phrase.Words("low-side service valve"), Phrase.Words("soap bubbles"), Phrase.Words("trace")],
                        [
                            Phrase.Words("compressor shaft seal"),
                            Phrase.Words("electronic detector, wind too strong"),
                            Phrase.Words("nothing, blind test"),
                        ],
                        [Phrase.Words("evaporator"), Phrase.Words("none"), Phrase.Words("not checked")],
                    ]
                ),
                Missing = [Phrase.Words("evaporator, discharge hose and seven more were not checked")],
                RestsOn = rests,
            },
            Step.Recover => Good(step, Phrase.Of($"{RefrigerantMass.FromKilograms(0.088)} taken out into R1.")) with
            {
                Hazards =
                [
                    new(
                        "invented",
                        Danger.Hurts,
                        Phrase.Words("Goggles and gloves on. Never fill a cylinder above its limit."),
                        ""
                    ),
                ],
            },
            Step.Mend => Good(
                step,
                Phrase.Words("Condenser, drier and a service valve core replaced; the circuit is closed.")
            ),
            Step.PumpDown => Good(
                step,
                Phrase.Of(
                    $"{AbsolutePressure.FromPascals(85)} reached: water boils below {Temperature.FromKelvins(252)}."
                )
            ) with
            {
                Estimates = [Estimate.AtMost("water-boils", "Water boils at", QuantityKind.Temperature, 253)],
            },
            Step.Hold => Good(
                step,
                Phrase.Of($"It holds: no rise beyond what the warming explains in {Measure.Seconds(2700)}.")
            ) with
            {
                Estimates =
                [
                    Estimate.AtMost(
                        "unseen-leak",
                        "A leak this small stayed unseen",
                        QuantityKind.LeakRate,
                        20e-3 / 31557600
                    ),
                ],
                Missing = [Phrase.Words("leaks that open under pressure only: a vacuum cannot show them")],
            },
            Step.WeighIn => Good(
                step,
                Phrase.Of($"{RefrigerantMass.FromKilograms(0.548)} in, label {RefrigerantMass.FromKilograms(0.55)}.")
            ) with
            {
                Hazards =
                [
                    new(
                        "invented",
                        Danger.Hurts,
                        Phrase.Words(
                            "A can is opened to the low side only. Opened to the high side it can burst in the hand."
                        ),
                        ""
                    ),
                ],
                Table = new(
                    "Cans and scale stops",
                    ["Can", "Close the valve at", "Goes in"],
                    [
                        [
                            Phrase.Words("A"),
                            Phrase.Of($"{RefrigerantMass.FromKilograms(0.118)}"),
                            Phrase.Of($"{RefrigerantMass.FromKilograms(0.338)}"),
                        ],
                        [
                            Phrase.Words("B"),
                            Phrase.Of($"{RefrigerantMass.FromKilograms(0.244)}"),
                            Phrase.Of($"{RefrigerantMass.FromKilograms(0.21)}"),
                        ],
                    ]
                ),
            },
            Step.ProveCold => Good(
                step,
                Phrase.Of(
                    $"{Temperature.FromKelvins(280.4)} at the vent; this weather allows {(Measure.AbsoluteTemperature(278), Measure.AbsoluteTemperature(283))}."
                )
            ),
            _ => new(
                step,
                "Ledger",
                Certainty.Stands,
                Judgement.Good,
                Phrase.Of($"The sum closes: {RefrigerantMass.FromKilograms(0.012)} lost, from hoses and purging.")
            )
            {
                Table = new(
                    "Masses",
                    ["Where", "In", "Out"],
                    [
                        [
                            Phrase.Words("Recovered into R1"),
                            Phrase.Of($"none"),
                            Phrase.Of($"{RefrigerantMass.FromKilograms(0.088)}"),
                        ],
                        [
                            Phrase.Words("Can A"),
                            Phrase.Of($"{RefrigerantMass.FromKilograms(0.338)}"),
                            Phrase.Of($"none"),
                        ],
                        [
                            Phrase.Words("Can B"),
                            Phrase.Of($"{RefrigerantMass.FromKilograms(0.21)}"),
                            Phrase.Of($"none"),
                        ],
                    ]
                ),
                Next =
                [
                    new(
                        Phrase.Words("Read the standing pressure again after a week."),
                        Phrase.Words("A slow leak shows by then."),
                        10,
                        EntryKinds.StandingReading
                    ),
                ],
            },
        };
    }

    private static Finding Good(Step step, Phrase verdict) =>
        new(step, StepWords.Title(step), Certainty.Stands, Judgement.Good, verdict);
}
