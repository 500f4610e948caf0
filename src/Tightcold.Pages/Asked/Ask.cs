using System.Globalization;

namespace Tightcold.Pages.Asked;

/// <summary>What was asked, without the host that heard it: who looks, the words in the address, the fields that were
/// sent. A handler is a function from this to an <see cref="Answer"/>, so that the same page is answered on a server
/// and in a phone.</summary>
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
    private static readonly Dictionary<string, string> None = [];

    /// <summary>The parts of the address that its pattern names.</summary>
    public IReadOnlyDictionary<string, string> Places { get; init; } = None;

    /// <summary>Files that came with a form, by the name of their field; empty ones are none.</summary>
    public IReadOnlyDictionary<string, byte[]> Files { get; init; } = new Dictionary<string, byte[]>();

    /// <summary>The job's number in the address; its pattern lets nothing else in.</summary>
    public int Number => int.Parse(Places["number"], NumberStyles.AllowLeadingSign, CultureInfo.InvariantCulture);

    /// <summary>The id in the address; its pattern lets nothing else in.</summary>
    public Guid Which => Guid.Parse(Places["id"]);

    /// <summary>The switch in the head of a page with a form sends that form along, so that nothing typed is lost, and
    /// its own name with it: the page comes again in the other units, and nothing is written.</summary>
    public bool IsSwitch => Field("units").Length > 0;

    /// <summary>The id that a form carries, so that it counts once however often it is sent.</summary>
    public Guid? SentId => Guid.TryParse(Field("id"), out var id) ? id : null;

    public DateTimeOffset Now => Visit.Reader.Now;

    /// <summary>A word of the address; null where it is not there or empty.</summary>
    public string? Word(string name) => Words.TryGetValue(name, out var word) && word.Length > 0 ? word : null;

    public string Field(string name) => Sent.GetValueOrDefault(name, "").Trim();

    /// <summary>An id among the words of the address.</summary>
    public Guid? Id(string name) => Guid.TryParse(Word(name), out var id) ? id : null;

    /// <summary>A whole number among the words of the address.</summary>
    public int? Count(string name) =>
        int.TryParse(Word(name), NumberStyles.AllowLeadingSign, CultureInfo.InvariantCulture, out var count)
            ? count
            : null;
}
