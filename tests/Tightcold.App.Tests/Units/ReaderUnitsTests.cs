using System.Globalization;
using Tightcold.App.Units;
using Tightcold.Jobs.Fields;
using Tightcold.Quantities;

namespace Tightcold.App.Tests.Units;

public sealed class ReaderUnitsTests
{
    private static readonly ReaderUnits Metric = new(UnitSystem.Metric, CultureInfo.InvariantCulture);
    private static readonly ReaderUnits Us = new(UnitSystem.Us, CultureInfo.InvariantCulture);
    private static readonly ReaderUnits German = new(UnitSystem.Metric, CultureInfo.GetCultureInfo("de-DE"));

    [Theory]
    [InlineData(QuantityKind.GaugePressure, 470e3, "4.7 bar gauge", "68 psig")]
    [InlineData(QuantityKind.GaugePressure, -95e3, "-0.95 bar gauge", "28.1 inHg vacuum")]
    [InlineData(QuantityKind.AbsolutePressure, 571e3, "5.7 bar abs", "82.8 psia")]
    [InlineData(QuantityKind.AbsolutePressure, 83.5e3, "0.835 bar abs", "12.1 psia")]
    [InlineData(QuantityKind.Vacuum, 66.66, "0.67 mbar", "500 micron")]
    [InlineData(QuantityKind.Temperature, 298.15, "25.0 °C", "77.0 °F")]
    [InlineData(QuantityKind.TemperatureDifference, 5, "5.0 K", "9.0 F°")]
    [InlineData(QuantityKind.Mass, 0.34, "340 g", "12.0 oz")]
    [InlineData(QuantityKind.Mass, 0.0023, "2.3 g", "0.08 oz")]
    [InlineData(QuantityKind.Mass, 9.42, "9.42 kg", "20.77 lb")]
    [InlineData(QuantityKind.LiquidVolume, 60e-6, "60.0 mL", "2.03 fl oz")]
    [InlineData(QuantityKind.RelativeHumidity, 0.55, "55 %", "55 %")]
    [InlineData(QuantityKind.Duration, 1200, "20 min", "20 min")]
    [InlineData(QuantityKind.Duration, 30 * 60 * 60, "30.0 h", "30.0 h")]
    [InlineData(QuantityKind.RotationalSpeed, 25, "1500 rpm", "1500 rpm")]
    [InlineData(QuantityKind.Altitude, 1609.344, "1609 m", "5280 ft")]
    [InlineData(QuantityKind.GasThroughput, 1.2e-5, "1.2×10⁻⁴ mbar·L/s", "1.2×10⁻⁴ mbar·L/s")]
    [InlineData(QuantityKind.Number, 4.5, "4.5", "4.5")]
    public void A_measure_is_shown_with_its_unit_and_sensible_digits(
        QuantityKind kind,
        double si,
        string metric,
        string us
    )
    {
        Assert.Equal(metric, Metric.Format(new Measure(kind, si)));
        Assert.Equal(us, Us.Format(new Measure(kind, si)));
    }

    [Fact]
    public void A_range_names_its_unit_once()
    {
        Assert.Equal(
            "4.5 to 4.9 bar gauge",
            Metric.Format(new(QuantityKind.GaugePressure, 450e3), new(QuantityKind.GaugePressure, 490e3))
        );
        Assert.Equal(
            "-14 to 145 psig",
            Us.Format(new(QuantityKind.GaugePressure, -95e3), new(QuantityKind.GaugePressure, 1e6))
        );
        Assert.Equal(
            "26.6 to 28.1 inHg vacuum",
            Us.Format(new(QuantityKind.GaugePressure, -95e3), new(QuantityKind.GaugePressure, -90e3))
        );
    }

    [Fact]
    public void A_range_narrower_than_its_digits_is_one_number() =>
        Assert.Equal("340 g", Metric.Format(new(QuantityKind.Mass, 0.3401), new(QuantityKind.Mass, 0.3402)));

    [Fact]
    public void A_german_reader_gets_a_decimal_comma() =>
        Assert.Equal("4,7 bar gauge", German.Format(new Measure(QuantityKind.GaugePressure, 470e3)));

    [Fact]
    public void What_was_typed_stands_before_the_readers_own_unit()
    {
        var typed = UnitParser
            .Parse(
                new FieldType.Quantity(QuantityKind.GaugePressure, -1e5, 1e7),
                "68 psig",
                CultureInfo.InvariantCulture
            )
            .Value!;
        Assert.Equal("68 psig (4.7 bar gauge)", Metric.WithTyped(typed));
        Assert.Equal("68 psig", Us.WithTyped(typed));
    }

    [Fact]
    public void The_run_under_a_decimal_comma_really_has_one()
    {
        if (Environment.GetEnvironmentVariable("LC_ALL") != "de_DE.UTF-8")
        {
            Assert.Equal("4.7 bar gauge", Metric.Format(new Measure(QuantityKind.GaugePressure, 470e3)));
            return;
        }
        Assert.Equal(",", CultureInfo.CurrentCulture.NumberFormat.NumberDecimalSeparator);
    }
}
