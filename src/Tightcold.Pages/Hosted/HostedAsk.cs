namespace Tightcold.Pages.Hosted;

/// <summary>A request as a host without a server hands it in: what a browser wanted to send, before it was
/// sent.</summary>
/// <param name="IsSent">A form comes with it; else something is to be shown.</param>
/// <param name="Address">Path and what stands behind the question mark, with percent codes.</param>
/// <param name="Fields">Of the form, in its order; a name may come several times.</param>
public sealed record HostedAsk(bool IsSent, string Address, IReadOnlyList<(string Name, string Value)> Fields)
{
    /// <summary>Files of the form, by the name of their field: the name that the person sees, and the bytes.</summary>
    public IReadOnlyDictionary<string, (string FileName, byte[] Body)> Files { get; init; } =
        new Dictionary<string, (string, byte[])>();

    /// <summary>Our own script sends it, and wants to be told where to go instead of being taken there.</summary>
    public bool IsKept { get; init; }

    /// <summary>The version of the data that the asker has already; null where it has none.</summary>
    public string? Has { get; init; }
}

/// <summary>What comes back.</summary>
/// <param name="Status">As in HTTP (RFC 9110).</param>
/// <param name="Headers">Name and value; the names as in HTTP.</param>
/// <param name="Body">Empty where there is none.</param>
public sealed record HostedAnswer(int Status, IReadOnlyDictionary<string, string> Headers, ReadOnlyMemory<byte> Body);
