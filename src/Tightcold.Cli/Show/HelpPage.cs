using Spectre.Console;
using Tightcold.App.Units;
using Tightcold.Cli.Wiring;
using Tightcold.Jobs.Fields;

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
        Page.Line(console, "Tightcold: what your readings say about a car's air conditioning.");
        Page.Line(console, "tightcold COMMAND [WORDS] [OPTIONS]");
        Page.Line(console, "");
        foreach (var (name, says) in CommandTable.Branches)
        {
            Page.Heading(console, $"{name}: {says}");
            foreach (
                var row in CommandTable.All.Where(row => row.Path.StartsWith(name + " ", StringComparison.Ordinal))
            )
                Pair(console, row.Path, row.Says);
        }
        Page.Heading(console, "and:");
        foreach (var row in CommandTable.All.Where(row => !row.Path.Contains(' ', StringComparison.Ordinal)))
            Pair(console, row.Path, row.Says);
        Page.Line(console, "");
        Page.Line(console, "tightcold COMMAND --help says what a command takes. Ctrl-C stops any of them.");
    }

    public static void ShowBranch(Surroundings surroundings, string branch)
    {
        var console = surroundings.Out;
        Page.Line(console, CommandTable.Branches.First(known => known.Name == branch).Says);
        foreach (var row in CommandTable.All.Where(row => row.Path.StartsWith(branch + " ", StringComparison.Ordinal)))
            Pair(console, row.Path, row.Says);
        Page.Line(console, $"tightcold {branch} COMMAND --help says what a command takes.");
    }

    public static void Show(Surroundings surroundings, CommandRow row, IReadOnlyList<string> typed)
    {
        var console = surroundings.Out;
        Page.Line(console, row.Says);
        Page.Line(console, Usage(row));
        if (row.More.Length > 0)
            Page.Line(console, row.More);
        if (row.Words.Arguments.Length > 0)
        {
            Page.Heading(console, "Words");
            foreach (var argument in row.Words.Arguments)
                Pair(console, argument.Shown, Says(argument));
        }
        if (row.Fields([.. typed.Where(word => !CommandReader.IsOption(word))]) is { } schema)
        {
            Page.Heading(console, $"Fields of {schema.Label.ToLowerInvariant()}");
            var units = new ReaderUnits(UnitSystem.Metric, System.Globalization.CultureInfo.InvariantCulture);
            foreach (var field in schema.Asked)
                Pair(console, field.Name + "=…", FieldHelp.Line(field, units));
        }
        Page.Heading(console, "Options");
        foreach (var option in row.Words.Options)
            Pair(console, option.Shown, Says(option));
        Page.Heading(console, "Examples");
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

    public static string Says(WordSpec word) =>
        (word.Choices.IsEmpty ? word.Says : $"{word.Says} One of {string.Join(", ", word.Choices)}.")
        + (word.Many && !word.Names.IsEmpty ? " May be given again." : "");

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
    public static string Line(FieldSpec field, ReaderUnits units) =>
        $"{field.Label}; {Takes(field.Type, units)}{(field.Hint is { } hint ? $" ({hint})" : "")}"
        + (field.Required ? "; needed" : "");

    public static string Takes(FieldType type, ReaderUnits units) =>
        type switch
        {
            FieldType.Quantity quantity =>
                $"{units.Format(new(quantity.Kind, quantity.MinSi), new(quantity.Kind, quantity.MaxSi))}; units "
                    + string.Join(", ", UnitParser.UnitsFor(quantity.Kind, units.System)),
            FieldType.Number number => string.Create(
                System.Globalization.CultureInfo.InvariantCulture,
                $"a plain number from {number.Min} to {number.Max}"
            ),
            FieldType.Choice choice => "one of " + string.Join(", ", choice.Words),
            FieldType.Spot => "a spot of the car's circuit",
            FieldType.Spots => "spots of the car's circuit, a comma between two",
            FieldType.Container => "a can or cylinder of the kit",
            FieldType.Text text => string.Create(
                System.Globalization.CultureInfo.InvariantCulture,
                $"text of at most {text.MaxLength} characters"
            ),
            _ => "",
        };
}
