using Spectre.Console;
using Tightcold.App.Units;
using Tightcold.Cli.Wiring;
using Tightcold.Jobs.Fields;
using Tightcold.Tongues;

namespace Tightcold.Cli.Show;

/// <summary>What --help says: how a command is called, what each word means, which fields and choices there
/// are.</summary>
internal static class HelpPage
{
    /// <summary>Where the explanation of a word begins, when the window is wide enough for that.</summary>
    private const int Column = 32;

    public static void ShowAll(Surroundings surroundings)
    {
        var console = surroundings.Out;
        Page.Line(console, Say.It("Tightcold: what your readings say about a car's air conditioning."));
        Page.Line(console, "tightcold COMMAND [WORDS] [OPTIONS]");
        Page.Line(console, "");
        foreach (var (name, says) in CommandTable.Branches)
        {
            Page.Heading(console, Say.It($"{name}: {Say.It(says)}"));
            foreach (
                var row in CommandTable.All.Where(row => row.Path.StartsWith(name + " ", StringComparison.Ordinal))
            )
                Pair(console, row.Path, Say.It(row.Says));
        }
        Page.Heading(console, Say.It("and:"));
        foreach (var row in CommandTable.All.Where(row => !row.Path.Contains(' ', StringComparison.Ordinal)))
            Pair(console, row.Path, Say.It(row.Says));
        Page.Line(console, "");
        Page.Line(console, Say.It("tightcold COMMAND --help says what a command takes. Ctrl-C stops any of them."));
    }

    public static void ShowBranch(Surroundings surroundings, string branch)
    {
        var console = surroundings.Out;
        Page.Line(console, Say.It(CommandTable.Branches.First(known => known.Name == branch).Says));
        foreach (var row in CommandTable.All.Where(row => row.Path.StartsWith(branch + " ", StringComparison.Ordinal)))
            Pair(console, row.Path, Say.It(row.Says));
        Page.Line(console, Say.It($"tightcold {branch} COMMAND --help says what a command takes."));
    }

    public static void Show(Surroundings surroundings, CommandRow row, IReadOnlyList<string> typed)
    {
        var console = surroundings.Out;
        Page.Line(console, Say.It(row.Says));
        Page.Line(console, Usage(row));
        if (row.More.Length > 0)
            Page.Line(console, Say.It(row.More));
        if (row.Words.Arguments.Length > 0)
        {
            Page.Heading(console, Say.It("Words"));
            foreach (var argument in row.Words.Arguments)
                Pair(console, argument.Shown, Says(argument));
        }
        if (row.Fields([.. typed.Where(word => !CommandReader.IsOption(word))]) is { } schema)
        {
            Page.Heading(console, Say.It($"Fields of {Say.Within(schema.Label)}"));
            var units = new ReaderUnits(UnitSystem.Metric, Say.Tongue);
            foreach (var field in schema.Asked)
                Pair(console, field.Name + "=…", FieldHelp.Line(field, units));
        }
        Page.Heading(console, Say.It("Options"));
        foreach (var option in row.Words.Options)
            Pair(console, option.Shown, Says(option));
        Page.Heading(console, Say.It("Examples"));
        foreach (var example in row.Examples)
            Page.Line(console, "  tightcold " + example);
    }

    public static string Usage(CommandRow row) =>
        string.Join(
            ' ',
            new[] { "tightcold", row.Path }
                .Concat(row.Words.Arguments.Select(argument => argument.Shown))
                .Append("[OPTIONS]")
        );

    public static string Says(WordSpec word)
    {
        var says = Say.It(word.Says);
        if (!word.Choices.IsEmpty)
            says += " " + Say.It($"One of {string.Join(", ", word.Choices)}.");
        if (word.Many && !word.Names.IsEmpty)
            says += " " + Say.It("May be given again.");
        return says;
    }

    private static void Pair(IAnsiConsole console, string left, string right)
    {
        if (console.Profile.Width < 2 * Column)
        {
            Page.Line(console, "  " + left);
            Page.Line(console, "    " + right);
        }
        else
            Page.Line(
                console,
                left.Length < Column - 3 ? "  " + left.PadRight(Column - 2) + right : $"  {left}  {right}",
                hanging: Column
            );
    }
}

/// <summary>What a field takes, in a line.</summary>
internal static class FieldHelp
{
    public static string Line(FieldSpec field, ReaderUnits units)
    {
        var (label, takes) = (Say.It(field.Label), Takes(field.Type, units));
        var line = field.Hint is { } hint ? $"{label}; {takes} ({Say.It(hint)})" : $"{label}; {takes}";
        return field.Required ? Say.It($"{line}; needed") : line;
    }

    public static string Takes(FieldType type, ReaderUnits units) =>
        type switch
        {
            FieldType.Quantity quantity => Say.It(
                $"{units.Format(new(quantity.Kind, quantity.MinSi), new(quantity.Kind, quantity.MaxSi))}; units "
                    + $"{string.Join(", ", UnitParser.UnitsFor(quantity.Kind, units.System))}"
            ),
            FieldType.Number number => Say.It(
                $"a plain number from {number.Min.ToString(units.Culture)} to {number.Max.ToString(units.Culture)}"
            ),
            // As they are typed.
            FieldType.Choice choice => Say.It($"one of {string.Join(", ", choice.Words)}"),
            FieldType.Spot => Say.It("a spot of the car's circuit"),
            FieldType.Spots => Say.It("spots of the car's circuit, a comma between two"),
            FieldType.Container => Say.It("a can or cylinder of the kit"),
            FieldType.Text text => Say.It($"text of at most {text.MaxLength} characters"),
            _ => "",
        };
}
