namespace Tightcold.Storage.Mapping;

/// <summary>A cell of a table that does not hold what its column is for: a time that is none, an id cut short. The
/// database keeps it without complaint, and the reading of it fails.</summary>
internal static class BadCell
{
    public static bool Is(Exception trouble) =>
        trouble is FormatException or InvalidCastException or OverflowException
        || (trouble is InvalidOperationException or ArgumentException && FromReader(trouble));

    /// <summary>The database's own reader: an empty cell where there is none, a blob of the wrong length.</summary>
    private static bool FromReader(Exception trouble) =>
        trouble.Source is "Microsoft.Data.Sqlite" or "Npgsql" or "System.Private.CoreLib"
        && trouble.StackTrace?.Contains("DataReader", StringComparison.Ordinal) == true;
}
