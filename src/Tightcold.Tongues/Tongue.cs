using System.Collections.Immutable;
using System.Globalization;
using Tightcold.Quantities;

namespace Tightcold.Tongues;

/// <summary>A language a person can read the program in: its messages, its plural, and how it writes numbers and
/// dates. The same on every machine: nothing is asked of the system's own list of cultures, which a phone does not
/// have. Immutable.</summary>
public sealed class Tongue : ITongue
{
    private readonly Lazy<Catalogue> catalogue;
    private readonly Lazy<CultureInfo> culture;
    private readonly Func<long, int> plural;
    private readonly bool largeNouns;
    private readonly string decimals,
        groups;

    /// <param name="name">RFC 5646: <c>de</c>.</param>
    /// <param name="ownName">As its people call it.</param>
    /// <param name="plural">Which form a number takes.</param>
    /// <param name="decimals">The decimal sign.</param>
    /// <param name="groups">Between thousands.</param>
    /// <param name="largeNouns">Nouns are written large wherever they stand.</param>
    internal Tongue(
        string name,
        string ownName,
        Func<long, int> plural,
        string decimals,
        string groups,
        bool largeNouns,
        Func<Catalogue> catalogue
    )
    {
        (Name, OwnName, this.plural, this.largeNouns) = (name, ownName, plural, largeNouns);
        (this.decimals, this.groups) = (decimals, groups);
        this.catalogue = new(catalogue);
        culture = new(() => Written(decimals, groups));
    }

    public string Name { get; }

    public string OwnName { get; }

    /// <summary>Which way its lines run, as HTML says it.</summary>
    public string Direction { get; init; } = "ltr";

    /// <summary>How it writes numbers and dates.</summary>
    public CultureInfo Culture => culture.Value;

    /// <summary>Every message and its translation; empty for English.</summary>
    internal Catalogue Catalogue => catalogue.Value;

    /// <summary>The same language with other words, for trying them.</summary>
    internal Tongue With(Catalogue words) => new(Name, OwnName, plural, decimals, groups, largeNouns, () => words);

    public string Say(string message, string? context = null) => Catalogue.Find(message, context) ?? message;

    public string Say(string one, string many, long count) =>
        Catalogue.Find(one, many, plural(Math.Abs(count))) ?? (count == 1 ? one : many);

    public string Within(string words) => largeNouns ? words : MotherTongue.Instance.Within(words);

    /// <summary>Invariant but for what is said here: never the machine's.</summary>
    private CultureInfo Written(string decimals, string groups)
    {
        var made = (CultureInfo)CultureInfo.InvariantCulture.Clone();
        made.NumberFormat.NumberDecimalSeparator = decimals;
        made.NumberFormat.NumberGroupSeparator = groups;
        made.DateTimeFormat.AbbreviatedMonthNames =
        [
            .. Months.Short.Select(month => Say(month, Months.Abbreviated)),
            "",
        ];
        made.DateTimeFormat.MonthNames = [.. Months.Long.Select(month => Say(month, Months.Whole)), ""];
        made.DateTimeFormat.AbbreviatedMonthGenitiveNames = made.DateTimeFormat.AbbreviatedMonthNames;
        made.DateTimeFormat.MonthGenitiveNames = made.DateTimeFormat.MonthNames;
        return CultureInfo.ReadOnly(made);
    }

    public override string ToString() => Name;
}

/// <summary>How a moment is written, in the letters that .NET's patterns have; a language puts its own dots and words
/// between them.</summary>
public static class DatePatterns
{
    private const string Where = "date, in the letters of .NET patterns";

    [Said(Where)]
    private const string SameYear = "d MMM HH:mm",
        AnyYear = "d MMM yyyy HH:mm",
        WholeDay = "d MMMM yyyy";

    /// <summary>Day and clock time, for this year.</summary>
    public static string ThisYear(DateTimeOffset local, Tongue tongue) => Written(local, SameYear, tongue);

    /// <summary>Day, year and clock time.</summary>
    public static string Full(DateTimeOffset local, Tongue tongue) => Written(local, AnyYear, tongue);

    /// <summary>The day, with its month in full.</summary>
    public static string Day(DateTimeOffset local, Tongue tongue) => Written(local, WholeDay, tongue);

    private static string Written(DateTimeOffset local, string pattern, Tongue tongue)
    {
        ArgumentNullException.ThrowIfNull(tongue);
        return local.ToString(tongue == AllTongues.Pseudo ? pattern : tongue.Say(pattern, Where), tongue.Culture);
    }
}

/// <summary>The months as messages; some languages need another form in a date, which is the form asked for.</summary>
internal static class Months
{
    internal const string Abbreviated = "month in a date, short",
        Whole = "month in a date";

    [Said(Abbreviated)]
    internal static readonly ImmutableArray<string> Short =
    [
        "Jan",
        "Feb",
        "Mar",
        "Apr",
        "May",
        "Jun",
        "Jul",
        "Aug",
        "Sep",
        "Oct",
        "Nov",
        "Dec",
    ];

    [Said(Whole)]
    internal static readonly ImmutableArray<string> Long =
    [
        "January",
        "February",
        "March",
        "April",
        "May",
        "June",
        "July",
        "August",
        "September",
        "October",
        "November",
        "December",
    ];
}
