using System.Collections.Immutable;
using Tightcold.Jobs.Fields;
using Tightcold.Picture.Pressures;
using Tightcold.Procedures.Hold;
using Tightcold.Procedures.Vacuum;
using static Tightcold.Picture.Pressures.Evidence;

namespace Tightcold.Picture.Vacuum;

/// <summary>A job's hold as numbers: the readings, what explains them, and what the same hole would lose as
/// refrigerant. Screens draw it, the finding speaks of it.</summary>
public sealed record HoldView(
    ImmutableArray<HoldReading> Readings,
    ImmutableArray<Guid> Entries,
    HoldSetting Setting,
    HoldOdds Odds,
    bool OnDial,
    double PartTemperatureK,
    double SystemPa,
    double LeastPerAir,
    double MostPerAir
)
{
    /// <summary>The pressure at rest with liquid inside, at this temperature, is where leak rates are
    /// compared.</summary>
    internal const double ReferenceSystemK = 298.15;

    /// <summary>The last hold of the job; null without two readings apart in time.</summary>
    /// <param name="before">Of a moment ago; while the readings are the same it is not weighed again.</param>
    public static HoldView? Of(JobPicture picture, HoldView? before = null)
    {
        ArgumentNullException.ThrowIfNull(picture);
        var record = picture.Record;
        var all = VacuumReadings.SincePumpStart(picture);
        var lastOpen = Array.FindLastIndex(all, row => !row.Isolated);
        var rows = all.Skip(lastOpen + 1).Where(row => row is { Isolated: true, HosesAlone: false }).ToArray();
        if (rows.Length < 2 || !(rows[^1].Reading.SecondsSinceStart > rows[0].Reading.SecondsSinceStart))
            return null;
        // A change of gauge inside a hold would be taken for a rise: keep the finer gauge's readings.
        if (rows.Any(row => row.OnDial) && rows.Count(row => !row.OnDial) >= 2)
            rows = [.. rows.Where(row => !row.OnDial)];
        if (!(rows[^1].Reading.SecondsSinceStart > rows[0].Reading.SecondsSinceStart))
            return null;
        var hoses = all.Where(row => row is { Isolated: true, HosesAlone: true }).ToArray();
        var ambientK = record.WeatherAt(rows[0].Entry.ObservedAt)?.Fields.Si(FieldNames.AmbientTemperature)
            ?? ReferenceSystemK;
        var kit = record.KitAt(rows[0].Entry.ObservedAt);
        var fluid = FluidOf(record.Car);
        var setting = new HoldSetting(
            VolumeOf(record.Car).M3 + 2 * kit.HoseVolumeM3,
            2 * kit.HoseVolumeM3,
            AirPressure.At(record, rows[0].Entry.ObservedAt).Pascals,
            ambientK,
            (ulong)(uint)record.Job.Seed
        );
        var readings = rows.Select(row => row.Held).ToImmutableArray();
        ImmutableArray<HoldReading> alone = hoses.Length >= 2 ? [.. hoses.Select(row => row.Held)] : [];
        var odds =
            before is not null
            && before.Setting == setting
            && before.Readings.SequenceEqual(readings)
            && before.HosesAlone.SequenceEqual(alone)
                ? before.Odds
                : HoldInference.Of(readings.AsSpan(), setting, alone.AsSpan());
        var systemPa = fluid.SaturationAtTemperature(ReferenceSystemK).PressurePa;
        var (least, most) = LeakEquivalent.RefrigerantPerAir(fluid.MolarMassKgPerMol, systemPa, setting.BarometerPa);
        return new(
            readings,
            [.. rows.Select(row => row.Entry.Id)],
            setting,
            odds,
            rows.Any(row => row.OnDial),
            readings.Min(reading => reading.TemperatureK) ?? ambientK,
            systemPa,
            least,
            most
        )
        {
            HosesAlone = alone,
        };
    }

    /// <summary>Readings of hoses and gauge set alone; empty without two.</summary>
    private ImmutableArray<HoldReading> HosesAlone { get; init; } = [];

    /// <summary>The leak that stays unseen, as air: the floor, or what gas from the oil and changing heat could
    /// hide.</summary>
    public double UnseenPaM3PerS =>
        Odds.AnyLeak >= 0.05 ? Math.Max(Odds.FloorPaM3PerS, Odds.LeakHighPaM3PerS) : Odds.FloorPaM3PerS;

    /// <summary>Gas in oil and on walls shrinks by about this share for each kelvin that the parts cool; assumed, as in
    /// <see cref="HoldPrior"/>.</summary>
    private const double ShrinksPerK = 0.05;

    /// <summary>Fall of the parts' temperature over the hold, K; 0 when they warmed or no temperature was
    /// taken.</summary>
    public double CooledK =>
        Odds.TemperatureKnown ? Math.Max(0, Readings[0].TemperatureK!.Value - Readings[^1].TemperatureK!.Value) : 0;

    /// <summary>Air inflow that the cooling could have hidden, Pa·m³/s.</summary>
    public double HiddenByCoolingPaM3PerS =>
        Readings[0].PressurePa * (1 - Math.Exp(-ShrinksPerK * CooledK)) * Setting.VolumeM3 / SpanSeconds;

    public double SpanSeconds => Readings[^1].SecondsSinceStart - Readings[0].SecondsSinceStart;

    /// <summary>Refrigerant that a hole with this air inflow loses at rest, between the two laws of flow,
    /// kg/s.</summary>
    public (double LeastKgPerS, double MostKgPerS) AsRefrigerant(double throughputPaM3PerS)
    {
        var air = LeakEquivalent.AirKgPerS(throughputPaM3PerS, PartTemperatureK);
        return (air * LeastPerAir, air * MostPerAir);
    }

    /// <summary>How long a hold like this one must last for a leak of this rate at rest.</summary>
    public HoldPlan PlanFor(double refrigerantKgPerS) =>
        HoldPlan.For(
            refrigerantKgPerS,
            Odds.FloorPaM3PerS,
            SpanSeconds,
            Setting.VolumeM3,
            PartTemperatureK,
            (LeastPerAir, MostPerAir)
        );
}
