using System.Buffers.Text;
using System.Collections.Immutable;
using System.Security.Cryptography;
using System.Text;
using System.Text.Json;
using Microsoft.Extensions.Logging;
using Microsoft.Extensions.Logging.Abstractions;
using Tightcold.Jobs.Journals;
using Tightcold.Quantities;
using Tightcold.Tongues;

namespace Tightcold.Web.Lan;

/// <summary>Keys that were handed out, in one file of this data folder, readable by its owner only. It holds the
/// SHA-256 of each key (256 random bits, so that a plain hash is enough), never the key. A running site notices when
/// another program strikes one. A file that cannot be read lets nobody in; a key that was not shown for long opens
/// nothing any more.</summary>
public abstract class KeyBook
{
    /// <summary>A workshop has fewer; more would mean that something goes wrong.</summary>
    public const int MostDevices = 50;
    public const int LongestName = 40;

    private protected static readonly JsonSerializerOptions Form = new(JsonSerializerDefaults.Web)
    {
        WriteIndented = true,
        NewLine = "\n",
    };

    private readonly Kind kind;
    private readonly string path;
    private readonly Lock gate = new();
    private (DateTime Written, long Length) known;
    private ImmutableArray<Row> rows = [];

    private sealed record Row(PairedDevice Device, string KeyHash);

    private sealed record Book(string Format, ImmutableArray<Row> Devices);

    /// <param name="Holds">What a sentence calls those in it, such as “paired devices”.</param>
    /// <param name="Again">What a person does when the file is spoilt.</param>
    /// <param name="Idle">So long a key may rest.</param>
    private protected sealed record Kind(
        string File,
        string Format,
        [Said] string Holds,
        [Said] string Again,
        TimeSpan Idle
    );

    private protected KeyBook(string folder, Kind kind, TimeProvider clock, ILogger? log)
    {
        path = Path.Combine(folder, kind.File);
        this.kind = kind;
        Clock = clock;
        Log = log ?? NullLogger.Instance;
    }

    private string Holds => Say.It(kind.Holds);

    private protected TimeProvider Clock { get; }
    private protected ILogger Log { get; }

    public IReadOnlyList<PairedDevice> List() =>
        [.. Read().Select(row => row.Device).OrderBy(device => device.PairedAt)];

    /// <summary>Enters a device; the key is told once and not kept.</summary>
    public virtual (PairedDevice Device, string Key) Add(string name)
    {
        var (row, key) = New(name);
        Change(there =>
            there.Length >= MostDevices
                ? throw new StoreException(
                    Say.It($"{MostDevices} devices are paired already; revoke those that are no longer used first.")
                )
                : there.Add(row)
        );
        return (row.Device, key);
    }

    /// <summary>Strikes a device: its key opens nothing any more. False when there is none of that id.</summary>
    public bool Revoke(Guid id)
    {
        PairedDevice? found = null;
        Change(there =>
        {
            found = there.FirstOrDefault(row => row.Device.Id == id)?.Device;
            return there.RemoveAll(row => row.Device.Id == id);
        });
        if (found is not null)
            DoorLog.Revoked(Log, found.Name, found.Id);
        return found is not null;
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
        if (found is null || Clock.GetUtcNow() - found.LastSeen < kind.Idle)
            return found;
        DoorLog.Idle(Log, found.Name, found.Id, kind.Idle.TotalDays);
        Revoke(found.Id);
        return null;
    }

    /// <summary>Notes that the device was here, at most once a minute; a full disk must not keep it out.</summary>
    internal void Saw(PairedDevice device)
    {
        var now = Clock.GetUtcNow();
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

    /// <summary>As <see cref="Add"/>, for one more than are allowed strikes the one that rested longest.</summary>
    private protected (PairedDevice Device, string Key) AddInPlaceOfOldest(string name)
    {
        var (row, key) = New(name);
        Change(there => [.. there.OrderBy(one => one.Device.LastSeen).TakeLast(MostDevices - 1), row]);
        return (row.Device, key);
    }

    private protected static string Hash(byte[] key) => Convert.ToHexStringLower(SHA256.HashData(key));

    private (Row Row, string Key) New(string name)
    {
        var key = RandomNumberGenerator.GetBytes(32);
        var now = Clock.GetUtcNow();
        return (new(new(Guid.CreateVersion7(now), Tidy(name), now, now), Hash(key)), Base64Url.EncodeToString(key));
    }

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
                    Say.It($"The list of {Holds} {path} cannot be read; until it can, none of them is let in."),
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
                JsonSerializer.Deserialize<Book>(text, Form) is { Devices.IsDefault: false } book
                && book.Format == kind.Format
                && book.Devices.All(row => row is { Device.Name: not null, KeyHash.Length: 64 })
            )
                return book.Devices;
        }
        catch (JsonException)
        {
            // Said below.
        }
        throw new StoreException(
            Say.It(
                $"The list of {Holds} {path} is not one; none of them is let in. "
                    + $"Move it away and {Say.It(kind.Again)}."
            )
        );
    }

    private void Change(Func<ImmutableArray<Row>, ImmutableArray<Row>> change)
    {
        lock (gate)
            Alone(() =>
            {
                known = default;
                rows = [];
                WriteWhole(path, new Book(kind.Format, change(Read())));
                known = default;
            });
    }

    /// <summary>One program at a time.</summary>
    private protected void Alone(Action work)
    {
        try
        {
            using var hold = Hold();
            work();
        }
        catch (Exception trouble) when (trouble is IOException or UnauthorizedAccessException)
        {
            throw new StoreException(
                Say.It($"The list of {Holds} {path} cannot be written; nothing was changed."),
                trouble
            );
        }
    }

    /// <summary>Old or new, never half; for its owner only.</summary>
    private static void WriteWhole<T>(string path, T what)
    {
        var draft = path + ".new";
        var access = new FileStreamOptions { Mode = FileMode.Create, Access = FileAccess.Write };
        if (!OperatingSystem.IsWindows())
            access.UnixCreateMode = UnixFileMode.UserRead | UnixFileMode.UserWrite;
        using (var stream = new FileStream(draft, access))
        {
            stream.Write(JsonSerializer.SerializeToUtf8Bytes(what, Form));
            stream.WriteByte((byte)'\n');
            stream.Flush(flushToDisk: true);
        }
        File.Move(draft, path, overwrite: true);
    }

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
