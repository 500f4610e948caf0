namespace Tightcold.Jobs.Journals;

/// <summary>The data cannot be used. The message is one or two sentences for the person at the machine.</summary>
public class StoreException : Exception
{
    public StoreException() { }

    public StoreException(string message)
        : base(message) { }

    public StoreException(string message, Exception inner)
        : base(message, inner) { }

    public StoreException(StoreTrouble trouble, string message, Exception? inner = null)
        : base(message, inner) => Trouble = trouble;

    public StoreTrouble Trouble { get; }
}
