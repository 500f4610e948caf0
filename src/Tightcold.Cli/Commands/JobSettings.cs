using System.ComponentModel;
using Tightcold.Cli.Wiring;

namespace Tightcold.Cli.Commands;

/// <summary>A command about one job.</summary>
internal class JobSettings : DeskSettings
{
    [CommandArgument(0, "<NUMBER>")]
    [Description("Number of the job.")]
    public int Number { get; init; }
}

internal sealed class JobNewSettings : DeskSettings
{
    [CommandArgument(0, "<CAR>")]
    [Description("The car's name, or the last digits of its id.")]
    public string Car { get; init; } = "";

    [CommandArgument(1, "[COMPLAINT]")]
    [Description("What the driver says; may be left out with --told.")]
    public string Complaint { get; init; } = "";

    [CommandOption("--told <STORY>")]
    [Description("Why it is here: brought in warm; works at speed, fails at idle; and so on (job kinds story).")]
    public string? Told { get; init; }

    [CommandOption("--at <TIME>")]
    [Description("When the car came, for a job that is written down later; now unless given.")]
    public string? At { get; init; }
}

internal sealed class JobListSettings : DeskSettings
{
    [CommandOption("--find <WORDS>")]
    [Description("Only jobs with all these words in the car's name, the complaint, what is waited for or the notes.")]
    public string? Find { get; init; }

    [CommandOption("--state <STATE>")]
    [Description("Only jobs in this state.")]
    [Choices("open", "waiting", "closed")]
    public string? State { get; init; }

    [CommandOption("--most <NUMBER>")]
    [Description("So many, the newest; all unless given.")]
    public int? Most { get; init; }
}

internal sealed class JobKindsSettings : DeskSettings
{
    [CommandArgument(0, "[KIND]")]
    [Description("Show the fields of this kind.")]
    public string? Kind { get; init; }
}

internal sealed class JobAddSettings : JobSettings
{
    [CommandArgument(1, "[KIND]")]
    [Description("Kind of entry; see tightcold job kinds.")]
    public string? Kind { get; init; }

    [CommandArgument(2, "[name=value]")]
    [Description("Fields of the entry, each number with its unit.")]
    public string[]? Fields { get; init; }

    [CommandOption("--at <TIME>")]
    [Description("When it was seen or done; now unless given.")]
    public string? At { get; init; }

    [CommandOption("--who <NAME>")]
    [Description("Who saw or did it; the kit's owner unless given.")]
    public string? Who { get; init; }

    [CommandOption("--id <ID>")]
    [Description("Your own id for the entry; sending it again changes nothing.")]
    public string? Id { get; init; }

    [CommandOption("--really")]
    [Description("Write it down although it was asked back, such as a charge onto nitrogen.")]
    public bool Really { get; init; }

    [CommandOption("--lines <FILE>")]
    [InputFile]
    [Description("Read entries as JSON, one a line; - is standard input. Prints “saved ID” once each is on disk.")]
    public string? Lines { get; init; }
}

internal sealed class JobFindingsSettings : JobSettings
{
    [CommandOption("--step <STEP>")]
    [Description("One step alone, with all its cautions, the law and its articles: recover, weigh-in and so on.")]
    public string? Step { get; init; }
}

internal sealed class JobCorrectSettings : JobSettings
{
    [CommandArgument(1, "<ENTRY>")]
    [Description("The entry's id, or its last digits.")]
    public string Entry { get; init; } = "";

    [CommandArgument(2, "[name=value]")]
    [Description("Fields that were wrong; the others stay.")]
    public string[]? Fields { get; init; }

    [CommandOption("--reason <WORDS>")]
    [Description("Why it was wrong.")]
    public string? Reason { get; init; }

    [CommandOption("--at <TIME>")]
    [Description("When it was seen; as the old entry says unless given.")]
    public string? At { get; init; }

    [CommandOption("--who <NAME>")]
    [Description("Who says so; the kit's owner unless given.")]
    public string? Who { get; init; }
}

internal sealed class JobStrikeSettings : JobSettings
{
    [CommandArgument(1, "<ENTRY>")]
    [Description("The entry's id, or its last digits.")]
    public string Entry { get; init; } = "";

    [CommandOption("--reason <WORDS>")]
    [Description("Why it is struck.")]
    public string? Reason { get; init; }

    [CommandOption("--who <NAME>")]
    [Description("Who says so; the kit's owner unless given.")]
    public string? Who { get; init; }
}

internal sealed class JobUndoSettings : JobSettings
{
    [CommandOption("--who <NAME>")]
    [Description("Who takes it back; the kit's owner unless given.")]
    public string? Who { get; init; }
}

internal sealed class JobExportSettings : DeskSettings
{
    [CommandArgument(0, "[NUMBER]")]
    [Description("Number of the job.")]
    public int? Number { get; init; }

    [CommandOption("--all")]
    [Description("All cars, kits and jobs in one file.")]
    public bool All { get; init; }

    [CommandOption("--without <FILE>")]
    [InputFile]
    [Description("With --all: leave out what stands in this file of job tally; only what is lacking there goes.")]
    public string? Without { get; init; }

    [CommandOption("--to|--output <FILE>")]
    [OutputFile]
    [Description("File to write; standard output unless given.")]
    public string? To { get; init; }
}

internal sealed class JobTallySettings : DeskSettings
{
    [CommandOption("--to|--output <FILE>")]
    [OutputFile]
    [Description("File to write; standard output unless given.")]
    public string? To { get; init; }
}

internal sealed class JobImportSettings : DeskSettings
{
    [CommandArgument(0, "<FILE>")]
    [InputFile]
    [Description("File to read; - is standard input.")]
    public string From { get; init; } = "";
}
