using System.Collections.Concurrent;
using System.Net;
using Microsoft.AspNetCore.Connections;
using Microsoft.AspNetCore.Server.Kestrel.Core;

namespace Tightcold.Web.Lan;

/// <summary>Open connections, counted: so many at most, from one address and in all. When all are taken, the oldest
/// over which no paired device has shown its key makes room, so that a neighbour who opens many and says nothing does
/// not lock a phone out. The owner's own door is not counted among them.</summary>
internal sealed class OpenConnections(int most, int mostOfOne)
{
    private readonly ConcurrentDictionary<string, Seat> seats = new(StringComparer.Ordinal);
    private readonly Lock door = new();
    private long arrivals;

    /// <summary>More than every device of a workshop needs: a browser opens six at once.</summary>
    public const int UsualMost = 512,
        UsualMostOfOne = 64;

    public int Count => seats.Count;

    public void Use(ListenOptions listen) => listen.Use(next => connection => RunAsync(connection, next));

    /// <summary>A paired device speaks here: this one is not closed to make room.</summary>
    public void Keep(string connectionId)
    {
        if (seats.TryGetValue(connectionId, out var seat))
            seat.Kept = true;
    }

    private async Task RunAsync(ConnectionContext connection, ConnectionDelegate next)
    {
        var from = (connection.RemoteEndPoint as IPEndPoint)?.Address ?? IPAddress.None;
        var leaving = new List<Seat>();
        bool taken;
        lock (door)
        {
            taken = MakeRoom(mostOfOne, seat => seat.From.Equals(from), leaving) && MakeRoom(most, _ => true, leaving);
            if (taken)
                seats[connection.ConnectionId] = new(connection, from, ++arrivals);
        }
        foreach (var seat in leaving)
            seat.Connection.Abort(new ConnectionAbortedException("Closed to make room for others."));
        if (!taken)
        {
            connection.Abort(new ConnectionAbortedException("Too many connections are open."));
            return;
        }
        try
        {
            await next(connection).ConfigureAwait(false);
        }
        finally
        {
            seats.TryRemove(connection.ConnectionId, out _);
        }
    }

    /// <returns>False when all are taken by paired devices.</returns>
    private bool MakeRoom(int places, Func<Seat, bool> among, List<Seat> leaving)
    {
        var taken = seats.Values.Where(among).ToList();
        if (taken.Count < places)
            return true;
        if (taken.Where(seat => !seat.Kept).MinBy(seat => seat.Arrival) is not { } oldest)
            return false;
        seats.TryRemove(oldest.Connection.ConnectionId, out _);
        leaving.Add(oldest);
        return true;
    }

    private sealed class Seat(ConnectionContext connection, IPAddress from, long arrival)
    {
        public ConnectionContext Connection { get; } = connection;
        public IPAddress From { get; } = from;
        public long Arrival { get; } = arrival;
        public volatile bool Kept;
    }
}
