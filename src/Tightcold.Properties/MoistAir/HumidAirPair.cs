using Tightcold.Numerics;
using Tightcold.Numerics.Roots;

namespace Tightcold.Properties.MoistAir;

/// <summary>States from pairs that do not hold the dry bulb: one root in dry-bulb temperature.</summary>
internal static class HumidAirPair
{
    private const double ToleranceK = 1e-10;

    public static HumidAirState Solve(
        HumidAirQuantity first,
        double firstValue,
        HumidAirQuantity second,
        double secondValue,
        double pressurePa
    )
    {
        if (second == HumidAirQuantity.DryBulb || (first != HumidAirQuantity.DryBulb && Rank(second) < Rank(first)))
            (first, firstValue, second, secondValue) = (second, secondValue, first, firstValue);
        if (first == HumidAirQuantity.DryBulb)
            return WithDryBulb(firstValue, second, secondValue, pressurePa);

        HumidAir.CheckPressure(pressurePa);
        var refused =
            first == second
            || (first, second)
                is
                    (HumidAirQuantity.HumidityRatio, HumidAirQuantity.DewPoint)
                    or
                    (HumidAirQuantity.WetBulb, HumidAirQuantity.Enthalpy);
        if (refused)
            throw new ArgumentException($"Humid air: {first} with {second} does not fix a state.", nameof(second));
        if (!double.IsFinite(secondValue))
            throw new FluidRangeException("Humid air", second.ToString(), secondValue, "a finite number");

        double low = HumidAirFormulation.MinTemperatureK,
            high = HumidAirFormulation.MaxTemperatureK;
        var fixedPsi = double.NaN;
        switch (first)
        {
            case HumidAirQuantity.HumidityRatio:
                fixedPsi = HumidAir.MoleFractionChecked(firstValue);
                low = DewPoint.At(fixedPsi, pressurePa) ?? low;
                break;
            case HumidAirQuantity.DewPoint:
                if (!(firstValue >= low && firstValue < WetBulb.BoilingK(pressurePa)))
                    throw new FluidRangeException(
                        "Humid air",
                        "dewPointK",
                        firstValue,
                        "173.15 K to the boiling point of water"
                    );
                fixedPsi = HumidAirFormulation.SaturatedMoleFraction(firstValue, pressurePa);
                low = firstValue;
                break;
            default:
                HumidAir.CheckRatio(firstValue);
                high = Math.Min(high, WetBulb.BoilingK(pressurePa) - 1);
                break;
        }

        var residual = new Residual(fixedPsi, firstValue, second, secondValue, pressurePa);
        return BracketedRoot.Find(residual, low, high, ToleranceK) is Solved<double>.Converged found
            ? HumidAir.Make(found.Value, residual.PsiAt(found.Value), pressurePa)
            : throw new FluidRangeException(
                "Humid air",
                second.ToString(),
                secondValue,
                $"values that air with this {first} has between 173.15 K and 473.15 K"
            );
    }

    private static HumidAirState WithDryBulb(
        double temperatureK,
        HumidAirQuantity second,
        double value,
        double pressurePa
    ) =>
        second switch
        {
            HumidAirQuantity.WetBulb => HumidAir.FromWetBulb(temperatureK, value, pressurePa),
            HumidAirQuantity.DewPoint => HumidAir.FromDewPoint(temperatureK, value, pressurePa),
            HumidAirQuantity.RelativeHumidity => HumidAir.FromRelativeHumidity(temperatureK, value, pressurePa),
            HumidAirQuantity.HumidityRatio => HumidAir.FromHumidityRatio(temperatureK, value, pressurePa),
            HumidAirQuantity.Enthalpy => HumidAir.FromEnthalpy(temperatureK, value, pressurePa),
            _ => throw new ArgumentException("Humid air: a dry bulb alone does not fix a state.", nameof(second)),
        };

    // The quantity that fixes the water content comes first.
    private static int Rank(HumidAirQuantity quantity) =>
        quantity switch
        {
            HumidAirQuantity.HumidityRatio => 0,
            HumidAirQuantity.DewPoint => 1,
            HumidAirQuantity.RelativeHumidity => 2,
            HumidAirQuantity.WetBulb => 3,
            _ => 4,
        };

    private readonly struct Residual(
        double fixedPsi,
        double relativeHumidity,
        HumidAirQuantity second,
        double target,
        double pressurePa
    ) : IScalarFunction
    {
        public double PsiAt(double temperatureK) =>
            double.IsNaN(fixedPsi)
                ? relativeHumidity * HumidAirFormulation.SaturatedMoleFraction(temperatureK, pressurePa)
                : Math.Min(fixedPsi, HumidAirFormulation.SaturatedMoleFraction(temperatureK, pressurePa));

        public double Evaluate(double x)
        {
            var psi = PsiAt(x);
            return second switch
            {
                HumidAirQuantity.Enthalpy => HumidAir.Enthalpy(x, psi, pressurePa) - target,
                HumidAirQuantity.RelativeHumidity => (psi / HumidAirFormulation.SaturatedMoleFraction(x, pressurePa))
                    - target,
                HumidAirQuantity.DewPoint => (DewPoint.At(psi, pressurePa) ?? HumidAirFormulation.MinTemperatureK)
                    - target,
                _ => HumidAir.WetBulbK(
                    HumidAir.Enthalpy(x, psi, pressurePa),
                    psi,
                    pressurePa,
                    DewPoint.At(psi, pressurePa) ?? HumidAirFormulation.MinTemperatureK,
                    x
                ) - target,
            };
        }
    }
}
