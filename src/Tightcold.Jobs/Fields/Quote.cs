namespace Tightcold.Jobs.Fields;

/// <summary>What somebody gave, short enough to be said again in a sentence.</summary>
public static class Quote
{
    /// <summary>The text, or its beginning and an ellipsis; a character of two halves is never cut through.</summary>
    public static string Beginning(string text, int most)
    {
        ArgumentNullException.ThrowIfNull(text);
        if (text.Length <= most)
            return text;
        var end = most > 0 && char.IsHighSurrogate(text[most - 1]) ? most - 1 : most;
        return string.Concat(text.AsSpan(0, end), "…");
    }
}
