using System.Globalization;
using Tightcold.SecondWorld.Cars;
using Tightcold.SecondWorld.Product;
using Tightcold.SecondWorld.Runs;

CultureInfo.CurrentCulture = CultureInfo.InvariantCulture;
var text = Console.Out;
var each = args.Contains("--each");
int Count(int usual) => After("--count") is { } count ? int.Parse(count, CultureInfo.InvariantCulture) : usual;
ulong Seed() => ulong.Parse(After("--seed") ?? "1", CultureInfo.InvariantCulture);
string? After(string name) =>
    Array.IndexOf(args, name) is var at and >= 0 && at + 1 < args.Length ? args[at + 1] : null;

switch (args.FirstOrDefault())
{
    case "levels":
        Levels.Print();
        break;
    case "faults":
        Levels.Faults();
        break;
    case "cases":
        Levels.Cases(Count(40));
        break;
    case "leaks":
        LeakLevels.Print();
        break;
    case "cars":
        CarsRun.Run(Count(300), Seed(), text, each, args.Contains("--returning"));
        break;
    case "holds":
        TightRuns.Holds(Count(300), Seed(), text, each);
        break;
    case "nitrogen":
        TightRuns.NitrogenTests(Count(200), Seed(), text, each);
        break;
    case "searches":
        SearchRun.Run(Count(400), Seed(), text, each);
        break;
    case "published":
        PublishedRun.Run(text);
        break;
    default:
        text.WriteLine(
            "cars, holds, nitrogen, searches, published: what the product makes of the second world "
                + "(--count N --seed N --each; cars --returning: each was read sound a year before). "
                + "levels, faults, cases, leaks: the world itself."
        );
        return 1;
}
if (JobBuilder.NotTaken.Count > 0)
{
    var counts = JobBuilder.NotTaken.Select(one => $"{one.Key} ({one.Value})");
    text.WriteLine("Not taken by this journal: " + string.Join(", ", counts) + ".");
}
return 0;
