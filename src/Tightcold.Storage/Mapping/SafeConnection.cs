using System.Data.Common;
using Microsoft.EntityFrameworkCore.Diagnostics;

namespace Tightcold.Storage.Mapping;

/// <summary>Every connection waits for the disk at each commit and checks foreign keys: what was acknowledged
/// survives a kill and a power cut.</summary>
internal sealed class SafeConnection : DbConnectionInterceptor
{
    public static readonly SafeConnection Instance = new();

    private const string Pragmas = "PRAGMA synchronous=FULL; PRAGMA foreign_keys=ON;";

    public override void ConnectionOpened(DbConnection connection, ConnectionEndEventData eventData)
    {
        using var command = connection.CreateCommand();
        command.CommandText = Pragmas;
        command.ExecuteNonQuery();
    }

    public override async Task ConnectionOpenedAsync(DbConnection connection, ConnectionEndEventData eventData, CancellationToken cancellationToken = default)
    {
        var command = connection.CreateCommand();
        await using (command.ConfigureAwait(false))
        {
            command.CommandText = Pragmas;
            await command.ExecuteNonQueryAsync(cancellationToken).ConfigureAwait(false);
        }
    }
}
