using System.Collections.Immutable;
using Tightcold.Diagnosis.Measurement;
using Tightcold.Diagnosis.Priors;
using Tightcold.Jobs.Entries;
using Tightcold.Jobs.Fields;
using Tightcold.Picture.Circuit;
using Tightcold.Quantities;

namespace Tightcold.Picture.Machine;

/// <summary>What was seen, felt, heard or tried on a car in one state of repair.</summary>
/// <param name="Signs">One of a group at most: who looked twice is taken at the last look.</param>
/// <param name="Entries">That tell of them.</param>
/// <param name="ToldTwice">One says what the story says already, and is counted once.</param>
public sealed record SeenSigns(ImmutableArray<Sign> Signs, ImmutableArray<Guid> Entries, Sign? ToldTwice)
{
    private static readonly ImmutableDictionary<string, Sign> ByWord = new Dictionary<string, Sign>
    {
        ["fan runs"] = Sign.FanRuns,
        ["fan runs slow or backwards"] = Sign.FanSlow,
        ["fan stands still"] = Sign.FanStopped,
        ["cools steadily"] = Sign.CoolsSteadily,
        ["cold, warm, cold again"] = Sign.ComesAndGoes,
        ["cold at first, warm after ten minutes"] = Sign.WarmAfterTenMinutes,
        ["cold on the road only"] = Sign.ColdOnTheRoadOnly,
        ["air from the vents strong"] = Sign.AirStrong,
        ["air from the vents weak"] = Sign.AirWeak,
        ["vents alike"] = Sign.VentsAlike,
        ["vents differ"] = Sign.VentsDiffer,
        ["vent the same with the heater hose pinched"] = Sign.HosePinchedSame,
        ["vent colder with the heater hose pinched"] = Sign.HosePinchedColder,
        ["thick pipe cold"] = Sign.LowPipeCold,
        ["thick pipe not cold"] = Sign.LowPipeNotCold,
        ["liquid line of one warmth"] = Sign.NoStepAlongLiquidLine,
        ["cold behind the drier"] = Sign.ColdBehindDrier,
        ["cold before the expansion device"] = Sign.ColdBeforeThrottle,
        ["needles steady"] = Sign.NeedlesSteady,
        ["low needle swings"] = Sign.LowNeedleSwings,
        ["both needles shake"] = Sign.NeedlesShake,
        ["both gauges draw together slowly"] = Sign.SidesDrawTogetherSlowly,
        ["high side falls fast, then slowly"] = Sign.HighFallsFastThenSlowly,
        ["both gauges equal at once"] = Sign.SidesEqualAtOnce,
        ["still warm after the rest"] = Sign.WarmStillAfterRest,
        ["cold again after the rest"] = Sign.ColdAgainAfterRest,
        ["belt right, hub turns"] = Sign.BeltRight,
        ["belt slips"] = Sign.BeltSlips,
        ["hub stands still"] = Sign.HubStands,
        ["voltage at the plug"] = Sign.VoltageAtClutch,
        ["no voltage at the plug"] = Sign.NoVoltageAtClutch,
        ["control valve commanded"] = Sign.ValveAskedFor,
        ["control valve not commanded"] = Sign.ValveNotAskedFor,
        ["sensor agrees with the gauge"] = Sign.SensorAgreesWithGauge,
        ["sensor is off the gauge"] = Sign.SensorOffTheGauge,
        ["foam at lower revs"] = Sign.FoamAtLowerRevs,
        ["no foam at lower revs"] = Sign.NoFoamAtLowerRevs,
        ["condenser clean outside"] = Sign.CondenserClean,
        ["condenser dirty outside"] = Sign.CondenserDirty,
        ["engine temperature right"] = Sign.EngineTemperatureRight,
        ["engine too hot"] = Sign.EngineTooHot,
        ["no hot air at the inlet"] = Sign.NoHotAirAtInlet,
        ["hot air at the inlet"] = Sign.HotAirAtInlet,
        ["oil clean"] = Sign.OilClean,
        ["oil black"] = Sign.OilBlack,
        ["metal in the oil"] = Sign.MetalInOil,
    }.ToImmutableDictionary(StringComparer.Ordinal);

    private static readonly ImmutableDictionary<Sign, string> ByKey = ByWord.ToImmutableDictionary(
        pair => pair.Value,
        pair => pair.Key
    );

    /// <summary>The sign that an observation of the journal is.</summary>
    public static Sign Read(string observation) => ByWord[observation];

    /// <summary>The observation of the journal that a sign is.</summary>
    public static string Word(Sign sign) => ByKey[sign];

    /// <summary>The same for a person to read.</summary>
    public static Phrase Says(Sign sign) =>
        EntryKinds.Get(EntryKinds.Sign).Find(FieldNames.Observation)!.Says(Word(sign));

    /// <summary>What was looked at.</summary>
    public static string Group(Sign sign) => SignWords.GroupOf(Word(sign))!.Name;

    /// <summary>Those of a stretch of the timeline. On the way from the readings to the opened circuit nothing is
    /// mended yet: metal in the oil that runs out is of the car that was read.</summary>
    internal static SeenSigns Of(Timeline timeline, int epoch, ReadingReason why)
    {
        var looks = new List<Entry>();
        var past = false;
        foreach (var moment in timeline.Moments)
        {
            past |= moment.After.Epoch == epoch;
            if (!past)
                continue;
            if (
                moment.After.Epoch > epoch
                && moment.After.Epoch != moment.Before.Epoch
                && moment.Entry.Kind is not (EntryKinds.Recovery or EntryKinds.Opened)
            )
                break;
            if (moment.Entry.Kind == EntryKinds.Sign)
                looks.Add(moment.Entry);
        }

        var last = looks
            .GroupBy(entry => SignWords.GroupOf(entry.Fields.Text(FieldNames.Observation)))
            .Select(group => group.Last())
            .Select(entry => (Sign: Read(entry.Fields.Text(FieldNames.Observation)!), entry.Id))
            .OrderBy(one => one.Sign)
            .ToArray();
        var twice = last.Select(one => (Sign?)one.Sign).FirstOrDefault(sign => SaysTheStory(sign!.Value, why));
        var counted = last.Where(one => one.Sign != twice).ToArray();
        return new([.. counted.Select(one => one.Sign)], [.. counted.Select(one => one.Id)], twice);
    }

    /// <summary>The driver's own words twice are no second witness.</summary>
    private static bool SaysTheStory(Sign sign, ReadingReason why) =>
        (sign, why)
            is
                (Sign.ColdOnTheRoadOnly, ReadingReason.WarmAtIdle)
                or
                (Sign.WarmAfterTenMinutes, ReadingReason.WarmAfterTenMinutes);
}
