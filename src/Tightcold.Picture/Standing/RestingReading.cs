using Tightcold.Jobs.Entries;
using Tightcold.Jobs.Fields;
using Tightcold.Jobs.Journals;
using Tightcold.Jobs.Kits;
using Tightcold.Picture.Pressures;
using Tightcold.Procedures.Standing;

namespace Tightcold.Picture.Standing;

/// <summary>One reading with the engine off, both gauges taken together.</summary>
/// <param name="Standing">Absolute, with its temperature.</param>
/// <param name="ApartPa">Between the two sides, Pa; 0 where they agree or one was read.</param>
/// <param name="HasOneTemperature">Both sides agree, and the car has one temperature.</param>
/// <param name="OnlyTheAir">Only the air's temperature was read, neither condenser nor cabin.</param>
/// <param name="SoakKnown">Somebody wrote down how long the engine has been off.</param>
public sealed record RestingReading(
    StandingReading Standing,
    double ApartPa,
    bool HasOneTemperature,
    bool OnlyTheAir,
    bool SoakKnown,
    AirPressure Air
)
{
    // A car whose coldest part is known no better has not one temperature yet.
    private const double SettledK = 2;

    /// <summary>At rest, with one temperature.</summary>
    public bool AtRest => HasOneTemperature;

    /// <summary>Null where neither gauge was read.</summary>
    public static RestingReading? Of(JobRecord record, Entry entry)
    {
        ArgumentNullException.ThrowIfNull(record);
        ArgumentNullException.ThrowIfNull(entry);
        var sides = new[]
        {
            Gauges.Read(record, entry, FieldNames.LowSide),
            Gauges.Read(record, entry, FieldNames.HighSide),
        }
            .OfType<AbsoluteReading>()
            .ToArray();
        if (sides.Length == 0)
            return null;
        var air = AirPressure.At(record, entry.ObservedAt);
        // Both sides say the same at rest; the better gauge counts more (weights 1/σ²).
        var weight = sides.Sum(side => 1 / (side.GaugeSigmaPa * side.GaugeSigmaPa));
        var pressurePa = sides.Sum(side => side.Pascals / (side.GaugeSigmaPa * side.GaugeSigmaPa)) / weight;
        var sigmaPa = Math.Sqrt((1 / weight) + (air.SigmaPa * air.SigmaPa));
        var apartPa = sides.Length == 2 ? Math.Abs(sides[0].Pascals - sides[1].Pascals) : 0;
        if (apartPa <= 3 * Math.Sqrt(sides.Sum(side => side.GaugeSigmaPa * side.GaugeSigmaPa)))
            apartPa = 0;
        sigmaPa = Math.Max(sigmaPa, apartPa / 2);
        var (temperatureK, temperatureSigmaK, onlyTheAir) = Coldest(entry, record.KitAt(entry.ObservedAt));
        return new(
            new(Math.Max(pressurePa, 100), sigmaPa, temperatureK, temperatureSigmaK),
            apartPa,
            apartPa == 0 && temperatureSigmaK <= SettledK,
            onlyTheAir,
            entry.Fields.Si(FieldNames.SinceEngineRan) is not null,
            air
        );
    }

    /// <summary>Liquid gathers in the coldest part and sets the pressure there; parts still warm from the engine
    /// only superheat the vapour. Spread between the spots and a short soak widen the belief.</summary>
    private static (double Kelvins, double SigmaKelvins, bool OnlyTheAir) Coldest(Entry entry, Kit kit)
    {
        string[] fields = [FieldNames.AmbientTemperature, FieldNames.CondenserTemperature, FieldNames.CabinTemperature];
        var read = fields.Select(field => entry.Fields.Si(field)).OfType<double>().ToArray();
        var coldest = read.Min();
        var spread = read.Length == 1 ? 1 : (read.Max() - coldest) / 4;
        var soak = entry.Fields.Si(FieldNames.SinceEngineRan) is { } seconds ? 6 * Math.Exp(-seconds / 3600) : 1;
        var thermometer = Evidence.TemperatureSigma(entry, FieldNames.AmbientTemperature, kit);
        return (coldest, Math.Sqrt((thermometer * thermometer) + (spread * spread) + (soak * soak)), read.Length == 1);
    }
}
