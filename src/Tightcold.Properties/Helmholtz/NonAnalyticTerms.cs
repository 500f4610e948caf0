namespace Tightcold.Properties.Helmholtz;

/// <summary>
/// The critical-region terms of the equations of carbon dioxide and water:
/// <c>n Delta^b delta psi</c>, <c>Delta = theta^2 + B u^a</c>, <c>theta = 1 - tau + A u^(1/(2 beta))</c>,
/// <c>psi = exp(-C u - D (tau-1)^2)</c>, <c>u = (delta-1)^2</c> (Wagner and Pruss 2002, table 6.5 and its derivatives).
/// What terms share (beta and A; a and B; C and D) is computed once for neighbours that share it.
/// </summary>
internal sealed class NonAnalyticTerms(IReadOnlyList<NonAnalyticTerm> terms)
{
    // Beyond exp(-60) a term is below 1e-26 of its scale, far under the rounding of the other terms.
    private const double NegligibleExponent = 60;

    // The derivatives are singular at delta = 1: evaluate beside it.
    private const double SmallestDistance = 1e-10;

    private readonly NonAnalyticTerm[] _terms = [.. terms];

    public int Count => _terms.Length;

    public void Add(
        double delta,
        double tau,
        ref double a,
        ref double d,
        ref double dd,
        ref double t,
        ref double tt,
        ref double dt
    )
    {
        var distance = delta - 1;
        if (Math.Abs(distance) < SmallestDistance)
            distance = distance < 0 ? -SmallestDistance : SmallestDistance;
        var u = distance * distance;
        var away = tau - 1;
        var logU = double.NaN;
        NonAnalyticTerm? previous = null;
        double psi = 0,
            power = 0,
            powerA = 0,
            theta = 0,
            big = 0,
            logBig = 0;
        foreach (var term in _terms)
        {
            var exponent = (term.C * u) + (term.D * away * away);
            if (exponent > NegligibleExponent)
                continue;
            if (double.IsNaN(logU))
                logU = Math.Log(u);
            var sharesPsi = previous is not null && previous.C == term.C && previous.D == term.D;
            var sharesTheta = previous is not null && previous.Beta == term.Beta && previous.A == term.A;
            var sharesBig = sharesTheta && previous!.SmallA == term.SmallA && previous.B == term.B;
            if (!sharesPsi)
                psi = Math.Exp(-exponent);
            if (!sharesTheta)
            {
                power = Math.Exp(0.5 / term.Beta * logU);
                theta = 1 - tau + (term.A * power);
            }

            if (!sharesBig)
            {
                powerA = term.B * Math.Exp(term.SmallA * logU);
                big = (theta * theta) + powerA;
                logBig = Math.Log(big);
            }

            previous = term;
            Add(
                term,
                delta,
                tau,
                distance,
                u,
                away,
                psi,
                power,
                powerA,
                theta,
                big,
                Math.Exp(term.SmallB * logBig),
                ref a,
                ref d,
                ref dd,
                ref t,
                ref tt,
                ref dt
            );
        }
    }

    private static void Add(
        NonAnalyticTerm term,
        double delta,
        double tau,
        double distance,
        double u,
        double away,
        double psi,
        double power,
        double powerA,
        double theta,
        double big,
        double bigB,
        ref double a,
        ref double d,
        ref double dd,
        ref double t,
        ref double tt,
        ref double dt
    )
    {
        double c = term.C,
            strength = term.D,
            amplitude = term.A,
            n = term.N,
            b = term.SmallB;
        var psiD = -2 * c * distance * psi;
        var psiDd = ((4 * c * c * u) - (2 * c)) * psi;
        var psiT = -2 * strength * away * psi;
        var psiTt = ((4 * strength * strength * away * away) - (2 * strength)) * psi;
        var psiDt = 4 * c * strength * distance * away * psi;

        var inverseBeta = 1 / term.Beta;
        var half = 0.5 * inverseBeta;
        var powerOverU = power / u;
        var bigD = distance * ((2 * inverseBeta * amplitude * theta * powerOverU) + (2 * term.SmallA * powerA / u));
        var bigDd =
            (bigD / distance)
            + (4 * term.SmallA * (term.SmallA - 1) * powerA / u)
            + (2 * amplitude * amplitude * inverseBeta * inverseBeta * power * powerOverU)
            + (4 * amplitude * theta * inverseBeta * (half - 1) * powerOverU);

        var bigB1 = bigB / big;
        var bigB2 = bigB1 / big;
        var powD = b * bigB1 * bigD;
        var powDd = b * ((bigB1 * bigDd) + ((b - 1) * bigB2 * bigD * bigD));
        var powT = -2 * theta * b * bigB1;
        var powTt = (2 * b * bigB1) + (4 * theta * theta * b * (b - 1) * bigB2);
        var powDt =
            (-2 * amplitude * b * inverseBeta * bigB1 * distance * powerOverU)
            - (2 * theta * b * (b - 1) * bigB2 * bigD);

        a += n * bigB * delta * psi;
        d += n * delta * ((bigB * (psi + (delta * psiD))) + (powD * delta * psi));
        dd +=
            n
            * delta
            * delta
            * ((bigB * ((2 * psiD) + (delta * psiDd))) + (2 * powD * (psi + (delta * psiD))) + (powDd * delta * psi));
        t += n * tau * delta * ((powT * psi) + (bigB * psiT));
        tt += n * tau * tau * delta * ((powTt * psi) + (2 * powT * psiT) + (bigB * psiTt));
        dt +=
            n
            * delta
            * tau
            * (
                (bigB * (psiT + (delta * psiDt)))
                + (delta * powD * psiT)
                + (powT * (psi + (delta * psiD)))
                + (powDt * delta * psi)
            );
    }
}
