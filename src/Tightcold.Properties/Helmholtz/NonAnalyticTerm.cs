namespace Tightcold.Properties.Helmholtz;

/// <summary>
/// One critical-region term of the equations of carbon dioxide and water:
/// <c>n Delta^b delta psi</c>, <c>Delta = theta^2 + B u^a</c>, <c>theta = 1 - tau + A u^(1/(2 beta))</c>,
/// <c>psi = exp(-C u - D (tau-1)^2)</c>, <c>u = (delta-1)^2</c>
/// (Wagner and Pruss 2002, table 6.5 and its derivatives).
/// </summary>
internal sealed record NonAnalyticTerm(double N, double SmallA, double SmallB, double Beta, double A, double B, double C, double D)
{
    // Beyond exp(-80) the term is below 1e-34 of its scale, far under the rounding of the other terms.
    private const double NegligibleExponent = 80;

    // The derivatives are singular at delta = 1: evaluate beside it.
    private const double SmallestDistance = 1e-10;

    public void Add(double delta, double tau, ref double a, ref double d, ref double dd, ref double t, ref double tt, ref double dt)
    {
        var distance = delta - 1;
        if (Math.Abs(distance) < SmallestDistance)
            distance = distance < 0 ? -SmallestDistance : SmallestDistance;
        var u = distance * distance;
        var away = tau - 1;
        var exponent = (C * u) + (D * away * away);
        if (exponent > NegligibleExponent)
            return;

        var psi = Math.Exp(-exponent);
        var psiD = -2 * C * distance * psi;
        var psiDd = ((4 * C * C * u) - (2 * C)) * psi;
        var psiT = -2 * D * away * psi;
        var psiTt = ((4 * D * D * away * away) - (2 * D)) * psi;
        var psiDt = 4 * C * D * distance * away * psi;

        var inverseBeta = 1 / Beta;
        var half = 0.5 * inverseBeta;
        var power = Math.Pow(u, half);              // u^(1/(2 beta))
        var powerOverU = power / u;
        var powerA = B * Math.Pow(u, SmallA);       // B u^a
        var theta = 1 - tau + (A * power);
        var big = (theta * theta) + powerA;
        var bigD = distance * ((2 * inverseBeta * A * theta * powerOverU) + (2 * SmallA * powerA / u));
        var bigDd = (bigD / distance)
            + (4 * SmallA * (SmallA - 1) * powerA / u)
            + (2 * A * A * inverseBeta * inverseBeta * power * powerOverU)
            + (4 * A * theta * inverseBeta * (half - 1) * powerOverU);

        var b = SmallB;
        var bigB = Math.Pow(big, b);
        var bigB1 = bigB / big;
        var bigB2 = bigB1 / big;
        var powD = b * bigB1 * bigD;
        var powDd = b * ((bigB1 * bigDd) + ((b - 1) * bigB2 * bigD * bigD));
        var powT = -2 * theta * b * bigB1;
        var powTt = (2 * b * bigB1) + (4 * theta * theta * b * (b - 1) * bigB2);
        var powDt = (-2 * A * b * inverseBeta * bigB1 * distance * powerOverU) - (2 * theta * b * (b - 1) * bigB2 * bigD);

        a += N * bigB * delta * psi;
        d += N * delta * ((bigB * (psi + (delta * psiD))) + (powD * delta * psi));
        dd += N * delta * delta * ((bigB * ((2 * psiD) + (delta * psiDd))) + (2 * powD * (psi + (delta * psiD))) + (powDd * delta * psi));
        t += N * tau * delta * ((powT * psi) + (bigB * psiT));
        tt += N * tau * tau * delta * ((powTt * psi) + (2 * powT * psiT) + (bigB * psiTt));
        dt += N * delta * tau * ((bigB * (psiT + (delta * psiDt))) + (delta * powD * psiT) + (powT * (psi + (delta * psiD))) + (powDt * delta * psi));
    }
}
