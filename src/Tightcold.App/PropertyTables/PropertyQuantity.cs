namespace Tightcold.App.PropertyTables;

/// <summary>What a column of a table of state points may hold.</summary>
public enum PropertyQuantity
{
    Temperature,
    Pressure,
    Density,
    Enthalpy,
    Entropy,
    Quality,
}
