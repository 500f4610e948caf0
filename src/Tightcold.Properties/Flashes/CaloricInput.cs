namespace Tightcold.Properties.Flashes;

/// <summary>Which caloric property a flash at given pressure starts from.</summary>
internal enum CaloricInput
{
    Enthalpy,
    Entropy,
}
