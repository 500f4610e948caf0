namespace Tightcold.Properties.Tables;

/// <summary>A <see cref="TableInput"/> as a type, so that the compiler makes a lookup of its own for each.</summary>
internal interface ITableInput
{
    static abstract TableInput Kind { get; }
}
