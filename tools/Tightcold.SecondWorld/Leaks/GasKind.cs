namespace Tightcold.SecondWorld.Leaks;

/// <summary>What a leak sees of a gas: figures at 25 °C and 1 bar, from handbooks by memory.</summary>
public sealed record GasKind(double MolarKg, double ViscosityPaS, double Isentrope)
{
    public static GasKind Air { get; } = new(0.02897, 18.4e-6, 1.4);
    public static GasKind Nitrogen { get; } = new(0.02801, 17.8e-6, 1.4);
    public static GasKind Refrigerant { get; } = new(0.10203, 11.8e-6, 1.11);
}
