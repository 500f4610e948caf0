using System.Globalization;
using System.Security.Cryptography;
using System.Text;

namespace Tightcold.Web.Lan;

/// <summary>The one code that lets one more device in: eight digits, for ten minutes, once. Too many wrong tries spend
/// it, whoever made them: at ten tries one guess in ten million codes is lucky.</summary>
internal sealed class PairingCodes(TimeProvider clock)
{
    public static readonly TimeSpan Lifetime = TimeSpan.FromMinutes(10);
    public const int MostTries = 10;
    private const int Digits = 8;

    private readonly Lock gate = new();
    private byte[]? code;
    private DateTimeOffset ends;
    private int tries;

    /// <summary>A new code; an older one no longer serves.</summary>
    public PairingCode Renew()
    {
        lock (gate)
        {
            code = Encoding.ASCII.GetBytes(
                RandomNumberGenerator.GetInt32(100_000_000).ToString("D8", CultureInfo.InvariantCulture)
            );
            ends = clock.GetUtcNow() + Lifetime;
            tries = 0;
            return new(Encoding.ASCII.GetString(code), ends);
        }
    }

    /// <summary>The code that serves now; or null.</summary>
    public PairingCode? Current
    {
        get
        {
            lock (gate)
                return Serves ? new(Encoding.ASCII.GetString(code!), ends) : null;
        }
    }

    private bool Serves => code is not null && clock.GetUtcNow() < ends && tries < MostTries;

    /// <summary>Whether something typed has the shape of a code; what has not, is no try.</summary>
    public static bool HasShape(string typed) =>
        Plain(typed) is { Length: Digits } plain && plain.All(char.IsAsciiDigit);

    /// <summary>True once for the code that serves, which is spent by it.</summary>
    public bool Redeem(string typed)
    {
        var said = Encoding.ASCII.GetBytes(Plain(typed));
        lock (gate)
        {
            if (!Serves)
                return false;
            if (!CryptographicOperations.FixedTimeEquals(said, code))
            {
                tries++;
                return false;
            }
            code = null;
            return true;
        }
    }

    private static string Plain(string typed) =>
        typed.Replace(" ", "", StringComparison.Ordinal).Replace("-", "", StringComparison.Ordinal);
}

/// <summary>A code as shown to the owner.</summary>
public sealed record PairingCode(string Code, DateTimeOffset Ends)
{
    /// <summary>In two groups, as a person reads it over.</summary>
    public string Spaced => Code[..4] + " " + Code[4..];
}
