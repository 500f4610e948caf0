using System.Collections.Immutable;
using System.Security.Cryptography;
using System.Text;

namespace Tightcold.Injected;

/// <summary>One fault: what stands in the source, what is put in its place, and what a person would suffer.</summary>
/// <param name="Says">What would go wrong for the person.</param>
/// <param name="Sees">The tests that should see it, the likely ones first.</param>
internal sealed record Fault(
    int Id,
    string Room,
    string File,
    ImmutableArray<Change> Changes,
    string Says,
    ImmutableArray<Look> Sees
)
{
    /// <summary>A figure found for this row is no figure of another that took its number.</summary>
    public string Digest =>
        Convert.ToHexStringLower(
            SHA256.HashData(
                Encoding.UTF8.GetBytes(
                    string.Join('\n', [File, .. Changes.Select(change => $"{change.Find}\n{change.Put}")])
                )
            )
        )[..12];
}
