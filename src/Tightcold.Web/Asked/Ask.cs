using Tightcold.Web.Http;

namespace Tightcold.Web.Asked;

/// <summary>What was asked, without the server that heard it: who looks, the words in the address, the fields that were
/// sent. A handler is a function from this to an <see cref="Answer"/>, so that the same page can be answered
/// elsewhere.</summary>
/// <param name="Visit">For whom, and when.</param>
/// <param name="Words">What stands behind the question mark of the address.</param>
/// <param name="Sent">The fields of a form; empty when none was sent.</param>
public sealed record Ask(
    Visit Visit,
    IReadOnlyDictionary<string, string> Words,
    IReadOnlyDictionary<string, string> Sent,
    CancellationToken Cancellation
)
{
    /// <summary>A word of the address; null where it is not there or empty.</summary>
    public string? Word(string name) => Words.TryGetValue(name, out var word) && word.Length > 0 ? word : null;

    public string Field(string name) => Sent.GetValueOrDefault(name, "").Trim();

    /// <summary>An id among the words of the address.</summary>
    public Guid? Id(string name) => Guid.TryParse(Word(name), out var id) ? id : null;
}
