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

    public GaussianTerms(
        IReadOnlyList<(double N, int D, double T, double Eta, double Beta, double Gamma, double Epsilon)> terms
    )
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

    /// <summary>The number of terms rounded up to whole vectors.</summary>
    public int Padded => (_n.Length + 3) & ~3;

    public int[] D { get; }

    public void PrepareTemperature(double tau, double logTau, Span<double> work)
    {
        for (var i = 0; i < _n.Length; i++)
        {
            var away = tau - _gamma[i];
            work[i] = _n[i] * Math.Exp((_t[i] * logTau) - (_beta[i] * away * away));
        }
    }

    /// <summary>The exponents -eta (delta-epsilon)^2, padded with zeros to whole vectors.</summary>
    public void FillExponents(double delta, Span<double> exponents)
    {
        for (var i = 0; i < _n.Length; i++)
        {
            var away = delta - _epsilon[i];
            exponents[i] = -_eta[i] * away * away;
        }

        exponents[_n.Length..Padded].Clear();
    }

    /// <summary>Factors of delta d/ddelta and delta^2 d2/ddelta2.</summary>
    public void DensityFactors(int i, double delta, out double first, out double second)
    {
        var eta = _eta[i];
        var d = D[i];
        first = d - (2 * eta * delta * (delta - _epsilon[i]));
        second = (first * first) - d - (2 * eta * delta * delta);
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
