using System.Text;
using Tightcold.Cli.Wiring;

namespace Tightcold.Cli.Show;

/// <summary>The manual page in man's own language (man(7) of the GNU project's groff).</summary>
internal static class ManPage
{
    public static string Write()
    {
        var page = new StringBuilder($".TH TIGHTCOLD 1 \"\" \"Tightcold {CommandLine.Version}\" \"Tightcold\"\n");
        page.Append(".SH NAME\ntightcold \\- what your readings say about a car's air conditioning\n");
        page.Append(".SH SYNOPSIS\n.B tightcold\n.I COMMAND\n[\\fIWORDS\\fR] [\\fIOPTIONS\\fR]\n");
        page.Append(".SH DESCRIPTION\n");
        Text(
            page,
            "Keeps cars, kit and jobs of a person who mends car air conditioning alone, and turns readings into "
                + "answers. Numbers are typed with their unit; fields are written name=value, in quotes where the "
                + "value has spaces."
        );
        page.Append(".SH COMMANDS\n");
        foreach (var row in CommandTable.All)
        {
            page.Append(".SS ").Append(Escaped(row.Path)).Append('\n');
            Text(page, row.Says);
            page.Append(".PP\n\\fB").Append(Escaped(HelpPage.Usage(row))).Append("\\fR\n");
            if (row.More.Length > 0)
                Text(page.Append(".PP\n"), row.More);
            foreach (var word in row.Words.Arguments.Concat(row.Words.Options.Where(option => !IsCommon(option))))
                Pair(page, word);
            page.Append(".PP\nExample:\n.PP\n.EX\n");
            foreach (var example in row.Examples)
                page.Append("tightcold ").Append(Escaped(example)).Append('\n');
            page.Append(".EE\n");
        }
        page.Append(".SH OPTIONS OF ALL COMMANDS\n");
        foreach (var option in CommandTable.All[0].Words.Options.Where(IsCommon))
            Pair(page, option);
        page.Append(".SH EXIT STATUS\n");
        foreach (
            var (code, means) in new[]
            {
                ("0", "Done."),
                ("1", "The input was refused, one sentence for each reason; nothing was changed."),
                ("2", "Trouble with the machine or the data, or stopped; what was acknowledged before is kept."),
            }
        )
            page.Append(".TP\n").Append(code).Append('\n').Append(means).Append('\n');
        page.Append(".SH ENVIRONMENT\n.TP\nTIGHTCOLD_DATA\n");
        Text(page, "The folder of the data file, or a connection to a server, unless --data is given.");
        page.Append(".TP\nTIGHTCOLD_PHONE\n");
        Text(page, "The folder of the program for phones that serve hands out, unless --phone is given.");
        return page.ToString();
    }

    private static bool IsCommon(WordSpec option) => option.Property.DeclaringType == typeof(Commands.DeskSettings);

    private static void Pair(StringBuilder page, WordSpec word)
    {
        page.Append(".TP\n\\fB").Append(Escaped(word.Shown)).Append("\\fR\n");
        Text(page, HelpPage.Says(word));
    }

    private static void Text(StringBuilder page, string text)
    {
        var escaped = Escaped(text);
        // A line that begins with a dot or an apostrophe would be an instruction.
        page.Append(escaped is ['.' or '\'', ..] ? "\\&" + escaped : escaped).Append('\n');
    }

    private static string Escaped(string text) =>
        text.Replace("\\", "\\e", StringComparison.Ordinal).Replace("-", "\\-", StringComparison.Ordinal);
}
