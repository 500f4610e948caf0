namespace Tightcold.Properties.Helmholtz;

/// <summary>Terms <c>n delta^d tau^t exp(-eta (delta-epsilon)^2 - beta (tau-gamma)^2)</c>.</summary>
internal sealed class GaussianTerms
{
    private readonly double[] _n;
    private readonly double[] _t;
    private readonly double[] _eta;
    private readonly double[] _beta;
    private readonly double[] _gamma;
    private readonly double[] _epsilon;

    public GaussianTerms(IReadOnlyList<(double N, int D, double T, double Eta, double Beta, double Gamma, double Epsilon)> terms)
    {
        D = [.. terms.Select(term => term.D)];
        _n = [.. terms.Select(term => term.N)];
        _t = [.. terms.Select(term => term.T)];
        _eta = [.. terms.Select(term => term.Eta)];
        _beta = [.. terms.Select(term => term.Beta)];
        _gamma = [.. terms.Select(term => term.Gamma)];
        _epsilon = [.. terms.Select(term => term.Epsilon)];
    }

    public int Count => _n.Length;

    public int WorkLength => _n.Length;

    public int[] D { get; }

    public void PrepareTemperature(double tau, double logTau, Span<double> work)
    {
        for (var i = 0; i < _n.Length; i++)
        {
            var away = tau - _gamma[i];
            work[i] = _n[i] * Math.Exp((_t[i] * logTau) - (_beta[i] * away * away));
        }
    }

    /// <summary>exp(-eta (delta-epsilon)^2) with the factors of delta d/ddelta and delta^2 d2/ddelta2.</summary>
    public double DensityFactor(int i, double delta, out double first, out double second)
    {
        var away = delta - _epsilon[i];
        var eta = _eta[i];
        var d = D[i];
        first = d - (2 * eta * delta * away);
        second = (first * first) - d - (2 * eta * delta * delta);
        return Math.Exp(-eta * away * away);
    }

    /// <summary>Factors of tau d/dtau and tau^2 d2/dtau2.</summary>
    public void TemperatureFactors(int i, double tau, out double first, out double second)
    {
        var beta = _beta[i];
        var t = _t[i];
        first = t - (2 * beta * tau * (tau - _gamma[i]));
        second = (first * first) - t - (2 * beta * tau * tau);
    }
}
