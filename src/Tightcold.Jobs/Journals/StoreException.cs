using Tightcold.Quantities;

namespace Tightcold.Jobs.Journals;

/// <summary>The data cannot be used. What it says is one or two sentences for the person at the machine; the message is
/// the same in English.</summary>
public class StoreException : Exception
{
    public StoreException()
        : this(Phrase.Words("The data cannot be used.")) { }

    public StoreException([Said] string message)
        : this(Phrase.Words(message)) { }

    public StoreException([Said] string message, Exception inner)
        : this(Phrase.Words(message), inner) { }

    public StoreException(Phrase says, Exception? inner = null)
        : this(StoreTrouble.Other, says, inner) { }

    public StoreException(StoreTrouble trouble, Phrase says, Exception? inner = null)
        : base(English(says), inner) => (Trouble, Says) = (trouble, says);

    public StoreTrouble Trouble { get; }

    /// <summary>The sentences, in whatever language they are read.</summary>
    public Phrase Says { get; }

    private static string English(Phrase says)
    {
        ArgumentNullException.ThrowIfNull(says);
        return says.ToString();
    }
}
