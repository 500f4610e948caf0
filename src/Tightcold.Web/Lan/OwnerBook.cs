using System.Buffers.Text;
using System.Security.Cryptography;
using System.Text;
using System.Text.Json;
using Microsoft.Extensions.Logging;
using Tightcold.Jobs.Journals;

namespace Tightcold.Web.Lan;

/// <summary>The owner's own browsers on the machine that runs the site, in <c>owner.json</c>, and the link that makes
/// one: whoever can read the terminal of the program, or this data folder, is the owner; who merely has an account on
/// the machine is not.</summary>
public sealed class OwnerBook(string folder, TimeProvider clock, ILogger? log = null)
    : KeyBook(
        folder,
        new("owner.json", "tightcold-owner 1", "browsers of the owner", "run: tightcold owner", Idle),
        clock,
        log
    )
{
    public static readonly TimeSpan Idle = TimeSpan.FromDays(60);
    public static readonly TimeSpan LinkLifetime = TimeSpan.FromHours(1);
    private const string Format = "tightcold-owner-link 1";

    private readonly string linkPath = Path.Combine(folder, "owner-link.json");
    private readonly Lock door = new();

    // A disk that takes nothing: link and keys are good as long as the site runs.
    private Link? unkeptLink;
    private readonly Dictionary<string, PairedDevice> unkept = new(StringComparer.Ordinal);

    /// <param name="At">Where the site answers that was started last.</param>
    private sealed record Link(string Format, string? KeyHash, DateTimeOffset Ends, Uri? At);

    /// <summary>The key of a new link, which serves once; an older one no longer does.</summary>
    /// <param name="at">Where the site answers; where it was last when a command asks.</param>
    public (Uri Link, DateTimeOffset Ends) NewLink(Uri? at)
    {
        var key = RandomNumberGenerator.GetBytes(32);
        var ends = Clock.GetUtcNow() + LinkLifetime;
        at ??= ReadLink()?.At ?? new Uri($"http://127.0.0.1:{SiteOptions.UsualPort}/");
        var link = new Link(Format, Hash(key), ends, at);
        try
        {
            Alone(() => WriteLink(link));
            unkeptLink = null;
        }
        catch (StoreException)
        {
            unkeptLink = link;
        }
        return (new Uri(at, $"{Door.OwnerPath}?key={Base64Url.EncodeToString(key)}"), ends);
    }

    /// <summary>True once for the link that serves, which is spent by it.</summary>
    internal bool Redeem(string? key)
    {
        if (key is not { Length: > 0 and < 100 } || !Base64Url.IsValid(key))
            return false;
        var said = Encoding.ASCII.GetBytes(Hash(Base64Url.DecodeFromChars(key)));
        lock (door)
        {
            if (Serves(unkeptLink, said))
            {
                unkeptLink = null;
                return true;
            }
            var taken = false;
            if (Serves(ReadLink(), said))
                Alone(() =>
                {
                    // Asked again: of two programs on one folder one takes it.
                    if (ReadLink() is not { } link || !Serves(link, said))
                        return;
                    WriteLink(link with { KeyHash = null });
                    taken = true;
                });
            return taken;
        }
    }

    public override (PairedDevice Device, string Key) Add(string name)
    {
        try
        {
            return AddInPlaceOfOldest(name);
        }
        catch (StoreException trouble) when (trouble.InnerException is not null)
        {
            var key = RandomNumberGenerator.GetBytes(32);
            var now = Clock.GetUtcNow();
            var device = new PairedDevice(Guid.CreateVersion7(now), name, now, now);
            lock (door)
                unkept[Hash(key)] = device;
            return (device, Base64Url.EncodeToString(key));
        }
    }

    /// <summary>The owner's browser whose key this is; or null.</summary>
    internal PairedDevice? FindOwner(string? key)
    {
        lock (door)
            if (
                unkept.Count > 0
                && key is { Length: > 0 and < 100 }
                && Base64Url.IsValid(key)
                && unkept.TryGetValue(Hash(Base64Url.DecodeFromChars(key)), out var found)
            )
                return found;
        return Find(key);
    }

    private bool Serves(Link? link, byte[] said) =>
        link is { KeyHash: { } hash }
        && Clock.GetUtcNow() < link.Ends
        && CryptographicOperations.FixedTimeEquals(said, Encoding.ASCII.GetBytes(hash));

    /// <summary>In place: when the system's administrator asks for a link of a service, the file stays the
    /// service's.</summary>
    private void WriteLink(Link link)
    {
        var access = new FileStreamOptions { Mode = FileMode.OpenOrCreate, Access = FileAccess.Write };
        if (!OperatingSystem.IsWindows())
            access.UnixCreateMode = UnixFileMode.UserRead | UnixFileMode.UserWrite;
        using var stream = new FileStream(linkPath, access);
        stream.SetLength(0);
        stream.Write(JsonSerializer.SerializeToUtf8Bytes(link, Form));
    }

    private Link? ReadLink()
    {
        try
        {
            return
                File.Exists(linkPath)
                && JsonSerializer.Deserialize<Link>(File.ReadAllBytes(linkPath), Form) is { Format: Format } link
                ? link
                : null;
        }
        catch (Exception trouble) when (trouble is IOException or UnauthorizedAccessException or JsonException)
        {
            // A link that cannot be read does not serve; a new one is made in its place.
            return null;
        }
    }
}
