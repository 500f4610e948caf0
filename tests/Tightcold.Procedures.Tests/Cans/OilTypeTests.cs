using Tightcold.Procedures.Oil;

namespace Tightcold.Procedures.Tests.Cans;

/// <summary>Compatibility both ways: the car's refrigerant against the bottle, and the bottle against the car's label.
/// The trade's rules, from memory, but that double end-capped PAG serves R-134a too was read in a trade
/// article.</summary>
public sealed class OilTypeTests
{
    [Theory]
    [InlineData("R-1234yf", null, "PAG 46", OilFit.Unsure)]
    [InlineData("R-1234yf", "PAG 46", "PAG 46", OilFit.Unsure)]
    [InlineData("R-1234yf", null, "PAG 46 double end-capped", OilFit.AskGrade)]
    [InlineData("R-1234yf", "PAG 46 YF", "PAG 46 for R-1234yf", OilFit.Fits)]
    [InlineData("R-1234yf", "PAG 46 YF", "PAG 100 YF", OilFit.Unsure)]
    [InlineData("R-1234yf", null, "POE 68", OilFit.Unsure)]
    [InlineData("R-1234yf", "POE 68", "POE 68", OilFit.Fits)]
    [InlineData("R-1234yf", "POE 68", "PAG 46 double end-capped", OilFit.Stop)]
    [InlineData("R-1234yf", null, "mineral oil", OilFit.Stop)]
    [InlineData("R-134a", "PAG 46", "PAG 46 double end-capped", OilFit.Fits)]
    [InlineData("R-134a", "PAG 46", "POE 68", OilFit.Stop)]
    [InlineData("R-134a", null, "mineral oil", OilFit.Stop)]
    [InlineData("R-12", null, "PAG 150", OilFit.Unsure)]
    [InlineData("R-12", null, "POE 68", OilFit.Unsure)]
    [InlineData("R-12", null, "mineral oil 525", OilFit.AskGrade)]
    [InlineData("R-744", "PAG 46", "PAG 46", OilFit.Unsure)]
    [InlineData("R-152a", null, "PAG 46", OilFit.Unsure)]
    public void An_oil_fits_by_refrigerant_and_by_label(string refrigerant, string? label, string bottle, OilFit fit) =>
        Assert.Equal(fit, OilType.Judge(false, refrigerant, label, bottle).Fit);

    [Fact]
    public void What_is_asked_for_passes_and_what_is_not_asked_for_does_not()
    {
        foreach (var refrigerant in new[] { "R-134a", "R-1234yf" })
        {
            Assert.Equal(
                OilFit.AskGrade,
                OilType.Judge(false, refrigerant, null, OilType.Needed(false, refrigerant)).Fit
            );
            Assert.Equal(
                OilFit.Stop,
                OilType.Judge(true, refrigerant, null, OilType.Needed(false, refrigerant).Split(';')[0]).Fit
            );
            Assert.NotEqual(OilFit.Stop, OilType.Judge(true, refrigerant, null, OilType.Needed(true, refrigerant)).Fit);
        }
    }

    [Fact]
    public void Dye_is_refused_for_high_voltage_and_asked_for_the_newer_refrigerant()
    {
        Assert.Equal(OilFit.Stop, OilType.JudgeDye(true, "R-1234yf", null, "UV dye for R-1234yf").Fit);
        Assert.Equal(OilFit.Unsure, OilType.JudgeDye(true, "R-1234yf", null, "UV dye for electric compressors").Fit);
        Assert.Equal(OilFit.Unsure, OilType.JudgeDye(false, "R-1234yf", null, "UV dye").Fit);
        Assert.Equal(OilFit.Fits, OilType.JudgeDye(false, "R-1234yf", null, "UV dye for R-1234yf").Fit);
        Assert.Equal(OilFit.Fits, OilType.JudgeDye(false, "R-134a", null, "UV dye").Fit);
    }

    // Dye comes in oil: the same families, both ways. That PAG and ester are never mixed was read in three trade pages.
    [Theory]
    [InlineData("R-134a", "PAG 46", "UV dye in PAG", OilFit.Fits)]
    [InlineData("R-134a", "PAG 46", "UV dye for R-1234yf", OilFit.Fits)]
    [InlineData("R-134a", "PAG 46", "UV dye in ester", OilFit.Stop)]
    [InlineData("R-134a", "POE 68", "UV dye in PAG", OilFit.Stop)]
    [InlineData("R-134a", "POE 68", "UV dye in ester", OilFit.Fits)]
    [InlineData("R-134a", null, "UV dye in mineral oil", OilFit.Stop)]
    [InlineData("R-1234yf", null, "UV dye in mineral oil", OilFit.Stop)]
    [InlineData("R-1234yf", "PAG 46 YF", "UV dye in PAG", OilFit.Unsure)]
    [InlineData("R-744", null, "UV dye", OilFit.Unsure)]
    [InlineData("R-12", null, "UV dye in mineral oil", OilFit.Unsure)]
    public void Dye_is_held_to_the_oil_it_comes_in(string refrigerant, string? label, string dye, OilFit fit)
    {
        Assert.Equal(fit, OilType.JudgeDye(false, refrigerant, label, dye).Fit);
        Assert.Equal(OilFit.Stop, OilType.JudgeDye(true, refrigerant, label, dye).Fit);
        Assert.True(OilType.IsDye(dye));
    }

    [Fact]
    public void Two_families_never_mix_whichever_of_them_is_in_the_car()
    {
        string[] families = ["PAG 46", "POE 68", "mineral oil"];
        foreach (var refrigerant in new[] { "R-134a", "R-1234yf", "R-12" })
        foreach (var car in families)
        foreach (var bottle in families.Where(bottle => bottle != car))
            Assert.Equal(OilFit.Stop, OilType.Judge(false, refrigerant, car, bottle).Fit);
        // Double end-capped PAG is PAG to the oil in the car; the refrigerant decides the other way round.
        Assert.Equal(OilFit.Fits, OilType.Judge(false, "R-134a", "PAG 46", "PAG 46 double end-capped").Fit);
        Assert.Equal(OilFit.Unsure, OilType.Judge(false, "R-1234yf", "PAG 46 double end-capped", "PAG 46").Fit);
    }

    // Makers' service texts, read as stored pages, cm³: the rows of the published collection. A published figure lies
    // inside our span.
    [Theory]
    [InlineData("condenser", 40)]
    [InlineData("condenser", 15)]
    [InlineData("condenser", 35)]
    [InlineData("evaporator", 80)]
    [InlineData("evaporator", 60)]
    [InlineData("evaporator", 75)]
    [InlineData("evaporator", 35)]
    [InlineData("suction hose", 10)]
    [InlineData("discharge hose", 20)]
    [InlineData("liquid line", 20)]
    [InlineData("receiver-drier", 20)]
    [InlineData("receiver-drier", 10)]
    [InlineData("receiver-drier", 30)]
    [InlineData("receiver-drier", 105)]
    [InlineData("accumulator", 105)]
    public void Oil_by_part_spans_what_makers_publish(string part, double millilitres)
    {
        var due = OilDue.With(part);
        Assert.InRange(millilitres * 1e-6, due.LowM3 - 1e-12, due.HighM3 + 1e-12);
        Assert.Contains("published", due.Says, StringComparison.Ordinal);
        Assert.InRange(30e-6, OilDue.Burst.LowM3 - 1e-12, OilDue.Burst.HighM3);
    }
}
