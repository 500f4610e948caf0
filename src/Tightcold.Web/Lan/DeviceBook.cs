using System.Buffers.Text;
using System.Collections.Immutable;
using System.Security.Cryptography;
using System.Text;
using System.Text.Json;
using Tightcold.Storage;

namespace Tightcold.Web.Lan;

/// <summary>The paired devices of this data folder: <c>devices.json</c>, readable by its owner only. It holds the
/// SHA-256 of each key (256 random bits, so that a plain hash is enough), never the key. A running site notices when
/// another program strikes a device. A file that cannot be read lets nobody in.</summary>
public sealed class DeviceBook(string folder, TimeProvider clock)
{
    /// <summary>A workshop has fewer; more would mean that something goes wrong.</summary>
    public const int MostDevices = 50;
    public const int LongestName = 40;

    private static readonly JsonSerializerOptions Form = new(JsonSerializerDefaults.Web)
    {
        WriteIndented = true,
        NewLine = "\n",
    };

    private readonly string path = Path.Combine(folder, "devices.json");
    private readonly Lock gate = new();
    private (DateTime Written, long Length) known;
    private ImmutableArray<Row> rows = [];

    private sealed record Row(PairedDevice Device, string KeyHash);

    private sealed record Book(string Format, ImmutableArray<Row> Devices);

    private const string Format = "tightcold-devices 1";

    public IReadOnlyList<PairedDevice> List() =>
        [.. Read().Select(row => row.Device).OrderBy(device => device.PairedAt)];

    /// <summary>Enters a device; the key is told once and not kept.</summary>
    public (PairedDevice Device, string Key) Add(string name)
    {
        var key = RandomNumberGenerator.GetBytes(32);
        var now = clock.GetUtcNow();
        var device = new PairedDevice(Guid.CreateVersion7(now), Tidy(name), now, now);
        Change(there =>
            there.Length >= MostDevices
                ? throw new StoreException(
                    $"{MostDevices} devices are paired already; revoke those that are no longer used first."
                )
                : there.Add(new(device, Hash(key)))
        );
        return (device, Base64Url.EncodeToString(key));
    }

    /// <summary>Strikes a device: its key opens nothing any more. False when there is none of that id.</summary>
    public bool Revoke(Guid id)
    {
        var found = false;
        Change(there =>
        {
            var rest = there.RemoveAll(row => row.Device.Id == id);
            found = rest.Length < there.Length;
            return rest;
        });
        return found;
    }

    /// <summary>The device whose key this is; or null.</summary>
    internal PairedDevice? Find(string? key)
    {
        if (key is not { Length: > 0 and < 100 } || !Base64Url.IsValid(key))
            return null;
        var hash = Encoding.ASCII.GetBytes(Hash(Base64Url.DecodeFromChars(key)));
        PairedDevice? found = null;
        foreach (var row in Read())
            if (CryptographicOperations.FixedTimeEquals(hash, Encoding.ASCII.GetBytes(row.KeyHash)))
                found = row.Device;
        return found;
    }

    /// <summary>Notes that the device was here, at most once a minute; a full disk must not keep it out.</summary>
    internal void Saw(PairedDevice device)
    {
        var now = clock.GetUtcNow();
        if (now - device.LastSeen < TimeSpan.FromMinutes(1))
            return;
        try
        {
            Change(there =>
                [
                    .. there.Select(row =>
                        row.Device.Id == device.Id ? row with { Device = row.Device with { LastSeen = now } } : row
                    ),
                ]
            );
        }
        catch (StoreException)
        {
            // The list then says an older time.
        }
    }

    private static string Hash(byte[] key) => Convert.ToHexStringLower(SHA256.HashData(key));

    private static string Tidy(string name)
    {
        var words = new string([.. name.Where(letter => !char.IsControl(letter) && !char.IsSurrogate(letter))]).Trim();
        return words.Length == 0 ? "device"
            : words.Length > LongestName ? words[..LongestName]
            : words;
    }

    private ImmutableArray<Row> Read()
    {
        lock (gate)
        {
            try
            {
                var file = new FileInfo(path);
                var state = file.Exists ? (file.LastWriteTimeUtc, file.Length) : default;
                if (state == known)
                    return rows;
                rows = file.Exists ? Parse(File.ReadAllBytes(path)) : [];
                known = state;
                return rows;
            }
            catch (Exception trouble) when (trouble is IOException or UnauthorizedAccessException)
            {
                throw new StoreException(
                    $"The list of paired devices {path} cannot be read; until it can, no device is let in.",
                    trouble
                );
            }
        }
    }

    private ImmutableArray<Row> Parse(byte[] text)
    {
        try
        {
            if (
                JsonSerializer.Deserialize<Book>(text, Form) is { Format: Format, Devices.IsDefault: false } book
                && book.Devices.All(row => row is { Device.Name: not null, KeyHash.Length: 64 })
            )
                return book.Devices;
        }
        catch (JsonException)
        {
            // Said below.
        }
        throw new StoreException(
            $"The list of paired devices {path} is not one; no device is let in. Move it away and pair the devices again."
        );
    }

    private void Change(Func<ImmutableArray<Row>, ImmutableArray<Row>> change)
    {
        lock (gate)
        {
            try
            {
                using var hold = Hold();
                known = default;
                rows = [];
                var changed = change(Read());
                var draft = path + ".new";
                var access = new FileStreamOptions { Mode = FileMode.Create, Access = FileAccess.Write };
                if (!OperatingSystem.IsWindows())
                    access.UnixCreateMode = UnixFileMode.UserRead | UnixFileMode.UserWrite;
                using (var stream = new FileStream(draft, access))
                {
                    stream.Write(JsonSerializer.SerializeToUtf8Bytes(new Book(Format, changed), Form));
                    stream.WriteByte((byte)'\n');
                    stream.Flush(flushToDisk: true);
                }
                File.Move(draft, path, overwrite: true);
                known = default;
            }
            catch (Exception trouble) when (trouble is IOException or UnauthorizedAccessException)
            {
                throw new StoreException(
                    $"The list of paired devices {path} cannot be written; nothing was changed.",
                    trouble
                );
            }
        }
    }

    /// <summary>One program at a time changes the file.</summary>
    private FileStream Hold()
    {
        for (var attempt = 0; ; attempt++)
        {
            try
            {
                return new FileStream(path + ".lock", FileMode.OpenOrCreate, FileAccess.ReadWrite, FileShare.None);
            }
            catch (IOException) when (attempt < 100)
            {
                Thread.Sleep(20);
            }
        }
    }
}
