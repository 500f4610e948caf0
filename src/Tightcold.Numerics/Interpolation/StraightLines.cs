namespace Tightcold.Numerics.Interpolation;

/// <summary>Straight lines between the entries of a table; beyond its ends the end entry holds.</summary>
public static class StraightLines
{
    /// <summary>Value at a place between the entries, which stand at the places 0, 1, 2 and so on.</summary>
    /// <param name="table">Two entries or more.</param>
    public static double At(ReadOnlySpan<double> table, double place)
    {
        if (!(place > 0))
            return table[0];
        if (place >= table.Length - 1)
            return table[^1];
        var k = (int)place;
        return table[k] + ((place - k) * (table[k + 1] - table[k]));
    }

    /// <summary>The place of a number among rising ones: whole at an entry, between two in proportion.</summary>
    public static double Place(ReadOnlySpan<double> rising, double x)
    {
        if (!(x > rising[0]))
            return 0;
        for (var i = 1; i < rising.Length; i++)
            if (x <= rising[i])
                return i - 1 + ((x - rising[i - 1]) / (rising[i] - rising[i - 1]));
        return rising.Length - 1;
    }
}
