using Tightcold.Quantities;

namespace Tightcold.App.Tests.Units;

/// <summary>The walls around a quantity, and sentences that carry them.</summary>
public sealed class QuantityTests
{
    [Fact]
    public void A_gauge_pressure_is_not_taken_for_an_absolute_one()
    {
        var shown = Measure.Of(GaugePressure.FromPascals(0));
        Assert.Equal(0, shown.As<GaugePressure>().Pascals);
        Assert.Throws<InvalidOperationException>(() => shown.As<AbsolutePressure>());
    }

    [Theory]
    [InlineData(double.NaN)]
    [InlineData(double.PositiveInfinity)]
    public void What_is_no_number_is_no_reading(double value)
    {
        Assert.Throws<ArgumentOutOfRangeException>(() => Measure.Kilograms(value));
        Assert.Throws<ArgumentOutOfRangeException>(() => GaugePressure.FromPascals(value));
        Assert.Throws<ArgumentOutOfRangeException>(() => RefrigerantMass.FromKilograms(value));
    }

    [Fact]
    public void Nothing_weighs_less_than_nothing_and_no_pressure_lies_below_vacuum()
    {
        Assert.Throws<ArgumentOutOfRangeException>(() => RefrigerantMass.FromKilograms(-0.001));
        Assert.Throws<ArgumentOutOfRangeException>(() => AbsolutePressure.FromPascals(-1));
        Assert.Throws<ArgumentOutOfRangeException>(() => Temperature.FromKelvins(-0.1));
    }

    [Fact]
    public void A_figure_lies_in_its_own_range()
    {
        Estimate Left(double median) =>
            Estimate.Between("left", "Left in the car", QuantityKind.Mass, median, 0.2, 0.4, EstimateOrigin.Computed);
        Assert.Equal(0.3, Left(0.3).Median);
        Assert.Throws<ArgumentOutOfRangeException>(() => Left(0.5));
        Assert.Throws<ArgumentOutOfRangeException>(() => Left(0.1));
    }

    [Fact]
    public void Two_sentences_stand_apart()
    {
        var both = Phrase.Words("Shut the valve.").Then(Phrase.Words("Read the scale."));
        Assert.Equal("Shut the valve. Read the scale.", both.Render(SiFormat.Instance));
        Assert.Equal(Phrase.Words("Read the scale."), Phrase.Empty.Then(Phrase.Words("Read the scale.")));
    }
}
