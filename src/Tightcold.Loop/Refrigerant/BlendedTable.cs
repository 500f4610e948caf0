using Tightcold.Numerics.Roots;

namespace Tightcold.Loop.Refrigerant;

/// <summary>Two refrigerants as one fluid between them; see <see cref="RefrigerantTables.Blend"/>.</summary>
internal static class BlendedTable
{
    private const int NodeCount = 193;
    private const int TemperatureColumn = 0;

    public static RefrigerantTable Make(RefrigerantTable first, RefrigerantTable second, double share)
    {
        var molesFirst = (1 - share) / first.MolarMassKgPerMol;
        var molesSecond = share / second.MolarMassKgPerMol;
        var moleShare = molesSecond / (molesFirst + molesSecond);
        double Mix(double a, double b) => ((1 - share) * a) + (share * b);

        var low = Math.Max(first.MinLogPressure, second.MinLogPressure);
        var high = Math.Min(first.MaxLogPressure, second.MaxLogPressure);
        var step = (high - low) / (NodeCount - 1);
        var nodes = new double[NodeCount][];
        for (var i = 0; i < NodeCount; i++)
        {
            var log = low + (i * step);
            var a = first.Columns16(log);
            var b = second.Columns16(log);
            nodes[i] = [.. a.Zip(b, Mix)];
            nodes[i][TemperatureColumn] = BoilingK(
                first,
                second,
                moleShare,
                Math.Exp(log),
                a[TemperatureColumn],
                b[TemperatureColumn]
            );
        }

        return new RefrigerantTable(
            $"{first.Name}+{second.Name}",
            low,
            step,
            nodes,
            Mix(first.CriticalTemperatureK, second.CriticalTemperatureK),
            Mix(first.CriticalPressurePa, second.CriticalPressurePa),
            1 / (molesFirst + molesSecond)
        );
    }

    private static double BoilingK(
        RefrigerantTable first,
        RefrigerantTable second,
        double moleShare,
        double pressurePa,
        double ta,
        double tb
    )
    {
        double Excess(double kelvins) =>
            ((1 - moleShare) * first.SaturationPressurePa(kelvins))
            + (moleShare * second.SaturationPressurePa(kelvins))
            - pressurePa;
        return BracketedRoot.Nearest(Excess, Math.Min(ta, tb) - 0.01, Math.Max(ta, tb) + 0.01, 1e-12);
    }
}
