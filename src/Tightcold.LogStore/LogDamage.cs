using Tightcold.LogStore.Lines;
using Tightcold.Quantities;

namespace Tightcold.LogStore;

/// <summary>A place of the file that is not as it was written down.</summary>
/// <param name="Of">Whose line it was, which is therefore left out; null where that cannot be told, or where nobody is
/// left out for it.</param>
/// <param name="At">Where, in bytes from the beginning of the file.</param>
/// <param name="Says">For the person at the machine.</param>
public sealed record LogDamage(LogSubject? Of, long At, Phrase Says)
{
    /// <summary>The same in English.</summary>
    public string Sentence => Says.ToString();
}
