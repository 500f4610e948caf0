namespace Tightcold.Properties.Tests.Laws;

/// <summary>
/// A number with its first and second derivatives in delta and tau: the rules of differentiation as arithmetic. What
/// the engine differentiates by hand is written here as in the papers and differentiated by machine.
/// </summary>
internal readonly record struct Jet(double V, double D, double T, double Dd, double Dt, double Tt)
{
    public static implicit operator Jet(double value) => new(value, 0, 0, 0, 0, 0);

    public static Jet Delta(double value) => new(value, 1, 0, 0, 0, 0);

    public static Jet Tau(double value) => new(value, 0, 1, 0, 0, 0);

    public static Jet operator +(Jet a, Jet b) =>
        new(a.V + b.V, a.D + b.D, a.T + b.T, a.Dd + b.Dd, a.Dt + b.Dt, a.Tt + b.Tt);

    public static Jet operator -(Jet a) => new(-a.V, -a.D, -a.T, -a.Dd, -a.Dt, -a.Tt);

    public static Jet operator -(Jet a, Jet b) => a + (-b);

    public static Jet operator *(Jet a, Jet b) =>
        new(
            a.V * b.V,
            (a.D * b.V) + (a.V * b.D),
            (a.T * b.V) + (a.V * b.T),
            (a.Dd * b.V) + (2 * a.D * b.D) + (a.V * b.Dd),
            (a.Dt * b.V) + (a.D * b.T) + (a.T * b.D) + (a.V * b.Dt),
            (a.Tt * b.V) + (2 * a.T * b.T) + (a.V * b.Tt)
        );

    public static Jet Exp(Jet a) => a.Through(Math.Exp(a.V), Math.Exp(a.V), Math.Exp(a.V));

    public static Jet Log(Jet a) => a.Through(Math.Log(a.V), 1 / a.V, -1 / (a.V * a.V));

    public static Jet Pow(Jet a, double n) =>
        n == 0 ? 1 : a.Through(Math.Pow(a.V, n), n * Math.Pow(a.V, n - 1), n * (n - 1) * Math.Pow(a.V, n - 2));

    private Jet Through(double f, double f1, double f2) =>
        new(f, f1 * D, f1 * T, (f1 * Dd) + (f2 * D * D), (f1 * Dt) + (f2 * D * T), (f1 * Tt) + (f2 * T * T));
}
