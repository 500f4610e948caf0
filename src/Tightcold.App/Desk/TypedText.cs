using System.Globalization;
using Tightcold.App.Units;
using Tightcold.Jobs.Cars;
using Tightcold.Jobs.Entries;
using Tightcold.Jobs.Fields;
using Tightcold.Jobs.Journals;
using Tightcold.Jobs.Kits;

namespace Tightcold.App.Desk;

/// <summary>A file carries each quantity twice, in SI and as typed. Where the typed text can be read, the two must
/// say the same: otherwise somebody changed one of them, and which one is true cannot be known.</summary>
internal static class TypedText
{
    /// <summary>Room for the last digits of a unit conversion done elsewhere: ours had the torr 2.2 millionths larger until
    /// 2026-12.</summary>
    private const double Tolerance = 5e-6;

    public static IReadOnlyList<InputProblem> Check(JobRecord record)
    {
        var problems = new List<InputProblem>();
        problems.AddRange(Check("$.car", record.Car));
        for (var i = 0; i < record.Kits.Length; i++)
            problems.AddRange(Check(At("$.kits", i), record.Kits[i]));
        foreach (var entry in record.Journal.All)
            Check($"$.entries: {entry.Id}", entry.Fields, problems);
        return problems;
    }

    public static IReadOnlyList<InputProblem> Check(string path, Car car)
    {
        var problems = new List<InputProblem>();
        Check(path + ".fields", car.Fields, problems);
        return problems;
    }

    public static IReadOnlyList<InputProblem> Check(string path, Kit kit)
    {
        var problems = new List<InputProblem>();
        Check(path + ".fields", kit.Fields, problems);
        for (var i = 0; i < kit.Containers.Length; i++)
            Check(At(path + ".containers", i), kit.Containers[i].Fields, problems);
        return problems;
    }

    public static IReadOnlyList<InputProblem> Check(Entry entry)
    {
        var problems = new List<InputProblem>();
        Check("$.fields", entry.Fields, problems);
        return problems;
    }

    private static void Check(string path, FieldBag bag, List<InputProblem> problems)
    {
        foreach (var (name, value) in bag)
        {
            if (value is not FieldValue.Quantity quantity)
                continue;
            var type = new FieldType.Quantity(quantity.Value.Kind, double.MinValue, double.MaxValue);
            if (UnitParser.Parse(type, quantity.AsTyped, CultureInfo.InvariantCulture).Value is not { } read)
                continue;
            if (Math.Abs(read.Value.Si - quantity.Value.Si) > Tolerance * Math.Max(1e-3, Math.Abs(quantity.Value.Si)))
                problems.Add(
                    InputProblem.Of(
                        $"{path}.{name}",
                        quantity.AsTyped,
                        $"the typed text and the value beside it ({quantity.Value}) say different things"
                    )
                );
        }
    }

    private static string At(string path, int index) => string.Create(CultureInfo.InvariantCulture, $"{path}[{index}]");
}
