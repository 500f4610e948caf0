using Tightcold.Procedures.Oil;
using Tightcold.Procedures.Parts;
using Tightcold.Procedures.Recovery;

namespace Tightcold.Procedures.Tests.Cans;

public sealed class OilAndPartsTests
{
    private const double OunceM3 = 29.5735e-6;

    // Published rules: old gave 3 to 5 oz: that and 1 oz; more: equal; less: 3 oz. Another: 20 mL stay inside the old
    // one.
    [Theory]
    [InlineData(2, 2 * OunceM3 + 20e-6, 3 * OunceM3)]
    [InlineData(4, 4 * OunceM3 + 20e-6, 5 * OunceM3)]
    [InlineData(6, 6 * OunceM3, 6 * OunceM3 + 20e-6)]
    public void A_new_compressor_gets_what_the_published_rules_span(double ounces, double low, double high)
    {
        var oil = CompressorOil.Of(ounces * OunceM3, 110e-6);
        Assert.Equal(low, oil.LowM3, 9);
        Assert.Equal(high, oil.HighM3, 9);
        Assert.True(oil.PourOutM3 >= 0);
    }

    [Fact]
    public void An_electric_compressor_refuses_all_but_its_own_oil()
    {
        Assert.Equal(OilFit.Stop, OilType.Judge(true, "R-1234yf", null, "PAG 46").Fit);
        Assert.Equal(OilFit.Stop, OilType.Judge(true, "R-1234yf", null, "universal").Fit);
        Assert.NotEqual(OilFit.Stop, OilType.Judge(true, "R-1234yf", null, "POE, non-conductive").Fit);
    }

    [Fact]
    public void Families_do_not_mix_grades_are_asked_and_the_unknown_is_unsure()
    {
        Assert.Equal(OilFit.Fits, OilType.Judge(false, "R-134a", "PAG 46", "PAG 46").Fit);
        Assert.Equal(OilFit.Unsure, OilType.Judge(false, "R-134a", "PAG 46", "PAG 100").Fit);
        Assert.Equal(OilFit.Stop, OilType.Judge(false, "R-134a", "PAG 46", "mineral oil").Fit);
        Assert.Equal(OilFit.AskGrade, OilType.Judge(false, "R-134a", null, "PAG oil").Fit);
        Assert.Equal(OilFit.Unsure, OilType.Judge(null, "R-134a", null, "some oil").Fit);
    }

    // Hand-worked: 30 °C, 60 %: 0.6 × 4247 Pa/(461.5 × 303.15) = 18.2 g/m³. Two stubs of 1.1 cm² × 5 cm: 2 × 2.5e-5 ×
    // 1.1e-4/0.05 × 18.2e-3 = 2.0e-9 kg/s, 7.2 mg an hour; 2.5 L of air hold 46 mg; half a litre a minute of drift
    // brings 0.55 g an hour.
    [Fact]
    public void A_drier_lasts_an_hour_and_not_a_damp_day_with_both_ends_open()
    {
        var hour = DrierExposure.Of(3600, 303.15, 0.6, 2, 2.5e-3);
        Assert.Equal(46e-6 + 7.2e-6, hour.LeastKg, 2e-6);
        Assert.Equal(0.55e-3, hour.MostKg - hour.LeastKg, 0.02e-3);
        Assert.False(hour.MayBeSpent);
        Assert.True(DrierExposure.Of(86400, 303.15, 0.6, 2, 2.5e-3).MayBeSpent);
        Assert.Throws<ArgumentOutOfRangeException>(() => DrierExposure.Of(double.NaN, 300, 0.5, 1, 2e-3));
    }

    [Fact]
    public void Every_spot_of_every_circuit_has_a_tightening_line_and_unknown_ones_say_the_maker_rules()
    {
        foreach (
            var spot in new[]
            {
                "condenser",
                "low-side service valve",
                "liquid line joint at condenser",
                "evaporator",
                "rear hose",
            }
        )
            Assert.NotEmpty(Tightening.For(spot));
        Assert.Contains("maker", Tightening.For("evaporator")[0].How, StringComparison.Ordinal);
        // Common practice for #8 aluminium: 20 to 27 N·m is 15 to 20 lbf·ft (1 lbf·ft = 1.3558 N·m).
        var line = Tightening.All.Single(known => known.Joint.Contains("#8", StringComparison.Ordinal));
        Assert.Equal(15, line.LowNm!.Value / 1.3558, 0.5);
        Assert.Equal(20, line.HighNm!.Value / 1.3558, 0.5);
    }

    [Fact]
    public void Rubber_is_judged_by_refrigerant_as_far_as_its_name_goes()
    {
        Assert.True(SealMaterial.Fits("R-134a", "HNBR O-ring, green"));
        foreach (var swells in new[] { "NBR O-ring", "natural rubber washer", "silicone ring", "FKM O-ring" })
            Assert.False(SealMaterial.Fits("R-134a", swells));
        Assert.True(SealMaterial.Fits("R-12", "neoprene"));
        Assert.Null(SealMaterial.Fits("R-134a", "O-ring from the box"));
    }

    // Vapour at the pressure of the air in 2.5 L at 25 °C: R-134a 4.25 kg/m³ (ideal gas 4.17): 11 g; and what 120 mL of
    // oil still hold.
    [Fact]
    public void After_a_recovery_to_the_airs_pressure_ten_grams_and_what_the_oil_holds_are_left()
    {
        var end = RecoveryEnd.Of(
            Properties.FluidCatalog.Get("R134a"),
            2.5e-3,
            120e-6,
            298.15,
            101_325 - 30e3,
            101_325,
            10e3,
            101_325
        );
        Assert.Equal(30e3, end.RisePa, 6);
        Assert.Equal(0.5, end.Done, 3);
        Assert.InRange(end.LeftLeastKg, 0.0104, 0.0109);
        Assert.InRange(end.LeftMostKg, 0.015, 0.035);
    }

    [Fact]
    public void What_came_out_contradicts_what_was_thought_only_beyond_both_errors()
    {
        Assert.False(RecoveredAgainst.Of(0.041, 0.004, 0.064, 0.015, 0.012).Contradict);
        Assert.True(RecoveredAgainst.Of(0.400, 0.004, 0.064, 0.015, 0.012).Contradict);
    }
}
