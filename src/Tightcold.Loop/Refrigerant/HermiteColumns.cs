namespace Tightcold.Loop.Refrigerant;

/// <summary>Turns node values of many columns on an even grid into cubics, interval by interval, with slopes of fourth
/// order.</summary>
internal static class HermiteColumns
{
    /// <summary>Coefficients laid out for four columns at a time: interval, group of four, power, column.</summary>
    public static double[] Build(double[][] nodes)
    {
        var intervals = nodes.Length - 1;
        var coefficients = new double[intervals * 4 * RefrigerantTable.Columns];
        for (var i = 0; i < intervals; i++)
        {
            for (var column = 0; column < RefrigerantTable.Columns; column++)
            {
                double y0 = nodes[i][column],
                    y1 = nodes[i + 1][column];
                double m0 = Slope(nodes, i, column),
                    m1 = Slope(nodes, i + 1, column);
                var at = (i * 4 * RefrigerantTable.Columns) + (column / 4 * 16) + (column % 4);
                coefficients[at] = y0;
                coefficients[at + 4] = m0;
                coefficients[at + 8] = (3 * (y1 - y0)) - (2 * m0) - m1;
                coefficients[at + 12] = (2 * (y0 - y1)) + m0 + m1;
            }
        }

        return coefficients;
    }

    private static double Slope(double[][] nodes, int i, int column)
    {
        var last = nodes.Length - 1;
        double Y(int k) => nodes[k][column];
        if (i >= 2 && i <= last - 2)
            return (Y(i - 2) - (8 * Y(i - 1)) + (8 * Y(i + 1)) - Y(i + 2)) / 12;
        if (i >= 1 && i <= last - 1)
            return (Y(i + 1) - Y(i - 1)) / 2;
        return i == 0 ? ((4 * Y(1)) - (3 * Y(0)) - Y(2)) / 2 : ((3 * Y(last)) - (4 * Y(last - 1)) + Y(last - 2)) / 2;
    }
}
