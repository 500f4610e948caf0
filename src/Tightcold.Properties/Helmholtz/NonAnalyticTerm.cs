namespace Tightcold.Properties.Helmholtz;

/// <summary>Coefficients of one critical-region term; see <see cref="NonAnalyticTerms"/> for the formula.</summary>
internal sealed record NonAnalyticTerm(
    double N,
    double SmallA,
    double SmallB,
    double Beta,
    double A,
    double B,
    double C,
    double D
);
