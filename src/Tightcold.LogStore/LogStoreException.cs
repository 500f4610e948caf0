using Tightcold.Jobs.Journals;
using Tightcold.Quantities;

namespace Tightcold.LogStore;

/// <summary>The log cannot be used, or not for this. What it says is one or two sentences for the person at the
/// machine.</summary>
public class LogStoreException : StoreException
{
    public LogStoreException() { }

    public LogStoreException([Said] string message)
        : base(message) { }

    public LogStoreException([Said] string message, Exception inner)
        : base(message, inner) { }

    public LogStoreException(Phrase says, Exception? inner = null)
        : base(says, inner) { }

    protected LogStoreException(StoreTrouble trouble, Phrase says, Exception? inner = null)
        : base(trouble, says, inner) { }
}
