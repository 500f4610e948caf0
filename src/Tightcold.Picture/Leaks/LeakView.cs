using System.Collections.Immutable;
using Tightcold.Diagnosis.Leaks;
using Tightcold.Diagnosis.Tightness;
using Tightcold.Jobs.Cars;
using Tightcold.Jobs.Fields;
using Tightcold.Jobs.Journals;
using Tightcold.Jobs.Kits;
using Tightcold.LeakTests;
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
    /// <param name="before">The belief of a moment ago; what still says the same is not weighed again.</param>
    public static LeakView Of(JobPicture picture, TightnessEffort effort, TightnessBelief? before = null)
    {
        ArgumentNullException.ThrowIfNull(picture);
        var record = picture.Record;
        var losses = LeakLosses.Of(picture);
        var states = SpotState.All(record);
        var label = record.Car.LabelCharge?.Kilograms ?? 0.55;
        var charge = picture.Mass is { SystemKnown: true, DrawnKg: > 0 } balance ? balance.SystemKg : label;
        var suffering = label * LeakForecast.SufferingShare(record.Car.Device == Car.OrificeTube);
        var belief = TightnessInference.Of(TightEvidence.Of(picture, states, charge, suffering, effort), before);
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

    /// <summary>What this kit allows, under the conditions of now.</summary>
    internal static LeakTest[] Means(JobRecord record)
    {
        var pressure = record.Journal.Standing is [.., var last] ? Look.LastRead(record, last.ObservedAt) : null;
        return
        [
            .. Owned(record.Kit)
                .Where(kind => !kind.Goes(Feels.Dye) || record.Car.Dyed != false)
                .Select(kind => new LeakTest(
                    kind,
                    LeakTestOutcome.Nothing,
                    kind.Goes(Feels.Nitrogen) ? NitrogenPa : pressure,
                    kind.UsualSeconds,
                    0,
                    false,
                    record.Car.Dyed,
                    double.MaxValue
                )),
        ];
    }

    private const double NitrogenPa = 1.0e6 + 101_325;

    /// <summary>Tests that a kit can do; a detector and soap where it does not say.</summary>
    public static IEnumerable<LeakTestKind> Owned(Kit? kit)
    {
        var words = kit?.Fields.Text(FieldNames.LeakTests) ?? "detector, soap";
        return LeakTestKind.All.Where(kind => OwnedTests.Have(words, kind.Needs));
    }

    /// <summary>The circuit's spots in order, each with its belief.</summary>
    public IEnumerable<SpotTightness> OnTheMap => Belief.Spots.Where(spot => spot.Spot.Name != LeakSpot.Elsewhere);
}
