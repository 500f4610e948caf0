using System.Diagnostics;
using System.Net;
using System.Net.Sockets;
using Npgsql;

namespace Tightcold.Storage.Tests.Server;

/// <summary>A PostgreSQL server of this test run alone: its own folder, a free port of loopback, gone afterwards.
/// Started when the first test asks for it. A server refuses to run as the administrator, so it then runs as the
/// system's user for it.</summary>
public sealed class PostgresServer : IAsyncLifetime
{
    private const string User = "postgres";

    /// <summary>Stops the server when this program closes its end of the pipe, however it ends.</summary>
    private const string Keeper = "\"$0\" \"$@\" & server=$!; read -r _; kill -QUIT $server; wait $server";

    private readonly SemaphoreSlim turn = new(1, 1);
    private string? folder;
    private Process? server;
    private int port;
    private int made;

    public ValueTask InitializeAsync() => ValueTask.CompletedTask;

    /// <summary>Where the server's programs are; null when there are none.</summary>
    public static string? Programs { get; } =
        Directory.Exists("/usr/lib/postgresql")
            ? Directory
                .EnumerateDirectories("/usr/lib/postgresql")
                .Select(version => Path.Combine(version, "bin"))
                .Where(bin => File.Exists(Path.Combine(bin, "initdb")))
                .Order(StringComparer.Ordinal)
                .LastOrDefault()
            : Environment
                .GetEnvironmentVariable("PATH")
                ?.Split(Path.PathSeparator)
                .FirstOrDefault(bin => File.Exists(Path.Combine(bin, "initdb")));

    /// <summary>An empty database, as <c>--data</c> takes it.</summary>
    public async Task<string> NewDatabaseAsync(CancellationToken cancellation)
    {
        Assert.SkipWhen(Programs is null, "no PostgreSQL server is installed");
        await turn.WaitAsync(cancellation);
        try
        {
            if (server is null)
                await StartAsync(cancellation);
            var name = $"bay{++made}";
            await using var connection = new NpgsqlConnection(Connection("postgres"));
            await connection.OpenAsync(cancellation);
            await using var command = new NpgsqlCommand($"CREATE DATABASE {name} TEMPLATE template0", connection);
            await command.ExecuteNonQueryAsync(cancellation);
            return Connection(name);
        }
        finally
        {
            turn.Release();
        }
    }

    private string Connection(string database) =>
        $"Host=127.0.0.1;Port={port};Username={User};Database={database};Timeout=30";

    private async Task StartAsync(CancellationToken cancellation)
    {
        folder = Directory.CreateTempSubdirectory("tightcold-pg-").FullName;
        var data = Path.Combine(folder, "data");
        if (Environment.UserName == "root")
        {
            await RunAsync("chown", [User, folder], cancellation);
        }
        await RunAsync(
            Path.Combine(Programs!, "initdb"),
            ["-D", data, "-U", User, "-A", "trust", "-E", "UTF8", "--locale=C", "--no-sync"],
            cancellation,
            asServer: true
        );
        port = FreePort();
        // A test server need not survive a power cut.
        server = Process.Start(
            Command(
                "sh",
                [
                    "-c",
                    Keeper,
                    Path.Combine(Programs!, "postgres"),
                    "-D",
                    data,
                    "-p",
                    port.ToString(System.Globalization.CultureInfo.InvariantCulture),
                    "-c",
                    "listen_addresses=127.0.0.1",
                    "-c",
                    $"unix_socket_directories={folder}",
                    "-c",
                    "fsync=off",
                    "-c",
                    "max_connections=120",
                ],
                asServer: true
            )
        )!;
        _ = server.StandardError.ReadToEndAsync(CancellationToken.None);
        _ = server.StandardOutput.ReadToEndAsync(CancellationToken.None);
        for (var until = DateTime.UtcNow.AddSeconds(60); ; await Task.Delay(50, cancellation))
        {
            try
            {
                await using var connection = new NpgsqlConnection(Connection("postgres") + ";Pooling=false");
                await connection.OpenAsync(cancellation);
                return;
            }
            catch (NpgsqlException) when (DateTime.UtcNow < until && !server.HasExited)
            {
                // Still starting.
            }
        }
    }

    private static int FreePort()
    {
        using var probe = new TcpListener(IPAddress.Loopback, 0);
        probe.Start();
        return ((IPEndPoint)probe.LocalEndpoint).Port;
    }

    private static ProcessStartInfo Command(string program, string[] arguments, bool asServer)
    {
        var change = asServer && Environment.UserName == "root";
        var start = new ProcessStartInfo(change ? "setpriv" : program)
        {
            RedirectStandardInput = true,
            RedirectStandardError = true,
            RedirectStandardOutput = true,
            WorkingDirectory = Path.GetTempPath(),
        };
        if (change)
            foreach (var word in new[] { $"--reuid={User}", $"--regid={User}", "--clear-groups", program })
                start.ArgumentList.Add(word);
        foreach (var word in arguments)
            start.ArgumentList.Add(word);
        return start;
    }

    private static async Task RunAsync(
        string program,
        string[] arguments,
        CancellationToken cancellation,
        bool asServer = false
    )
    {
        using var process = Process.Start(Command(program, arguments, asServer))!;
        var said = process.StandardOutput.ReadToEndAsync(cancellation);
        var wrong = await process.StandardError.ReadToEndAsync(cancellation);
        await said;
        await process.WaitForExitAsync(cancellation);
        Assert.True(process.ExitCode == 0, $"{program} ended with {process.ExitCode}: {wrong}");
    }

    public async ValueTask DisposeAsync()
    {
        if (server is not null)
        {
            NpgsqlConnection.ClearAllPools();
            server.StandardInput.Close();
            using var patience = new CancellationTokenSource(TimeSpan.FromSeconds(20));
            try
            {
                await server.WaitForExitAsync(patience.Token);
            }
            catch (OperationCanceledException)
            {
                server.Kill();
            }
            server.Dispose();
        }
        if (folder is not null)
            Directory.Delete(folder, recursive: true);
        turn.Dispose();
    }
}
