using Tightcold.Procedures.Substances;
using static Tightcold.Procedures.Substances.WorkStep;

namespace Tightcold.Procedures.Tests.Substances;

/// <summary>The list kept here is written from the standards' and safety sheets' demands (ISO 817 classes; SAE J2843,
/// J2844, J2851, J2888, J2913 for R-1234yf; safety data sheets for fire products and air), not from the product: a
/// caution taken out fails.</summary>
public sealed class SubstanceCautionsTests
{
    private static readonly Dictionary<string, Dictionary<WorkStep, string>> Demanded = new()
    {
        ["R-1234yf"] = new()
        {
            [Gauges] = "no-ignition own-couplers",
            [LeakSearch] = "no-ignition ventilate detector no-air",
            [Recover] = "no-ignition ventilate rated-machine cylinder fire-products",
            [Mend] = "no-ignition ventilate no-torch fire-products",
            [PumpDown] = "no-ignition ventilate rated-machine",
            [Holding] = "no-ignition no-air",
            [Charge] = "no-ignition ventilate rated-machine cylinder fire-products",
            [Run] = "no-ignition fire-products",
            [Store] = "cylinder store-cool",
        },
        ["R-152a"] = new()
        {
            [Gauges] = "no-ignition",
            [LeakSearch] = "no-ignition ventilate detector no-air",
            [Recover] = "no-ignition ventilate rated-machine cylinder fire-products",
            [Mend] = "no-ignition ventilate no-torch fire-products",
            [PumpDown] = "no-ignition ventilate rated-machine",
            [Holding] = "no-ignition no-air",
            [Charge] = "no-ignition ventilate rated-machine cylinder fire-products",
            [Run] = "no-ignition fire-products",
            [Store] = "cylinder store-cool",
        },
        ["R-134a"] = new()
        {
            [Gauges] = "",
            [LeakSearch] = "no-air fire-products",
            [Recover] = "ventilate fire-products",
            [Mend] = "ventilate fire-products",
            [PumpDown] = "",
            [Holding] = "no-air",
            [Charge] = "ventilate fire-products",
            [Run] = "fire-products",
            [Store] = "store-cool",
        },
        ["R-744"] = new()
        {
            [Gauges] = "high-pressure",
            [LeakSearch] = "high-pressure ventilate no-air",
            [Recover] = "high-pressure ventilate dry-ice",
            [Mend] = "high-pressure ventilate dry-ice",
            [PumpDown] = "high-pressure",
            [Holding] = "high-pressure no-air",
            [Charge] = "high-pressure ventilate dry-ice",
            [Run] = "high-pressure",
            [Store] = "high-pressure ventilate",
        },
        ["R-12"] = new()
        {
            [Gauges] = "museum",
            [LeakSearch] = "museum no-air fire-products",
            [Recover] = "museum ventilate fire-products cylinder",
            [Mend] = "museum ventilate fire-products",
            [PumpDown] = "museum",
            [Holding] = "museum no-air",
            [Charge] = "museum ventilate fire-products",
            [Run] = "museum fire-products",
            [Store] = "museum cylinder",
        },
        ["mixed or unknown"] = new()
        {
            [Gauges] = "identify no-ignition",
            [LeakSearch] = "identify no-ignition ventilate no-air",
            [Recover] = "identify no-ignition ventilate cylinder fire-products",
            [Mend] = "identify no-ignition ventilate fire-products",
            [PumpDown] = "identify no-ignition ventilate",
            [Holding] = "identify no-ignition no-air",
            [Charge] = "identify no-ignition ventilate cylinder fire-products",
            [Run] = "identify no-ignition fire-products",
            [Store] = "identify cylinder",
        },
    };

    private static readonly Dictionary<WorkStep, string> DemandedByHighVoltage = new()
    {
        [Gauges] = "high-voltage",
        [Recover] = "insulating-oil",
        [Mend] = "high-voltage insulating-oil",
        [Charge] = "insulating-oil",
        [Run] = "high-voltage",
    };

    private static string[] Words(string list) => list.Split(' ', StringSplitOptions.RemoveEmptyEntries);

    [Fact]
    public void Every_caution_is_there_at_each_step_for_each_substance() => Assert.All(Demanded, substance =>
        {
            Assert.Equal(Enum.GetValues<WorkStep>(), substance.Value.Keys.Order());
            Assert.All(substance.Value, step =>
                Assert.Equal(
                    Words(step.Value).Order(),
                    SubstanceCautions
                        .At(step.Key, substance.Key, electric: false)
                        .Select(caution => caution.Key)
                        .Order()
                )
            );
        });

    [Fact]
    public void High_voltage_adds_its_own_whatever_is_in_the_circuit() =>
        Assert.All(Demanded.Keys, substance =>
            Assert.All(Enum.GetValues<WorkStep>(), step =>
                Assert.Equal(
                    Words(Demanded[substance][step])
                        .Concat(Words(DemandedByHighVoltage.GetValueOrDefault(step, "")))
                        .Order(),
                    SubstanceCautions.At(step, substance, electric: true).Select(caution => caution.Key).Order()
                )
            )
        );

    [Fact]
    public void A_blend_another_name_and_no_name_are_all_treated_as_unknown()
    {
        foreach (var name in new[] { null, "", "R-290/600a", "another refrigerant" })
        {
            Assert.Equal(
                SubstanceCautions.At(Recover, "mixed or unknown", null).Select(caution => caution.Key),
                SubstanceCautions.At(Recover, name, null).Select(caution => caution.Key)
            );
            Assert.Contains(SubstanceCautions.At(Gauges, name, null), caution =>
                caution is { Key: "identify", Stops: true }
            );
        }
    }

    [Fact]
    public void Fire_choking_and_high_voltage_are_about_life_and_what_stops_is_about_this_moment() =>
        Assert.All(Demanded.Keys, substance =>
            Assert.All(Enum.GetValues<WorkStep>(), step =>
                Assert.All(SubstanceCautions.At(step, substance, true), caution =>
                {
                    if (caution.Key is "no-ignition" or "ventilate" or "high-voltage" or "no-air" or "no-torch")
                        Assert.Equal(Danger.Life, caution.Danger);
                    if (caution.Key is "fire-products" or "dry-ice")
                        Assert.Equal(Danger.Hurts, caution.Danger);
                    Assert.Equal(caution.Stops, caution.Danger == Danger.Now);
                })
            )
        );

    // ISO 817 by two summaries read: R-1234yf A2L, R-152a A2, R-134a and R-12 A1. Lower limit of R-1234yf 6.2 %: doi
    // 10.1002/prs.10347.
    [Fact]
    public void Classes_and_limits_are_the_standards()
    {
        Assert.Equal(
            ("A2L", 0.062),
            (Substance.Of("R-1234yf")!.SafetyClass, Substance.Of("R-1234yf")!.LeastFlammable!.Value)
        );
        Assert.Equal("A2", Substance.Of("R-152a")!.SafetyClass);
        Assert.InRange(Substance.Of("R-152a")!.LeastFlammable!.Value, 0.039, 0.048);
        Assert.All(new[] { "R-134a", "R-12", "R-744" }, name =>
            Assert.True(Substance.Of(name) is { SafetyClass: "A1", Burns: false })
        );
        Assert.Null(Substance.Of("mixed or unknown"));
        Assert.Contains(
            "6.2 %",
            SubstanceCautions.At(Recover, "R-1234yf", null)[0].Says.ToString(),
            StringComparison.Ordinal
        );
    }

    // SAE J2844 as summarised: left-hand 1/2-inch 16 ACME or CGA 166, white with a red band.
    [Fact]
    public void The_cylinder_of_R1234yf_has_the_thread_and_the_colour_of_the_standard()
    {
        var says = SubstanceCautions
            .At(Recover, "R-1234yf", null)
            .Single(caution => caution.Key == "cylinder")
            .Says.ToString();
        Assert.All(new[] { "left-hand", "1/2-inch 16 ACME", "CGA 166", "white", "red band" }, word =>
            Assert.Contains(word, says, StringComparison.Ordinal)
        );
    }

    // 5.729 MPa at 20 °C by Span and Wagner 1996.
    [Fact]
    public void The_pressure_of_R744_is_told_and_stops()
    {
        var caution = SubstanceCautions.At(Gauges, "R-744", null).Single();
        Assert.True(caution.Stops);
        var fluid = Properties.FluidCatalog.Get("R744");
        Assert.Equal(5.73e6, fluid.SaturationAtTemperature(293.15).PressurePa, 0.01e6);
        Assert.Contains("5.73", caution.Says.ToString(), StringComparison.Ordinal);
    }

    [Fact]
    public void Every_caution_names_what_it_stands_on() =>
        Assert.All(Demanded.Keys, substance =>
            Assert.All(Enum.GetValues<WorkStep>(), step =>
                Assert.All(SubstanceCautions.At(step, substance, true), caution =>
                {
                    Assert.NotEmpty(caution.Source);
                    Assert.EndsWith(".", caution.Says.ToString(), StringComparison.Ordinal);
                })
            )
        );
}
