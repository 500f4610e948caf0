namespace Tightcold.App.PropertyTables;

/// <summary>A row that could not be evaluated.</summary>
/// <param name="Line">Line number in the input, the header being 1.</param>
/// <param name="Reason">Why, for the person.</param>
public sealed record RowProblem(long Line, string Reason);
