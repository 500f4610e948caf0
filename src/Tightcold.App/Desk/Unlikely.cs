using System.Collections.Immutable;
using Tightcold.Jobs.Entries;
using Tightcold.Jobs.Fields;
using Tightcold.Quantities;

namespace Tightcold.App.Desk;

/// <summary>Values that can be true and hardly ever are: a slip of a digit, of a unit or of a sign. A screen asks once
/// whether they are meant; nothing is refused. Ranges by common practice for R-134a and R-1234yf in cars, no
/// source.</summary>
public static class Unlikely
{
    private const double Bar = 1e5,
        Zero = 273.15;

    /// <summary>From which to which a field usually lies, in SI.</summary>
    private static readonly Dictionary<(string Kind, string Field), (double Low, double High)> Usual = new()
    {
        [(EntryKinds.Weather, "ambient-temperature")] = (Zero - 10, Zero + 46),
        [(EntryKinds.Weather, "station-pressure")] = (70e3, 105e3),
        [(EntryKinds.Weather, "altitude")] = (-50, 3500),
        // Engine off both sides stand at most at saturation of a hot bay, 60 °C: about 16 bar.
        [(EntryKinds.StandingReading, "low-side")] = (-0.2 * Bar, 16 * Bar),
        [(EntryKinds.StandingReading, "high-side")] = (-0.2 * Bar, 16 * Bar),
        [(EntryKinds.StandingReading, "ambient-temperature")] = (Zero - 10, Zero + 50),
        [(EntryKinds.RunningReading, "low-side")] = (-0.9 * Bar, 7 * Bar),
        [(EntryKinds.RunningReading, "low-side-swing-to")] = (-0.9 * Bar, 7 * Bar),
        [(EntryKinds.RunningReading, "high-side")] = (2 * Bar, 32 * Bar),
        [(EntryKinds.RunningReading, "high-side-swing-to")] = (2 * Bar, 32 * Bar),
        [(EntryKinds.RunningReading, "line-before-temperature")] = (Zero + 5, Zero + 80),
        [(EntryKinds.RunningReading, "line-behind-temperature")] = (Zero - 10, Zero + 80),
        [(EntryKinds.RunningReading, "engine-speed")] = (500 / 60.0, 3500 / 60.0),
        [(EntryKinds.RunningReading, "ambient-temperature")] = (Zero + 5, Zero + 50),
        [(EntryKinds.RunningReading, "vent-temperature")] = (Zero, Zero + 50),
        [(EntryKinds.RunningReading, "cabin-temperature")] = (Zero + 5, Zero + 70),
        [(EntryKinds.RunningReading, "suction-line-temperature")] = (Zero - 20, Zero + 55),
        [(EntryKinds.RunningReading, "liquid-line-temperature")] = (Zero + 5, Zero + 80),
        [(EntryKinds.RunningReading, "discharge-line-temperature")] = (Zero + 20, Zero + 125),
        [(EntryKinds.LeakCheck, "system-pressure")] = (0, 16 * Bar),
        [(EntryKinds.LeakSearch, "system-pressure")] = (0, 16 * Bar),
        [(EntryKinds.LeakCheck, "time-spent")] = (5, 2 * 3600),
        [(EntryKinds.OilMoved, "amount")] = (2e-6, 300e-6),
        [(EntryKinds.VacuumReading, "part-temperature")] = (Zero - 5, Zero + 55),
        [(EntryKinds.VacuumReading, "dial")] = (-1.05 * Bar, 0.1 * Bar),
        [(EntryKinds.PressureTest, "pressure")] = (2 * Bar, 16 * Bar),
        [(EntryKinds.ContainerMoved, "bath-temperature")] = (Zero + 10, Zero + 50),
        [(EntryKinds.ScaleReading, "container-temperature")] = (Zero - 30, Zero + 48),
        [(EntryKinds.VentReading, "vent-temperature")] = (Zero, Zero + 45),
        [(EntryKinds.VentReading, "ambient-temperature")] = (Zero + 5, Zero + 50),
        [(EntryKinds.VentReading, "cabin-temperature")] = (Zero + 5, Zero + 75),
    };

    /// <summary>A value that is asked about: which field, what was typed, and what is usual.</summary>
    public sealed record Doubt(FieldSpec Field, string AsTyped, Measure Low, Measure High)
    {
        public Phrase Sentence => Phrase.Of($"{Field.Label} {AsTyped}: usual is {(Low, High)}.");
    }

    public static ImmutableArray<Doubt> Of(Schema schema, FieldBag fields)
    {
        ArgumentNullException.ThrowIfNull(schema);
        ArgumentNullException.ThrowIfNull(fields);
        var doubts = ImmutableArray.CreateBuilder<Doubt>();
        foreach (var field in schema.Fields)
            if (
                fields[field.Name] is FieldValue.Quantity quantity
                && Usual.TryGetValue((schema.Name, field.Name), out var usual)
                && (quantity.Value.Si < usual.Low || quantity.Value.Si > usual.High)
            )
                doubts.Add(
                    new(
                        field,
                        quantity.AsTyped,
                        new(quantity.Value.Kind, usual.Low),
                        new(quantity.Value.Kind, usual.High)
                    )
                );
        return doubts.ToImmutable();
    }
}
