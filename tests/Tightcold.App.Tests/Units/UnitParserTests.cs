using System.Globalization;
using CsCheck;
using Tightcold.App.Units;
using Tightcold.Jobs.Fields;
using Tightcold.Quantities;

namespace Tightcold.App.Tests.Units;

public sealed class UnitParserTests
{
    private static readonly CultureInfo Plain = CultureInfo.InvariantCulture;
    private static readonly CultureInfo German = CultureInfo.GetCultureInfo("de-DE");

    private static (FieldValue.Quantity? Value, InputProblem? Problem) Parse(
        QuantityKind kind,
        string text,
        CultureInfo? culture = null
    ) => UnitParser.Parse(new FieldType.Quantity(kind, double.MinValue, double.MaxValue), text, culture ?? Plain);

    private static double Si(QuantityKind kind, string text, CultureInfo? culture = null)
    {
        var (value, problem) = Parse(kind, text, culture);
        Assert.Null(problem);
        return value!.Value.Si;
    }

    private static string Refusal(QuantityKind kind, string text, CultureInfo? culture = null)
    {
        var (value, problem) = Parse(kind, text, culture);
        Assert.Null(value);
        return problem!.Sentence.ToString();
    }

    /// <summary>Factors of NIST Special Publication 811 (2008), appendix B.8, as printed there (digits from memory):
    /// psi 6.894 757 E+03 Pa; inch of mercury, conventional 3.386 389 E+03 Pa; millimetre of mercury, conventional
    /// 1.333 224 E+02 Pa; ounce 2.834 952 E-02 kg; pound 4.535 924 E-01 kg; fluid ounce (US) 2.957 353 E-05 m3; inch
    /// 2.54 E-02 m exactly; foot 3.048 E-01 m exactly; cubic foot per minute 4.719 474 E-04 m3/s; cubic inch
    /// 1.638 706 E-05 m3. Tolerance: half of the last printed digit.</summary>
    [Theory]
    [InlineData(QuantityKind.GaugePressure, "1 psi", 6894.757, 5e-4)]
    [InlineData(QuantityKind.GaugePressure, "1psig", 6894.757, 5e-4)]
    [InlineData(QuantityKind.GaugePressure, "1 inHg", -3386.389, 5e-4)]
    [InlineData(QuantityKind.AbsolutePressure, "1 inHg", 3386.389, 5e-4)]
    [InlineData(QuantityKind.Vacuum, "1000 micron", 133.3224, 5e-5)]
    [InlineData(QuantityKind.Mass, "1 oz", 0.02834952, 5e-9)]
    [InlineData(QuantityKind.Mass, "1 lb", 0.4535924, 5e-8)]
    [InlineData(QuantityKind.LiquidVolume, "1 fl oz", 2.957353e-5, 5e-12)]
    [InlineData(QuantityKind.Bore, "1 in", 0.0254, 1e-15)]
    [InlineData(QuantityKind.Altitude, "1 ft", 0.3048, 1e-15)]
    [InlineData(QuantityKind.VolumeFlow, "1 cfm", 4.719474e-4, 5e-11)]
    [InlineData(QuantityKind.InternalVolume, "1 in³", 1.638706e-5, 5e-12)]
    public void A_unit_of_the_trade_has_the_factor_of_the_standard(
        QuantityKind kind,
        string text,
        double si,
        double tolerance
    ) => Assert.Equal(si, Si(kind, text), tolerance);

    /// <summary>Exact by definition of the units.</summary>
    [Theory]
    [InlineData(QuantityKind.GaugePressure, "4.7 bar", 4.7e5)]
    [InlineData(QuantityKind.GaugePressure, "470 kPa", 4.7e5)]
    [InlineData(QuantityKind.GaugePressure, "-0.8 bar", -0.8e5)]
    [InlineData(QuantityKind.GaugePressure, "−0.8 bar gauge", -0.8e5)]
    [InlineData(QuantityKind.AbsolutePressure, "1013 hPa", 101300)]
    [InlineData(QuantityKind.AbsolutePressure, "1.013 bar abs", 101300)]
    [InlineData(QuantityKind.Vacuum, "0.5 mbar", 50)]
    [InlineData(QuantityKind.Temperature, "25 °C", 298.15)]
    [InlineData(QuantityKind.Temperature, "25C", 298.15)]
    [InlineData(QuantityKind.Temperature, "77F", 298.15)]
    [InlineData(QuantityKind.Temperature, "-40 degF", 233.15)]
    [InlineData(QuantityKind.TemperatureDifference, "1.8 F", 1)]
    [InlineData(QuantityKind.TemperatureDifference, "2 °C", 2)]
    [InlineData(QuantityKind.Mass, "340 g", 0.34)]
    [InlineData(QuantityKind.Mass, "1 lb 8 oz", 0.68038855500)]
    [InlineData(QuantityKind.LiquidVolume, "20 cc", 20e-6)]
    [InlineData(QuantityKind.RelativeHumidity, "55 % RH", 0.55)]
    [InlineData(QuantityKind.Duration, "20 min", 1200)]
    [InlineData(QuantityKind.Duration, "1.5 h", 5400)]
    [InlineData(QuantityKind.RotationalSpeed, "1500 rpm", 25)]
    [InlineData(QuantityKind.Length, "1.8 m", 1.8)]
    [InlineData(QuantityKind.Bore, "5mm", 0.005)]
    [InlineData(QuantityKind.LeakRate, "31557.6 g/yr", 1e-6)]
    [InlineData(QuantityKind.GasThroughput, "1 mbar L/s", 0.1)]
    [InlineData(QuantityKind.PressureRise, "0.6 mbar/min", 1)]
    public void A_number_with_its_unit_is_understood(QuantityKind kind, string text, double si) =>
        Assert.Equal(si, Si(kind, text), Math.Abs(si) * 1e-9);

    [Fact]
    public void Vacuum_on_a_dial_is_below_the_surrounding_air_with_or_without_a_minus()
    {
        Assert.True(Si(QuantityKind.GaugePressure, "28 inHg") < -94e3);
        Assert.Equal(Si(QuantityKind.GaugePressure, "28 inHg"), Si(QuantityKind.GaugePressure, "-28 inHg vacuum"));
    }

    [Theory]
    [InlineData("4,7 bar", 4.7)]
    [InlineData("4,75 bar", 4.75)]
    [InlineData("0,125 bar", 0.125)]
    [InlineData("12,5 bar", 12.5)]
    public void A_comma_is_a_decimal_sign_where_it_can_be_nothing_else(string text, double bar)
    {
        Assert.Equal(bar * 1e5, Si(QuantityKind.GaugePressure, text), 1e-6);
        Assert.Equal(bar * 1e5, Si(QuantityKind.GaugePressure, text, German), 1e-6);
    }

    [Theory]
    [InlineData("1,250 kPa")]
    [InlineData("1,250.5 kPa")]
    [InlineData("1.250,5 kPa")]
    [InlineData("1,250,000 Pa")]
    public void A_number_that_could_be_read_in_two_ways_is_refused(string text) =>
        Assert.Contains("two ways", Refusal(QuantityKind.GaugePressure, text), StringComparison.Ordinal);

    [Fact]
    public void On_a_german_screen_the_comma_is_decimal_and_a_dot_before_three_digits_is_in_doubt()
    {
        Assert.Equal(1.25e5, Si(QuantityKind.GaugePressure, "1,250 bar", German), 1e-6);
        Assert.Contains("two ways", Refusal(QuantityKind.GaugePressure, "1.250 kPa", German), StringComparison.Ordinal);
        Assert.Equal(2.5e5, Si(QuantityKind.GaugePressure, "2.5 bar", German), 1e-6);
    }

    [Theory]
    [InlineData(QuantityKind.GaugePressure, "68", "the unit is missing")]
    [InlineData(QuantityKind.GaugePressure, "much", "a number with its unit")]
    [InlineData(QuantityKind.GaugePressure, "psig", "a number with its unit")]
    [InlineData(QuantityKind.GaugePressure, "NaN psi", "a number with its unit")]
    [InlineData(QuantityKind.GaugePressure, "68 parsec", "no unit for this")]
    [InlineData(QuantityKind.GaugePressure, "68 psia", "counts from perfect vacuum")]
    [InlineData(QuantityKind.GaugePressure, "4.7 bar abs", "counts from perfect vacuum")]
    [InlineData(QuantityKind.GaugePressure, "470 kPa abs", "counts from perfect vacuum")]
    [InlineData(QuantityKind.GaugePressure, "500 micron", "counts from perfect vacuum")]
    [InlineData(QuantityKind.AbsolutePressure, "14 psig", "counts from the surrounding air")]
    [InlineData(QuantityKind.Vacuum, "28 inHg", "counts from the surrounding air")]
    [InlineData(QuantityKind.Vacuum, "0.5 bar", "counts from the surrounding air")]
    [InlineData(QuantityKind.LiquidVolume, "2 oz", "oil is counted by volume")]
    [InlineData(QuantityKind.RelativeHumidity, "0.55", "the unit is missing")]
    [InlineData(QuantityKind.Mass, "1 lb 20 oz", "no unit for this")]
    public void What_cannot_be_trusted_is_refused_in_one_sentence(QuantityKind kind, string text, string because)
    {
        var sentence = Refusal(kind, text);
        Assert.Contains(because, sentence, StringComparison.Ordinal);
        Assert.Contains(text, sentence, StringComparison.Ordinal);
        Assert.EndsWith(".", sentence, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData(QuantityKind.GaugePressure, "68 psig ± 2 psi", 13789.51)]
    [InlineData(QuantityKind.GaugePressure, "68 psig +/- 2 psig", 13789.51)]
    [InlineData(QuantityKind.GaugePressure, "68 ± 2 psig", 13789.51)]
    [InlineData(QuantityKind.GaugePressure, "4.7 bar ± 0.1 bar", 1e4)]
    [InlineData(QuantityKind.Temperature, "77 °F ± 1.8 °F", 1)]
    [InlineData(QuantityKind.Temperature, "25 °C ± 1 K", 1)]
    [InlineData(QuantityKind.Mass, "340 g ± 2 g", 0.002)]
    public void A_reading_may_carry_its_own_uncertainty(QuantityKind kind, string text, double si)
    {
        var (value, problem) = Parse(kind, text);
        Assert.Null(problem);
        Assert.Equal(si, value!.PlusMinusSi!.Value, si * 1e-6);
        Assert.Equal(text, value.AsTyped);
    }

    [Theory]
    [InlineData("68 psig ± 2")]
    [InlineData("68 psig ± much")]
    [InlineData("68 psig ± -2 psi")]
    [InlineData("68 psig ± 2 °C")]
    [InlineData("68 psig ± 2 psi ± 1 psi")]
    public void An_uncertainty_that_is_none_is_refused(string text) =>
        Assert.Contains("±", Refusal(QuantityKind.GaugePressure, text), StringComparison.Ordinal);

    [Fact]
    public void Every_unit_offered_is_understood_and_the_way_back_ends_where_it_began()
    {
        foreach (var kind in Enum.GetValues<QuantityKind>().Where(kind => kind != QuantityKind.Number))
        {
            foreach (var system in Enum.GetValues<UnitSystem>())
            {
                Assert.NotEmpty(UnitParser.UnitsFor(kind, system));
                foreach (var symbol in UnitParser.UnitsFor(kind, system))
                    Si(kind, "12.5 " + symbol);
            }
        }
    }

    [Fact]
    public void What_is_shown_can_be_typed_again()
    {
        var kinds = Enum.GetValues<QuantityKind>()
            .Where(kind => kind is not (QuantityKind.Number or QuantityKind.GasThroughput))
            .ToArray();
        Gen.Select(Gen.Int[0, kinds.Length - 1], Gen.Double[0, 1], Gen.Bool, Gen.Bool)
            .Sample(
                (which, share, us, german) =>
                {
                    var kind = kinds[which];
                    var (low, high) = Span(kind);
                    var si = low + share * (high - low);
                    var culture = german ? German : Plain;
                    var shown = new ReaderUnits(us ? UnitSystem.Us : UnitSystem.Metric, culture).Format(
                        new Measure(kind, si)
                    );
                    var (value, problem) = Parse(kind, shown, culture);
                    Assert.True(problem is null, $"{shown}: {problem?.Sentence}");
                    Assert.Equal(si, value!.Value.Si, Math.Max(Math.Abs(si) * 0.06, (high - low) * 0.006));
                }
            );
    }

    /// <summary>A range in which each kind is met in a driveway.</summary>
    private static (double Low, double High) Span(QuantityKind kind) =>
        kind switch
        {
            QuantityKind.Temperature => (233, 423),
            QuantityKind.TemperatureDifference => (-20, 60),
            QuantityKind.AbsolutePressure => (30e3, 3e6),
            QuantityKind.GaugePressure => (-100e3, 3e6),
            QuantityKind.Vacuum => (10, 5000),
            QuantityKind.PressureDifference => (50, 100e3),
            QuantityKind.Mass => (0.01, 12),
            QuantityKind.LiquidVolume => (5e-6, 5e-4),
            QuantityKind.InternalVolume => (5e-4, 5e-3),
            QuantityKind.Length => (0.3, 5),
            QuantityKind.Bore => (2e-3, 12e-3),
            QuantityKind.Altitude => (-300, 4000),
            QuantityKind.Duration => (1, 86400),
            QuantityKind.RotationalSpeed => (8, 80),
            QuantityKind.VolumeFlow => (2e-4, 5e-3),
            QuantityKind.LeakRate => (1e-10, 1e-8),
            QuantityKind.PressureRise => (0.001, 1),
            _ => (0.02, 1),
        };
}
