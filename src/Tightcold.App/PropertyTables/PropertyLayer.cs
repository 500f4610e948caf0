namespace Tightcold.App.PropertyTables;

/// <summary>Which layer of the property engine answers.</summary>
public enum PropertyLayer
{
    /// <summary>The reference equations, iterated to full precision.</summary>
    Reference,

    /// <summary>The tables made from them; points outside the tables are answered by the reference layer.</summary>
    Fast,
}
