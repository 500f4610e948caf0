using System.Globalization;
using System.Text.Json;
using Tightcold.Diagnosis.Inference;
using Tightcold.Loop.Refrigerant;
using Tightcold.Properties;
using Tightcold.Studies;
using Tightcold.Studies.Cold;
using Tightcold.Studies.Faults;
using Tightcold.Studies.Holds;
using Tightcold.Studies.Leaks;
using Tightcold.Studies.Loops;

CultureInfo.CurrentCulture = CultureInfo.InvariantCulture;
var text = Console.Out;
int Number(string name, int usual) => After(name) is { } said ? int.Parse(said, CultureInfo.InvariantCulture) : usual;
string? After(string name) =>
    Array.IndexOf(args, name) is var at and >= 0 && at + 1 < args.Length ? args[at + 1] : null;
var effort = args.Contains("--quick") ? Effort.Quick : Effort.Full;

switch (args.FirstOrDefault())
{
    case "leaks":
        text.Write(StudyText.Of(SearchStudy.Run(Number("--count", 400), (ulong)Number("--seed", 1))));
        break;
    case "holds":
        text.Write(StudyText.Of(HoldStudy.Run(Number("--count", 2000), (ulong)Number("--seed", 1))));
        break;
    case "faults":
        text.Write(Calibration(Number("--from", 1), Number("--count", 100)).Text());
        break;
    case "brute":
        text.Write(AgainstBruteForce.Run(Number("--from", 1), Number("--count", 50), default).Text());
        break;
    case "followed":
        text.Write(
            FollowedTests.Run(Number("--from", 1), Number("--count", 50), Number("--steps", 4), effort, default).Text()
        );
        break;
    case "loops":
        text.Write(LoopSoak.Run(Number("--count", 20_000), Number("--seed", 1)));
        break;
    case "tables":
        foreach (var name in RefrigerantTables.Names)
        {
            using var file = File.Create(
                Path.Combine(After("--to") ?? "src/Tightcold.Loop/Refrigerant/Tables", name + ".table")
            );
            TableFile.Write(RefrigerantTables.Build(FluidCatalog.Get(name)), file);
        }
        break;
    case "cold":
        text.Write(ColdText.Run(Number("--count", 100), Number("--seed", 20)));
        break;
    default:
        text.WriteLine(
            "faults (--from N --count N --quick --save FILE --plots FOLDER), brute, followed (--from N "
                + "--count N --steps N), leaks, holds, loops, cold (--count N --seed N), tables (--to FOLDER): cases drawn from the product's own models."
        );
        return 1;
}
return 0;

// Scores are kept as lines, so that a long run can be cut and gone on with.
CalibrationReport Calibration(int from, int count)
{
    var file = After("--save");
    var known =
        file is not null && File.Exists(file)
            ? File.ReadLines(file)
                .Where(line => line.EndsWith('}'))
                .Select(line => JsonSerializer.Deserialize<CarScore>(line)!)
                .ToDictionary(score => score.Number)
            : [];
    var scores = new List<CarScore>();
    for (var number = from; number < from + count; number++)
    {
        if (!known.TryGetValue(number, out var score))
        {
            score = CarScore.Of(number, effort);
            if (file is not null)
                File.AppendAllText(file, JsonSerializer.Serialize(score) + "\n");
        }
        scores.Add(score);
    }
    var report = new CalibrationReport([.. scores]);
    if (After("--plots") is { } folder)
    {
        Directory.CreateDirectory(folder);
        File.WriteAllText(Path.Combine(folder, "reliability.svg"), StudyPlots.Reliability(report));
        File.WriteAllText(Path.Combine(folder, "ranks.svg"), StudyPlots.Ranks(report));
    }
    return report;
}
