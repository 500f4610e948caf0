namespace Tightcold.Properties.Helmholtz;

/// <summary>
/// The ideal-gas part of the Helmholtz energy without its ln(delta):
/// <c>a1 + a2 tau + c ln(tau) + sum n tau^t + sum n ln(d + c exp(-t tau))</c>. Every published form used here (lead,
/// log, power, Planck-Einstein, heat capacity polynomial) is brought to these sums when the fluid file is read.
/// </summary>
internal sealed class IdealPart
{
    private readonly double _a1;
    private readonly double _a2;
    private readonly double _logCoefficient;
    private readonly double[] _powerN;
    private readonly double[] _powerT;
    private readonly double[] _einsteinN;
    private readonly double[] _einsteinT;
    private readonly double[] _einsteinC;
    private readonly double[] _einsteinD;

    public IdealPart(
        double a1,
        double a2,
        double logCoefficient,
        IReadOnlyList<(double N, double T)> powers,
        IReadOnlyList<(double N, double T, double C, double D)> einstein
    )
    {
        _a1 = a1;
        _a2 = a2;
        _logCoefficient = logCoefficient;
        _powerN = [.. powers.Select(term => term.N)];
        _powerT = [.. powers.Select(term => term.T)];
        _einsteinN = [.. einstein.Select(term => term.N)];
        _einsteinT = [.. einstein.Select(term => term.T)];
        _einsteinC = [.. einstein.Select(term => term.C)];
        _einsteinD = [.. einstein.Select(term => term.D)];
    }

    /// <summary>Value, tau d/dtau and tau^2 d2/dtau2 of the temperature part.</summary>
    public void Evaluate(double tau, double logTau, out double value, out double first, out double second)
    {
        var a = _a1 + (_a2 * tau) + (_logCoefficient * logTau);
        var t = (_a2 * tau) + _logCoefficient;
        var tt = -_logCoefficient;
        for (var i = 0; i < _powerN.Length; i++)
        {
            var exponent = _powerT[i];
            var term = _powerN[i] * Math.Exp(exponent * logTau);
            a += term;
            t += exponent * term;
            tt += exponent * (exponent - 1) * term;
        }

        for (var i = 0; i < _einsteinN.Length; i++)
        {
            // f = ln(d + c e), e = exp(-x), x = t tau: tau f' = -x c e / (d + c e), tau^2 f'' = x^2 c d e / (d + c
            // e)^2.
            var x = _einsteinT[i] * tau;
            var e = _einsteinC[i] * Math.Exp(-x);
            var sum = _einsteinD[i] + e;
            var n = _einsteinN[i];
            a += n * Math.Log(sum);
            t -= n * x * e / sum;
            tt += n * x * x * _einsteinD[i] * e / (sum * sum);
        }

        value = a;
        first = t;
        second = tt;
    }
}
