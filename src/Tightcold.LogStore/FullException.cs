using Tightcold.Jobs.Journals;

namespace Tightcold.LogStore;

/// <summary>There is no room for what was to be written. Nothing of it stays; with room made the same again will
/// do.</summary>
public sealed class FullException : LogStoreException
{
    public FullException()
        : this("There is no room left; nothing was written. Make room and try again.") { }

    public FullException(string message)
        : base(StoreTrouble.Full, message) { }

    public FullException(string message, Exception inner)
        : base(StoreTrouble.Full, message, inner) { }
}
