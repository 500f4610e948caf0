using System.Collections.Frozen;
using System.Collections.Immutable;
using System.Globalization;
using System.Text;
using Tightcold.Quantities;

namespace Tightcold.Procedures.Places;

/// <summary>The standard's list of places. A text is one of them only by a whole name or code; a part of a name never
/// counts, so that New South Wales is not Wales.</summary>
public static class Gazetteer
{
    /// <summary>What a person writes who does not want to say where: nothing is then taken for the law of a
    /// place.</summary>
    [Said]
    public const string NotSaid = "not said";

    private const int MostOffered = 5;

    /// <summary>A word of this many letters or more that is a whole name is worth offering.</summary>
    private const int WorthOffering = 4;

    private static readonly Lazy<ImmutableArray<Place>> Places = new(Load);
    private static readonly Lazy<FrozenDictionary<string, Place>> ByCode = new(() =>
        All.ToFrozenDictionary(place => place.Code, StringComparer.OrdinalIgnoreCase)
    );

    private static readonly Lazy<FrozenDictionary<string, ImmutableArray<Place>>> ByName = new(() =>
        All.SelectMany(place => place.Names.Select(name => (Name: Fold(name), Place: place)))
            .Distinct()
            .GroupBy(pair => pair.Name, pair => pair.Place, StringComparer.Ordinal)
            .ToFrozenDictionary(group => group.Key, group => group.ToImmutableArray(), StringComparer.Ordinal)
    );

    private static readonly Lazy<
        ImmutableArray<(Place Place, ImmutableArray<(string Whole, string[] Words)> Names)>
    > WordsOfNames = new(() =>
        [.. All.Select(place => (place, place.Names.Select(name => (Fold(name), Words(name))).ToImmutableArray()))]
    );

    /// <summary>Countries first, then regions, each by code.</summary>
    public static ImmutableArray<Place> All => Places.Value;

    /// <summary>By its code, in any letters; null when there is none.</summary>
    public static Place? Find(string code) => ByCode.Value.GetValueOrDefault(code);

    /// <exception cref="ArgumentException">No such code.</exception>
    public static Place Get(string code) =>
        Find(code) ?? throw new ArgumentException($"“{code}” is no code of ISO 3166 known here", nameof(code));

    public static IEnumerable<Place> RegionsOf(Place country) =>
        All.Where(place => place.Country?.Code == country.Code);

    /// <summary>What somebody typed, today or years ago: a code, a label of this list, or whole names between commas
    /// such as “Ohio, USA”. Words that name no place (a town) are passed over; names that point to two places settle
    /// nothing.</summary>
    public static PlaceReading Read(string? text)
    {
        var typed = (text ?? "").Trim();
        if (typed.Length == 0)
            return new(
                typed,
                null,
                Phrase.Words(
                    "No place is chosen: choose country and, where it matters, region from the "
                        + "list, and its rules are shown."
                ),
                []
            );
        if (Fold(typed) == Fold(NotSaid))
            return new(
                typed,
                null,
                Phrase.Words(
                    "The place is not said: what stands here is common in most places; choose country and region from "
                        + "the list, and its rules are shown."
                ),
                []
            );
        if (ExactCode(typed) is { } coded)
            return new(typed, coded, Doubt(typed, coded), []);
        if (Labelled(typed) is { } labelled)
            return new(typed, labelled, Phrase.Empty, []);
        if (ByName.Value.GetValueOrDefault(Fold(typed), []) is [var whole])
            return new(typed, whole, Phrase.Empty, []);
        var named = typed
            .Split(
                [',', ';', '/', '\n', '(', ')'],
                StringSplitOptions.TrimEntries | StringSplitOptions.RemoveEmptyEntries
            )
            .Select(Meant)
            .Where(meant => meant.Length > 0)
            .ToArray();
        if (named.Length == 0)
        {
            var offered = Near(typed);
            return new(
                typed,
                null,
                offered.Length == 0
                    ? Phrase.Of(
                        $"“{Phrase.Verbatim(typed)}” is no whole name or code of a country or region: choose one from "
                            + $"the list."
                    )
                    : Phrase.Of(
                        $"“{Phrase.Verbatim(typed)}” is no whole name or code of a country or region: choose one from "
                            + $"the list, such as {Either(offered)}."
                    ),
                offered
            );
        }
        // A place fits when each name is its own or its country's.
        var fits = named
            .SelectMany(meant => meant)
            .Distinct()
            .Where(place =>
                named.All(meant => meant.Contains(place) || (place.Country is { } country && meant.Contains(country)))
            )
            .ToImmutableArray();
        if (fits is [var one])
            return new(typed, one, Phrase.Empty, []);
        var choices = fits.Length > 1 ? fits : [.. named.SelectMany(meant => meant).Distinct()];
        return new(
            typed,
            null,
            Phrase.Of($"“{Phrase.Verbatim(typed)}” can mean {Either(choices)}: choose one from the list."),
            choices
        );
    }

    /// <summary>Places with a word in their name that begins with each word typed: to choose from, never a
    /// choice.</summary>
    public static ImmutableArray<Place> Search(string text)
    {
        var wanted = Words(text);
        if (wanted.Length == 0)
            return [];
        var whole = Fold(text);
        return
        [
            .. WordsOfNames
                .Value.Where(known =>
                    known.Place.Code.Equals(text.Trim(), StringComparison.OrdinalIgnoreCase)
                    || known.Names.Any(name =>
                        wanted.All(word => name.Words.Any(own => own.StartsWith(word, StringComparison.Ordinal)))
                    )
                )
                .OrderBy(known => known.Names.Any(name => name.Whole == whole) ? 0 : 1)
                .ThenBy(known => known.Place.IsRegion)
                .ThenBy(known => known.Place.Name, StringComparer.Ordinal)
                .Select(known => known.Place),
        ];
    }

    /// <summary>Places that somebody may have meant: whose words begin so, that are written almost so, or that are
    /// named whole among other words. Never a choice.</summary>
    public static ImmutableArray<Place> Near(string text)
    {
        if (Search(text) is { IsEmpty: false } begun)
            return begun;
        var whole = Fold(text);
        // One slip in four letters, two in eight.
        var slips = Math.Min(2, whole.Length / WorthOffering);
        var alike = WordsOfNames
            .Value.Select(known => (known.Place, Off: known.Names.Min(name => Slips(whole, name.Whole, slips))))
            .Where(known => known.Off <= slips)
            .OrderBy(known => known.Off)
            .ThenBy(known => known.Place.IsRegion)
            .Select(known => known.Place)
            .ToImmutableArray();
        if (alike.Length > 0 && slips > 0)
            return alike;
        return
        [
            .. Words(text)
                .Where(word => word.Length >= WorthOffering)
                .SelectMany(word => ByName.Value.GetValueOrDefault(word, []))
                .Distinct(),
        ];
    }

    /// <summary>“Georgia (GE) or Georgia, United States (US-GA)”, at most five.</summary>
    public static Phrase Either(IEnumerable<Place> places) =>
        Phrase.Join(" or ", places.Take(MostOffered).Select(place => Phrase.Verbatim(place.Label)));

    /// <summary>Letters put in, left out, changed or swapped with a neighbour (Damerau's distance of adjacent swaps);
    /// one more than <paramref name="most"/> where it is farther.</summary>
    private static int Slips(string one, string other, int most)
    {
        if (Math.Abs(one.Length - other.Length) > most)
            return most + 1;
        var before = new int[other.Length + 1];
        var last = Enumerable.Range(0, other.Length + 1).ToArray();
        var now = new int[other.Length + 1];
        for (var i = 1; i <= one.Length; i++)
        {
            now[0] = i;
            for (var j = 1; j <= other.Length; j++)
            {
                var change = last[j - 1] + (one[i - 1] == other[j - 1] ? 0 : 1);
                now[j] = Math.Min(change, Math.Min(last[j], now[j - 1]) + 1);
                if (i > 1 && j > 1 && one[i - 1] == other[j - 2] && one[i - 2] == other[j - 1])
                    now[j] = Math.Min(now[j], before[j - 2] + 1);
            }
            (before, last, now) = (last, now, before);
        }
        return Math.Min(most + 1, last[other.Length]);
    }

    /// <summary>Capital letters, or a region's code in any: “no” and “in” are words before they are Norway and
    /// India.</summary>
    private static Place? ExactCode(string text)
    {
        if (Find(text) is { } place && (place.IsRegion || text == place.Code))
            return place;
        return text.Length == 3 ? All.FirstOrDefault(known => known.Three == text) : null;
    }

    private static Place? Labelled(string text) =>
        text.EndsWith(')')
        && text.LastIndexOf('(') is > 0 and var at
        && Find(text[(at + 1)..^1].Trim()) is { } place
        && Fold(place.Label) == Fold(text)
            ? place
            : null;

    private static ImmutableArray<Place> Meant(string part)
    {
        var named = ByName.Value.GetValueOrDefault(Fold(part), []);
        var coded = ExactCode(part) is { } place ? [place] : ImmutableArray<Place>.Empty;
        // “CA” behind a town is California when the United States are named too.
        var short_ = All.Where(known => known.IsRegion && known.Suffix.Length >= 2 && known.Suffix == part);
        return [.. named.Concat(coded).Concat(short_).Distinct()];
    }

    private static Phrase Doubt(string typed, Place place)
    {
        var others = All.Where(known => known.IsRegion && known.Suffix == typed)
            .Select(known => Phrase.Verbatim(known.Label))
            .ToArray();
        return others.Length == 0 || place.IsRegion
            ? Phrase.Empty
            : Phrase.Of(
                $"{Phrase.Verbatim(typed)} is the code of {Phrase.Verbatim(place.Name)}; if "
                    + $"{Phrase.Join(" or ", others)} was meant, choose that."
            );
    }

    private static string[] Words(string text) =>
        Fold(text).Split([' ', '-', ',', '(', ')', '’', '\'', '.'], StringSplitOptions.RemoveEmptyEntries);

    /// <summary>One case, no accents, single spaces, no full stops: “U.S.A.” and “québec”.</summary>
    internal static string Fold(string text)
    {
        var folded = new StringBuilder(text.Length);
        foreach (var letter in text.Normalize(NormalizationForm.FormD))
        {
            if (CharUnicodeInfo.GetUnicodeCategory(letter) == UnicodeCategory.NonSpacingMark || letter == '.')
                continue;
            if (char.IsWhiteSpace(letter))
            {
                if (folded.Length > 0 && folded[^1] != ' ')
                    folded.Append(' ');
            }
            else
                folded.Append(char.ToUpperInvariant(letter));
        }
        return folded.ToString().TrimEnd();
    }

    private static ImmutableArray<Place> Load()
    {
        using var stream = typeof(Gazetteer).Assembly.GetManifestResourceStream("Places/places.tsv")
            ?? throw new FormatException("The list of places is missing from the program.");
        using var reader = new StreamReader(stream);
        var countries = new Dictionary<string, Place>(StringComparer.Ordinal);
        var all = ImmutableArray.CreateBuilder<Place>();
        while (reader.ReadLine() is { } line)
        {
            if (line.Length == 0 || line[0] == '#')
                continue;
            if (line.Split('\t') is not [var code, var three, var country, { Length: > 0 } name, var own, var also])
                throw new FormatException($"The list of places: “{line}” has not six columns.");
            if (code == "code")
                continue;
            var place = new Place(
                code,
                three,
                name,
                Parts(own),
                Parts(also),
                country.Length == 0 ? null : countries[country]
            );
            if (!place.IsRegion)
                countries.Add(code, place);
            all.Add(place);
        }
        return all.ToImmutable();
    }

    private static ImmutableArray<string> Parts(string cell) =>
        [.. cell.Split('|', StringSplitOptions.RemoveEmptyEntries)];
}
