using System.Data.Common;
using Npgsql;
using Tightcold.Jobs.Journals;
using Tightcold.Quantities;

namespace Tightcold.Storage;

/// <summary>Where the data is: one file in a folder, or a database on a PostgreSQL server. Keys and settings of this
/// machine are in the folder either way.</summary>
/// <param name="Folder">Full path.</param>
/// <param name="Connection">How the server is reached; null for the file.</param>
public sealed record DataPlace(string Folder, string? Connection)
{
    /// <summary>The place asked for (<c>--data</c>), else <c>TIGHTCOLD_DATA</c>, else the user's data folder. A
    /// connection is
    /// <c>Host=…;Database=…</c> or an address that begins with <c>postgres://</c>.</summary>
    public static DataPlace Resolve(string? asked)
    {
        var said = !string.IsNullOrWhiteSpace(asked)
            ? asked.Trim()
            : Environment.GetEnvironmentVariable(DataFolder.Variable)?.Trim();
        return said is { Length: > 0 } && IsConnection(said)
            ? new(DataFolder.Own, Read(said))
            : new(DataFolder.Resolve(asked), null);
    }

    internal static bool IsConnection(string text) =>
        IsAddress(text)
        || (
            text.Contains('=', StringComparison.Ordinal)
            && text.Split(';')
                .Any(part =>
                    part.Split('=')[0].Trim() is var key
                    && (
                        key.Equals("Host", StringComparison.OrdinalIgnoreCase)
                        || key.Equals("Server", StringComparison.OrdinalIgnoreCase)
                    )
                )
        );

    private static bool IsAddress(string text) =>
        text.StartsWith("postgres://", StringComparison.OrdinalIgnoreCase)
        || text.StartsWith("postgresql://", StringComparison.OrdinalIgnoreCase);

    /// <summary>The connection in one spelling. A sentence about it never repeats the text: it may hold a
    /// password.</summary>
    private static string Read(string text)
    {
        try
        {
            var settings = IsAddress(text) ? FromAddress(new Uri(text)) : new NpgsqlConnectionStringBuilder(text);
            return string.IsNullOrEmpty(settings.Host) || string.IsNullOrEmpty(settings.Database)
                ? throw new StoreException(
                    Phrase.Words(
                        "The data is to be on a server, but host and database are not both named; write --data "
                            + "\"Host=…;Database=…;Username=…\" or --data postgres://user@host/database."
                    )
                )
                : settings.ToString();
        }
        catch (Exception trouble) when (trouble is ArgumentException or UriFormatException or FormatException)
        {
            throw new StoreException(
                Phrase.Words(
                    "The connection to the data cannot be read; write --data \"Host=…;Database=…;Username=…\" or "
                        + "--data postgres://user@host/database."
                ),
                trouble
            );
        }
    }

    private static NpgsqlConnectionStringBuilder FromAddress(Uri address)
    {
        var settings = new NpgsqlConnectionStringBuilder
        {
            Host = address.Host,
            Database = Uri.UnescapeDataString(address.AbsolutePath.Trim('/')),
        };
        if (!address.IsDefaultPort && address.Port > 0)
            settings.Port = address.Port;
        var who = address.UserInfo.Split(':', 2);
        if (who[0].Length > 0)
            settings.Username = Uri.UnescapeDataString(who[0]);
        if (who.Length > 1)
            settings.Password = Uri.UnescapeDataString(who[1]);
        // What stands behind the question mark has the names of connection settings, or libpq's.
        foreach (var pair in address.Query.TrimStart('?').Split('&', StringSplitOptions.RemoveEmptyEntries))
        {
            var (name, value) = pair.Split('=', 2) is [var left, var right]
                ? (left, Uri.UnescapeDataString(right))
                : (pair, "");
            ((DbConnectionStringBuilder)settings)[
                name switch
                {
                    "sslmode" => "SSL Mode",
                    "sslrootcert" => "Root Certificate",
                    "application_name" => "Application Name",
                    _ => name,
                }
            ] = name == "sslmode" ? value.Replace("-", "", StringComparison.Ordinal) : value;
        }
        return settings;
    }
}
