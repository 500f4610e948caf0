namespace Tightcold.Properties.Tables;

/// <summary>The second coordinate of a table, besides pressure.</summary>
internal enum TableInput
{
    Enthalpy,
    Entropy,
    Temperature,
}
