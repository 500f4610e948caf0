using Tightcold.Jobs.Journals;
using Tightcold.Quantities;

namespace Tightcold.LogStore;

/// <summary>There is no room for what was to be written. Nothing of it stays; with room made the same again will
/// do.</summary>
public sealed class FullException : LogStoreException
{
    public FullException()
        : this("There is no room left; nothing was written. Make room and try again.") { }

    public FullException([Said] string message)
        : base(StoreTrouble.Full, Phrase.Words(message)) { }

    public FullException([Said] string message, Exception inner)
        : base(StoreTrouble.Full, Phrase.Words(message), inner) { }
}
