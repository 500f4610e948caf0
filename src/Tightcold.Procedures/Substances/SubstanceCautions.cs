using System.Collections.Immutable;
using Tightcold.Quantities;
using static Tightcold.Procedures.Substances.WorkStep;

namespace Tightcold.Procedures.Substances;

/// <summary>Cautions by step, by what is in the circuit and by what drives the compressor.</summary>
public static class SubstanceCautions
{
    private const string Iso = "ISO 817, class read in a summary";
    private const string Sheets = "safety data sheets, from memory";
    private const string Practice = "common practice";

    /// <summary>What a screen must show at this step.</summary>
    /// <param name="step">What the hands do.</param>
    /// <param name="refrigerant">As identified or on the label; null, a mixture or another name: treated as
    /// unknown.</param>
    /// <param name="electric">Driven by high voltage; null when that is not known.</param>
    public static ImmutableArray<Caution> At(WorkStep step, string? refrigerant, bool? electric)
    {
        var cautions = refrigerant switch
        {
            "R-134a" => NotBurning(step),
            "R-1234yf" or "R-152a" => Burning(step, refrigerant, Substance.Of(refrigerant)!),
            "R-744" => CarbonDioxide(step),
            "R-12" => Museum(step),
            _ => Unknown(step),
        };
        return [.. cautions, .. Drive(step, electric)];
    }

    private static IEnumerable<Caution> Burning(WorkStep step, string name, Substance substance)
    {
        var gas = Phrase.Verbatim(name);
        if (step != Store)
        {
            yield return new(
                "no-ignition",
                Danger.Life,
                Phrase.Of(
                    $"{gas} burns ({Phrase.Verbatim(substance.SafetyClass)}, from "
                        + $"{Phrase.Verbatim(substance.LimitWords)} of the air by volume on): no flame, spark, "
                        + $"cigarette or hot metal near."
                ),
                substance.Source
            );
        }
        if (step is LeakSearch or Recover or Mend or PumpDown or Charge)
        {
            yield return new(
                "ventilate",
                Danger.Life,
                Phrase.Of(
                    $"Moving air, best outdoors: {gas} is heavier than air and gathers in pits, footwells and on the "
                        + $"floor."
                ),
                Sheets
            );
        }
        if (step is Recover or PumpDown or Charge)
            yield return RatedMachine(step, name);
        if (step == LeakSearch)
        {
            yield return new(
                "detector",
                Danger.Life,
                name == "R-1234yf"
                    ? Phrase.Words(
                        "Search with a detector made for R-1234yf (SAE J2913) or with soap bubbles; never with a "
                            + "flame, no spark of a cheap one."
                    )
                    : Phrase.Of(
                        $"Search with a detector made for flammable gas such as {gas} or with soap bubbles; never with "
                            + $"a flame, no spark of a cheap one."
                    ),
                "SAE J2913, from memory"
            );
        }
        if (step is Gauges or Recover or Charge or Store && Cylinder(step, name) is { } cylinder)
            yield return cylinder;
        if (step is Recover or Mend or Charge or Run)
            yield return FireProducts(gas);
        if (step is LeakSearch or Holding)
            yield return NoAir(gas);
        if (step == Mend)
        {
            yield return new(
                "no-torch",
                Danger.Life,
                Phrase.Of(
                    $"No soldering, grinding or heat gun on the circuit before it was recovered, evacuated and swept "
                        + $"with nitrogen: oil holds {gas}."
                ),
                Practice
            );
        }
        if (step == Store)
        {
            yield return new(
                "store-cool",
                Danger.Life,
                Phrase.Of(
                    $"Keep {gas} upright, capped, cool and aired, away from flames and drains; cans below {Warmest}."
                ),
                Sheets
            );
        }
    }

    private static IEnumerable<Caution> NotBurning(WorkStep step)
    {
        if (step is Recover or Charge or Mend)
        {
            yield return new(
                "ventilate",
                Danger.Life,
                Phrase.Words("Moving air: R-134a drives the air out of pits and closed garages, unnoticed."),
                Sheets
            );
        }
        if (step is LeakSearch or Recover or Mend or Charge or Run)
            yield return FireProducts(Phrase.Verbatim("R-134a"));
        if (step is LeakSearch or Holding)
            yield return NoAir(Phrase.Verbatim("R-134a"));
        if (step == Store)
        {
            yield return new(
                "store-cool",
                Danger.Life,
                Phrase.Of($"Keep R-134a upright, capped and cool; cans below {Warmest}."),
                Sheets
            );
        }
    }

    private static IEnumerable<Caution> CarbonDioxide(WorkStep step)
    {
        var standing = new Measure(QuantityKind.AbsolutePressure, 5.73e6);
        var (low, high) = (
            new Measure(QuantityKind.AbsolutePressure, 8e6),
            new Measure(QuantityKind.AbsolutePressure, 13e6)
        );
        yield return new(
            "high-pressure",
            step == Store ? Danger.Life : Danger.Now,
            Phrase.Of(
                $"R-744 stands at {standing} at 20 °C and runs at {(low, high)}: no gauge, hose, cylinder or machine "
                    + $"for R-134a or R-1234yf may touch it."
            ),
            "equation of state of Span and Wagner; running range from memory"
        );
        if (step is LeakSearch or Recover or Mend or Charge or Store)
        {
            yield return new(
                "ventilate",
                Danger.Life,
                Phrase.Words(
                    "R-744 takes your breath without smell (limit 5000 ppm over a day): moving air, no pit, a carbon "
                        + "dioxide warner indoors."
                ),
                Sheets
            );
        }
        if (step is Recover or Mend or Charge)
        {
            yield return new(
                "dry-ice",
                Danger.Hurts,
                Phrase.Words(
                    "R-744 let down fast turns to dry ice that plugs hoses and frees pressure later: slowly, goggles "
                        + "and gloves on."
                ),
                Practice
            );
        }
        if (step is LeakSearch or Holding)
            yield return NoAir(Phrase.Verbatim("R-744"));
    }

    private static IEnumerable<Caution> Museum(WorkStep step)
    {
        yield return new(
            "museum",
            step == Charge ? Danger.Now : Danger.Spoils,
            Phrase.Words(
                "R-12 is no longer made and destroys ozone: this tool does not refill it; leave it to who may recover "
                    + "and retrofit it."
            ),
            "Montreal Protocol, from memory"
        );
        if (step is Recover or Charge or Mend)
        {
            yield return new(
                "ventilate",
                Danger.Life,
                Phrase.Words("Moving air: R-12 drives the air out of pits and closed garages, unnoticed."),
                Sheets
            );
        }
        if (step is LeakSearch or Recover or Mend or Charge or Run)
        {
            yield return new(
                "fire-products",
                Danger.Hurts,
                Phrase.Words(
                    "R-12 in a flame or on glowing metal gives phosgene, hydrogen chloride and hydrogen fluoride: no "
                        + "flame, out of the smoke at once."
                ),
                Sheets
            );
        }
        if (step is Recover or Store)
        {
            yield return new(
                "cylinder",
                Danger.Life,
                Phrase.Words("A cylinder of its own, marked R-12; it never goes into one " + "for R-134a."),
                Practice
            );
        }
        if (step is LeakSearch or Holding)
            yield return NoAir(Phrase.Verbatim("R-12"));
    }

    private static IEnumerable<Caution> Unknown(WorkStep step)
    {
        yield return new(
            "identify",
            step is Gauges or Recover or PumpDown or Charge or Run ? Danger.Now : Danger.Life,
            Phrase.Words(
                "What is inside is not known or is a mixture: stop and identify it with an instrument before any hose "
                    + "of yours goes on."
            ),
            "SAE J1771 and J2912, from memory"
        );
        if (step == Store)
        {
            yield return new(
                "cylinder",
                Danger.Life,
                Phrase.Words(
                    "Keep it in a cylinder of its own marked mixed or unknown, " + "for reclaim or destruction."
                ),
                Practice
            );
            yield break;
        }
        yield return new(
            "no-ignition",
            Danger.Life,
            Phrase.Words("Until it is known, take it as burning: no flame, spark, cigarette or hot metal near."),
            Practice
        );
        if (step is LeakSearch or Recover or Mend or PumpDown or Charge)
        {
            yield return new(
                "ventilate",
                Danger.Life,
                Phrase.Words("Moving air, best outdoors: what is not known may burn or " + "choke."),
                Practice
            );
        }
        if (step is Recover or Charge)
        {
            yield return new(
                "cylinder",
                Danger.Life,
                Phrase.Words(
                    "Into a cylinder of its own marked mixed or unknown, never "
                        + "into a clean one or a shared machine."
                ),
                Practice
            );
        }
        if (step is Recover or Mend or Charge or Run)
            yield return FireProducts(Phrase.Words("An unknown refrigerant"));
        if (step is LeakSearch or Holding)
            yield return NoAir(Phrase.Words("an unknown refrigerant"));
    }

    private static IEnumerable<Caution> Drive(WorkStep step, bool? electric)
    {
        if (electric != true)
            yield break;
        if (step is Gauges or Mend or Run)
        {
            yield return new(
                "high-voltage",
                Danger.Life,
                Phrase.Words(
                    "High-voltage compressor (orange cables): isolate, wait, prove dead before touching it; work for "
                        + "hands trained and licensed for it."
                ),
                Practice
            );
        }
        if (step is Recover or Mend or Charge)
        {
            yield return new(
                "insulating-oil",
                Danger.Life,
                Phrase.Words(
                    "Only its own insulating oil, and hoses and machine without PAG in them: a little PAG lets the "
                        + "high voltage leak; no dye unless allowed."
                ),
                "trade articles read; figure of 1 % from memory"
            );
        }
    }

    private static Caution RatedMachine(WorkStep step, string name) =>
        step switch
        {
            Recover => new(
                "rated-machine",
                Danger.Life,
                name == "R-1234yf"
                    ? Phrase.Words(
                        "Only a machine rated for R-1234yf: SAE J2843 with recycling, SAE J2851 without; a "
                            + "machine for R-134a can light it."
                    )
                    : Phrase.Of(
                        $"Only a machine rated for flammable gas; one for R-134a can light {Phrase.Verbatim(name)}."
                    ),
                "abstract of SAE J2888 read, which names both"
            ),
            PumpDown => new(
                "rated-machine",
                Danger.Life,
                Phrase.Of(
                    $"Pump what {Phrase.Verbatim(name)} is left only with a pump rated for flammable gas, its outlet "
                        + $"led outdoors; switch it away from the car."
                ),
                Practice
            ),
            _ => new(
                "rated-machine",
                Danger.Life,
                Phrase.Of(
                    $"Hoses, scale and machine made for {Phrase.Verbatim(name)}; electric ones rated for "
                        + $"flammable gas or kept away."
                ),
                Practice
            ),
        };

    private static Caution? Cylinder(WorkStep step, string name) =>
        (step, name) switch
        {
            (Gauges, "R-1234yf") => new(
                "own-couplers",
                Danger.Spoils,
                Phrase.Words(
                    "Couplers and hoses of R-1234yf (SAE J2888), never an adapter: it would mix gases and oils."
                ),
                "abstract of SAE J2888 read"
            ),
            (Gauges, _) => null,
            (_, "R-1234yf") => new(
                "cylinder",
                Danger.Life,
                Phrase.Words(
                    "The cylinder of R-1234yf has a left-hand thread (1/2-inch 16 ACME or CGA 166) and is white with "
                        + "a red band; no other is used."
                ),
                "summary of SAE J2844 read"
            ),
            _ => new(
                "cylinder",
                Danger.Life,
                Phrase.Of(
                    $"A cylinder for flammable gas, marked {Phrase.Verbatim(name)}: left-hand thread and a red "
                        + $"band, as for other flammable gases."
                ),
                "CGA 166 read in a maker's note; for this gas from memory"
            ),
        };

    private static Caution FireProducts(Phrase name) =>
        new(
            "fire-products",
            Danger.Hurts,
            Phrase.Of(
                $"{name} in a flame or on glowing metal gives hydrogen fluoride and carbonyl fluoride: no smoking, "
                    + $"and out of the smoke at once."
            ),
            Sheets
        );

    private static Caution NoAir(Phrase name) =>
        new(
            "no-air",
            Danger.Life,
            Phrase.Of(
                $"Test pressure is dry nitrogen through a regulator, never compressed air or oxygen: with {name} and "
                    + $"oil they can explode."
            ),
            Sheets
        );

    private static Measure Warmest => new(QuantityKind.Temperature, 325.15);
}
