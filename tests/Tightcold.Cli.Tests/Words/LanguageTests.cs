using System.Text.RegularExpressions;
using Tightcold.Cli.Wiring;
using Tightcold.Jobs.Entries;
using Tightcold.Tongues;

namespace Tightcold.Cli.Tests.Words;

/// <summary>The command line in the languages that there are.</summary>
public sealed partial class LanguageTests : IDisposable
{
    private readonly Desk desk = new();

    public void Dispose() => desk.Dispose();

    [Theory]
    [InlineData("de", "Auftrag", "0,939")]
    [InlineData("es", "Trabajo", "0,939")]
    [InlineData("fr", "Intervention", "0,939")]
    [InlineData("pl", "Zlecenie", "0,939")]
    [InlineData("en", "Job", "0.939")]
    public async Task The_demo_speaks_the_language_of_the_terminal_and_answers_machines_in_English(
        string language,
        string job,
        string barometer
    )
    {
        desk.Tongue = AllTongues.Named(language)!;
        var said = await desk.DoneAsync("demo", "--to", desk.File("card.html"));
        Assert.StartsWith(job, said.TrimStart(), StringComparison.OrdinalIgnoreCase);
        Assert.Contains(barometer, said, StringComparison.Ordinal);
        Assert.Contains(
            $"lang=\"{language}\"",
            await System.IO.File.ReadAllTextAsync(desk.File("card.html"), TestContext.Current.CancellationToken),
            StringComparison.Ordinal
        );
        var machine = await desk.JsonAsync("job", "findings", "1");
        Assert.Contains("of the label charge", machine.ToJsonString(), StringComparison.Ordinal);
    }

    /// <summary>In a language that nobody speaks every message stands between brackets; what is left outside is a name, a
    /// unit, or what a person typed or would type.</summary>
    [Fact]
    public async Task Nothing_that_the_command_line_tells_stands_outside_the_catalogues()
    {
        desk.Tongue = AllTongues.Named("qps")!;
        var told = new List<(string Of, string Text)>
        {
            ("demo", await desk.DoneAsync("demo", "--to", desk.File("card.html"))),
        };
        foreach (var words in (string[][])[["job", "list"], ["job", "show", "1"], ["job", "kinds"], ["job", "oil", "1"]])
            told.Add((string.Join(' ', words), (await desk.RunAsync(words)).Out));
        told.Add(("help", await desk.DoneAsync("--help")));
        foreach (var command in CommandLine.Commands)
            told.Add(($"{command} --help", await desk.DoneAsync([.. command.Split(' '), "--help"])));
        var own = Words((await desk.DoneAsync("job", "export", "1")).Replace("\\u002B", "+", StringComparison.Ordinal)).ToHashSet();
        own.UnionWith(CommandLine.Commands.SelectMany(Words));
        own.UnionWith(EntryKinds.All.SelectMany(kind => kind.Fields).SelectMany(field => Words(field.Name)));
        own.UnionWith(EntryKinds.All.SelectMany(kind => Words(kind.Name)));
        own.UnionWith(Enum.GetNames<Step>().Select(step => step.ToLowerInvariant()));
        var outside = new SortedSet<string>(StringComparer.Ordinal);
        foreach (var (of, text) in told)
        // A law keeps its name.
        foreach (var line in text.Split('\n').Where(line => !Typed().IsMatch(line) && !line.Contains("⟦law: ⟧", StringComparison.Ordinal)))
        foreach (var word in Words(Option().Replace(Marked().Replace(ToType().Replace(line, " "), " "), " ")))
            if (!own.Contains(word) && !OfNoLanguage.Contains(word))
                outside.Add($"{of}: {word} in “{line.Trim()[..Math.Min(100, line.Trim().Length)]}”");
        Assert.True(outside.Count == 0, string.Join('\n', outside.Take(150)));
    }

    private static readonly HashSet<string> OfNoLanguage =
    [
        .. (
            "tightcold Tightcold bar abs psi psig psia inHg hPa kPa mbar Pa micron min kg mL oz lb ft cfm rpm yr g/yr RH PAG POE "
            + "JSON PDF CSV PEM PFX QR SVG SQLite PostgreSQL UTC ISO R-134a R-1234yf R-152a R-744 R-12 fl us metric de en es fr pl card html svg csv pdf json"
        ).Split(' '),
    ];

    private static IEnumerable<string> Words(string text) => Word().Matches(text).Select(match => match.Value);

    [GeneratedRegex("⟦[^⟦⟧]*⟧|⟦[^⟦⟧]*$")]
    private static partial Regex Marked();

    /// <summary>A list of words or units of which one is typed.</summary>
    [GeneratedRegex("⟦[^⟦⟧]*(?:[Oo]ne of|units) ⟧[^⟦]*")]
    private static partial Regex ToType();

    /// <summary>Examples are typed as they stand; a row of fields begins with what is typed.</summary>
    [GeneratedRegex("^ *tightcold ")]
    private static partial Regex Typed();

    /// <summary>Options, their stand-ins, and names of fields and commands.</summary>
    [GeneratedRegex("/\\S+|[a-z-]+=…|\\b[0-9a-f]{6}\\b|--?[a-z][a-z-]*|<[A-Z-]+>|\\[[A-Z-]+\\]|[a-z0-9]+(?:-[a-z0-9]+)+|\\b[A-Z][A-Z_]+\\b")]
    private static partial Regex Option();

    [GeneratedRegex("[A-Za-zÀ-ž][A-Za-zÀ-ž0-9/-]*[A-Za-zÀ-ž0-9]")]
    private static partial Regex Word();

    [Fact]
    public async Task A_language_asked_for_once_is_kept_and_another_one_takes_its_place()
    {
        Assert.Contains(
            "Kein Auftrag",
            await desk.DoneAsync("job", "list", "--language", "de"),
            StringComparison.OrdinalIgnoreCase
        );
        Assert.Contains("Kein Auftrag", await desk.DoneAsync("job", "list"), StringComparison.OrdinalIgnoreCase);
        await desk.DoneAsync("job", "list", "--language", "en");
        Assert.DoesNotContain("Auftrag", await desk.DoneAsync("job", "list"), StringComparison.OrdinalIgnoreCase);
    }

    [Fact]
    public async Task A_refusal_is_said_in_the_language_of_who_typed()
    {
        desk.Tongue = AllTongues.Named("pl")!;
        var answer = await desk.RunAsync(["job", "show", "7"]);
        Assert.Equal(1, answer.Code);
        Assert.Matches("[ąćęłńóśźż]", answer.Trouble);
        desk.Tongue = AllTongues.Named("de")!;
        await desk.DoneAsync("car", "new", "label=grauer Kombi", "refrigerant=R-134a", "label-charge=0,55 kg");
        Assert.Contains("550 g", await desk.DoneAsync("car", "list"), StringComparison.Ordinal);
        var doubtful = await desk.RunAsync(["car", "new", "label=zwei", "refrigerant=R-134a", "label-charge=1.013 g"]);
        Assert.Equal(1, doubtful.Code);
        Assert.Contains("1.013", doubtful.Trouble, StringComparison.Ordinal);
    }
}
