using System.Globalization;
using CsCheck;
using Tightcold.App.PropertyTables;

namespace Tightcold.App.Tests.PropertyTables;

public sealed class NumberWriterTests
{
    [Theory]
    [InlineData(0, "0")]
    [InlineData(300, "300")]
    [InlineData(-1, "-1")]
    [InlineData(0.1, "0.1")]
    [InlineData(9.9999999999999999, "10")]
    [InlineData(999999.99999999999, "1000000")]
    [InlineData(1.2345e-5, "0.000012345")]
    [InlineData(123456789012, "123456789012")]
    [InlineData(-273.15, "-273.15")]
    [InlineData(1e-300, "1E-300")]
    [InlineData(1e13, "10000000000000")]
    public void Numbers_are_written_plainly(double value, string text) => Assert.Equal(text, Write(value));

    [Fact]
    public void Any_number_reads_back_to_fourteen_digits() =>
        Gen.Select(Gen.Double[1, 10], Gen.Int[-12, 15], Gen.Bool)
            .Sample(
                (mantissa, exponent, negative) =>
                {
                    var value = (negative ? -1 : 1) * mantissa * Math.Pow(10, exponent);
                    Assert.Equal(
                        value,
                        double.Parse(Write(value), NumberStyles.Float, CultureInfo.InvariantCulture),
                        6e-14 * Math.Abs(value)
                    );
                },
                iter: 10_000
            );

    private static string Write(double value)
    {
        Span<char> text = stackalloc char[40];
        return text[..NumberWriter.Write(value, text)].ToString();
    }
}
