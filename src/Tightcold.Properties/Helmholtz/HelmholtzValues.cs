namespace Tightcold.Properties.Helmholtz;

/// <summary>
/// A dimensionless Helmholtz energy and its derivatives, each already multiplied by the powers of
/// delta and tau that the property relations want: <c>D</c> is delta dA/ddelta, <c>TT</c> is tau^2 d2A/dtau2.
/// </summary>
internal readonly record struct HelmholtzValues(double A, double D, double DD, double T, double TT, double DT);
