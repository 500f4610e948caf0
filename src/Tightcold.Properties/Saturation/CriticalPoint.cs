using System.Runtime.CompilerServices;
using Tightcold.Numerics.Roots;
using Tightcold.Properties.Data;
using Tightcold.Properties.Helmholtz;

namespace Tightcold.Properties.Saturation;

/// <summary>
/// The critical point of the equation itself, where isotherms stop having a flat part. It differs in the last
/// digits from the published critical point, and the saturation line of the equation ends here.
/// </summary>
internal readonly record struct CriticalPoint(double TemperatureK, double PressurePa, double Delta)
{
    private const double GoldenRatio = 0.6180339887498949;

    // Halvings of a fiftieth of the temperature.
    private const int ToThirteenDigits = 38;

    public static CriticalPoint Of(FluidDefinition fluid)
    {
        var equation = fluid.Equation;
        var published = fluid.CriticalDensityKgPerM3 / equation.ReducingDensityKgPerM3;

        // The equations with non-analytic terms were constrained to the published point and are singular there;
        // a pseudo-pure fluid is not asked for saturation at all.
        if (equation.Residual.HasNonAnalyticTerms || fluid.IsPseudoPure)
            return new CriticalPoint(fluid.CriticalTemperatureK, fluid.CriticalPressurePa, published);

        // The temperature from which on the smallest dp/drho along the isotherm is above zero: the least of a curve is
        // too rough a number for more than its sign.
        var (_, temperature) = Halving.Narrow(
            kelvins => SmallestStiffness(equation, kelvins, published, out var _) > 0,
            0.99 * fluid.CriticalTemperatureK,
            1.01 * fluid.CriticalTemperatureK,
            ToThirteenDigits
        );
        SmallestStiffness(equation, temperature, published, out var delta);
        return new CriticalPoint(temperature, PressureAt(equation, temperature, delta), delta);
    }

    [SkipLocalsInit]
    private static double SmallestStiffness(
        HelmholtzEquation equation,
        double temperatureK,
        double published,
        out double delta
    )
    {
        Span<double> work = stackalloc double[ResidualPart.MaxWork];
        var isotherm = new Isotherm(equation, temperatureK, caloric: false, work);
        double a = 0.7 * published,
            b = 1.3 * published;
        double left = b - (GoldenRatio * (b - a)),
            right = a + (GoldenRatio * (b - a));
        double atLeft = isotherm.Density(left).Stiffness,
            atRight = isotherm.Density(right).Stiffness;
        while (b - a > 1e-9 * published)
        {
            if (atLeft < atRight)
            {
                b = right;
                right = left;
                atRight = atLeft;
                left = b - (GoldenRatio * (b - a));
                atLeft = isotherm.Density(left).Stiffness;
            }
            else
            {
                a = left;
                left = right;
                atLeft = atRight;
                right = a + (GoldenRatio * (b - a));
                atRight = isotherm.Density(right).Stiffness;
            }
        }

        delta = 0.5 * (a + b);
        return Math.Min(atLeft, atRight);
    }

    [SkipLocalsInit]
    private static double PressureAt(HelmholtzEquation equation, double temperatureK, double delta)
    {
        Span<double> work = stackalloc double[ResidualPart.MaxWork];
        var isotherm = new Isotherm(equation, temperatureK, caloric: false, work);
        return isotherm.PressurePa(delta, isotherm.Density(delta));
    }
}
