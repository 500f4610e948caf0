using Tightcold.Jobs.Journals;

namespace Tightcold.LogStore;

/// <summary>The log cannot be used, or not for this. The message is one or two sentences for the person at the
/// machine.</summary>
public class LogStoreException : StoreException
{
    public LogStoreException() { }

    public LogStoreException(string message)
        : base(message) { }

    public LogStoreException(string message, Exception inner)
        : base(message, inner) { }

    protected LogStoreException(StoreTrouble trouble, string message, Exception? inner = null)
        : base(trouble, message, inner) { }
}
