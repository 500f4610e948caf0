namespace Tightcold.Cli.Commands;

/// <summary>Ids are long; their last digits are chance, and six of them tell entries of a job apart.</summary>
internal static class Ids
{
    public static string Short(Guid id) => id.ToString("N")[^6..];

    public static bool Fits(Guid id, string typed)
    {
        var digits = typed.Replace("-", "", StringComparison.Ordinal);
        return digits.Length >= 4 && id.ToString("N").EndsWith(digits, StringComparison.OrdinalIgnoreCase);
    }
}
