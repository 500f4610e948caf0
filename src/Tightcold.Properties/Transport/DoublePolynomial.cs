namespace Tightcold.Properties.Transport;

/// <summary>Sums of c x^i y^j with few terms.</summary>
internal static class DoublePolynomial
{
    public static double Sum((int I, int J, double C)[] terms, double x, double y)
    {
        Span<double> px = [1, x, x * x, x * x * x, x * x * x * x, x * x * x * x * x];
        Span<double> py = [1, y, y * y, y * y * y, y * y * y * y, y * y * y * y * y, y * y * y * y * y * y];
        var sum = 0.0;
        foreach (var (i, j, c) in terms)
            sum += c * px[i] * py[j];
        return sum;
    }
}
