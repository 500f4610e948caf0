namespace Tightcold.App.PropertyTables;

/// <summary>How the evaluation of a table went.</summary>
/// <param name="Rows">Rows read, bad ones included; as many were written.</param>
/// <param name="BadRows">Rows that could not be evaluated: written empty, with the phase "error".</param>
/// <param name="Header">What the header was understood to say.</param>
public sealed record PropertyTableSummary(long Rows, long BadRows, PropertyHeader Header);
