using System.Collections.Immutable;
using Tightcold.Diagnosis.Leaks;
using Tightcold.Diagnosis.Tightness;
using Tightcold.Jobs.Cars;
using Tightcold.Jobs.Fields;
using Tightcold.Jobs.Journals;
using Tightcold.Picture.Vacuum;
using static Tightcold.Picture.Pressures.Evidence;

namespace Tightcold.Picture.Leaks;

/// <summary>A job's leaks as numbers: odds and rate of each spot, of the whole car, what to check next, and how long
/// the charge will last.</summary>
/// <param name="States">Each spot by what was written down of it.</param>
/// <param name="Belief">The one belief about leaks.</param>
/// <param name="SufferingKg">Below this charge cooling suffers.</param>
public sealed record LeakView(
    ImmutableArray<SpotState> States,
    TightnessBelief Belief,
    LeakForecast Forecast,
    LeakLosses Losses,
    double ChargeKg,
    double SufferingKg,
    DateTimeOffset AsOf
)
{
    public static LeakView Of(JobPicture picture, TightnessEffort effort)
    {
        ArgumentNullException.ThrowIfNull(picture);
        var record = picture.Record;
        var losses = LeakLosses.Of(picture);
        var states = SpotState.All(record);
        var label = record.Car.LabelCharge?.Kilograms ?? 0.55;
        var charge = picture.Mass is { SystemKnown: true, DrawnKg: > 0 } balance ? balance.SystemKg : label;
        var suffering = label * LeakForecast.SufferingShare(record.Car.Device == Car.OrificeTube);
        var belief = TightnessInference.Of(TightEvidence.Of(picture, states, charge, suffering, effort));
        var asOf = record.Journal.Standing.Length > 0 ? record.Journal.Standing[^1].ObservedAt : record.Job.OpenedAt;
        return new(
            states,
            belief,
            LeakForecast.Of(belief.NowSamples, Math.Max(charge, suffering), suffering),
            losses,
            charge,
            suffering,
            asOf
        );
    }

    /// <summary>Checks that this kit allows, those that find most a minute first.</summary>
    public ImmutableArray<SearchCheck> Checks { get; } = SearchCheck.Rank(Belief, MostChecks);

    private const int MostChecks = 6;

    /// <summary>When to look again: one such car in ten cools badly by then.</summary>
    public DateTimeOffset NextCheckAt => AsOf.AddSeconds(Forecast.NextCheckSeconds);

    public static LeakSetting Setting(JobRecord record)
    {
        var fluid = FluidOf(record.Car);
        return LeakSetting.Usual with
        {
            RestPressurePa = fluid.SaturationAtTemperature(HoldView.ReferenceSystemK).PressurePa,
            MolarMassKgPerMol = fluid.MolarMassKgPerMol,
        };
    }

    /// <summary>The word by which an entry names a test.</summary>
    public static string EntryWordOf(LeakTestKind kind) =>
        kind switch
        {
            LeakTestKind.CoverAndWait => "cover and wait",
            LeakTestKind.OilTrace => "oil trace",
            LeakTestKind.DrainSniff => "drain sniff",
            _ => NameOf(kind),
        };

    public static string NameOf(LeakTestKind kind) =>
        kind switch
        {
            LeakTestKind.UvLamp => "UV lamp",
            LeakTestKind.Soap => "soap bubbles",
            LeakTestKind.CoverAndWait => "cover and wait, then detector",
            LeakTestKind.NitrogenAndSoap => "nitrogen and soap",
            LeakTestKind.OilTrace => "look for oil",
            LeakTestKind.DrainSniff => "detector at the drain",
            LeakTestKind.DrainDye => "dye at the drain",
            _ => "electronic detector",
        };

    /// <summary>What this kit allows, under the conditions of now.</summary>
    internal static LeakTest[] Means(JobRecord record)
    {
        var owned = record.Kit.Fields.Text(FieldNames.LeakTests) ?? "detector, soap";
        bool Has(string word) => owned.Contains(word, StringComparison.OrdinalIgnoreCase);
        var pressure = record.Journal.Standing is [.., var last] ? Look.LastRead(record, last.ObservedAt) : null;
        LeakTest Like(LeakTestKind kind, double? pressurePa, double seconds) =>
            new(kind, LeakTestOutcome.Nothing, pressurePa, seconds, 0, false, record.Car.Dyed, double.MaxValue);
        var means = new List<LeakTest> { Like(LeakTestKind.OilTrace, pressure, 60) };
        if (Has("UV") && record.Car.Dyed != false)
            means.AddRange([Like(LeakTestKind.UvLamp, pressure, 120), Like(LeakTestKind.DrainDye, pressure, 120)]);
        if (Has("detector"))
            means.AddRange([
                Like(LeakTestKind.Detector, pressure, 120),
                Like(LeakTestKind.CoverAndWait, pressure, 600),
                Like(LeakTestKind.DrainSniff, pressure, 480),
            ]);
        if (Has("soap"))
            means.Add(Like(LeakTestKind.Soap, pressure, 120));
        if (Has("nitrogen"))
            means.Add(Like(LeakTestKind.NitrogenAndSoap, 1.0e6 + 101_325, 120));
        return [.. means];
    }

    /// <summary>The circuit's spots in order, each with its belief.</summary>
    public IEnumerable<SpotTightness> OnTheMap => Belief.Spots.Where(spot => spot.Spot.Name != LeakSpot.Elsewhere);
}
