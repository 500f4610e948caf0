using System.Data.Common;
using Microsoft.EntityFrameworkCore.Diagnostics;

namespace Tightcold.Storage.Mapping;

/// <summary>Every connection waits for the disk at each commit and checks foreign keys: what was acknowledged
/// survives a kill and a power cut. Another program's short write is waited for inside SQLite.</summary>
internal sealed class SafeConnection(string more) : DbConnectionInterceptor
{
    private readonly string pragmas = "PRAGMA busy_timeout=2000; PRAGMA synchronous=FULL; PRAGMA foreign_keys=ON;" + more;

    public override void ConnectionOpened(DbConnection connection, ConnectionEndEventData eventData)
    {
        using var command = connection.CreateCommand();
        command.CommandText = pragmas;
        command.ExecuteNonQuery();
    }

    public override async Task ConnectionOpenedAsync(DbConnection connection, ConnectionEndEventData eventData, CancellationToken cancellationToken = default)
    {
        var command = connection.CreateCommand();
        await using (command.ConfigureAwait(false))
        {
            command.CommandText = pragmas;
            await command.ExecuteNonQueryAsync(cancellationToken).ConfigureAwait(false);
        }
    }
}
