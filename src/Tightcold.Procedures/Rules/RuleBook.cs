using System.Collections.Immutable;
using Tightcold.Procedures.Places;
using Tightcold.Quantities;

namespace Tightcold.Procedures.Rules;

/// <summary>The book of rules by place, read once from the embedded files, one a place. Rules change: every answer says
/// <see cref="AlwaysSay"/>.</summary>
public static class RuleBook
{
    [Said]
    public const string AlwaysSay = "Rules differ by place and change: check local rules.";

    /// <summary>The book for where no other fits.</summary>
    public const string Elsewhere = "elsewhere";

    private const string Folder = "Rules/Books/";
    private static readonly Lazy<ImmutableArray<Book>> Books = new(Load);

    public static ImmutableArray<Book> All => Books.Value;

    /// <summary>The rules of a place typed or kept as text; see <see cref="Gazetteer.Read"/>.</summary>
    public static PlaceRules Of(string? text) => Of(Gazetteer.Read(text));

    public static PlaceRules Of(Place place)
    {
        ArgumentNullException.ThrowIfNull(place);
        return Of(new PlaceReading(place.Label, place, Phrase.Empty, []));
    }

    public static PlaceRules Of(PlaceReading reading)
    {
        ArgumentNullException.ThrowIfNull(reading);
        var nearest = reading.Place is not { } place
            ? null
            : Covering(place.Code) ?? (place.Country is { } country ? Covering(country.Code) : null);
        var books = ImmutableArray.CreateBuilder<Book>();
        for (var book = nearest ?? Get(Elsewhere); ; book = Get(book.Under))
        {
            books.Add(book);
            if (book.Under is null)
                return new(reading, books.ToImmutable());
        }
    }

    private static Book? Covering(string code) => All.FirstOrDefault(book => book.Covers.Contains(code));

    private static Book Get(string key) => All.Single(book => book.Key == key);

    private static ImmutableArray<Book> Load()
    {
        var assembly = typeof(RuleBook).Assembly;
        return
        [
            .. assembly
                .GetManifestResourceNames()
                .Where(name => name.StartsWith(Folder, StringComparison.Ordinal))
                .Order(StringComparer.Ordinal)
                .Select(name =>
                {
                    using var stream = assembly.GetManifestResourceStream(name)!;
                    return BookReader.Read(
                        stream,
                        name[Folder.Length..].Replace(".json", "", StringComparison.Ordinal)
                    );
                }),
        ];
    }
}
