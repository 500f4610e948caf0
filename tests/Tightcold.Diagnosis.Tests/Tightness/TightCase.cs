using System.Collections.Immutable;
using Tightcold.Diagnosis.Leaks;
using Tightcold.Diagnosis.Tightness;
using Tightcold.LeakTests;
using Tightcold.Procedures.Hold;

namespace Tightcold.Diagnosis.Tests.Tightness;

/// <summary>Evidence in few words, for tests.</summary>
internal static class TightCase
{
    public const double Gram = LeakPrior.GramPerYear;
    public const double Bar = 1e5,
        Air = 101_325,
        Hour = 3600,
        Day = 86_400;

    public static readonly string[] Names =
    [
        "compressor shaft seal",
        "compressor body",
        "discharge hose",
        "discharge line joint",
        "condenser",
        "liquid line joint",
        "receiver-drier",
        "liquid line",
        "high-side service valve",
        "pressure switch",
        "expansion valve block",
        "evaporator",
        "suction hose",
        "suction line joint",
        "low-side service valve",
        "relief device",
    ];

    public static TightnessEvidence Car(ulong seed = 7) =>
        new(
            LeakSetting.Usual,
            CircuitSize.Usual,
            [.. Names.Select(name => new LeakSpot(name, LeakComponents.FromName(name), []))],
            new(0.55, 0.015, 0.30, seed)
        );

    public static TightnessEvidence With(
        this TightnessEvidence evidence,
        string spot,
        Func<LeakSpot, LeakSpot> change
    ) => evidence with { Spots = [.. evidence.Spots.Select(each => each.Name == spot ? change(each) : each)] };

    public static TightnessEvidence Mended(this TightnessEvidence evidence, string spot, double time) =>
        evidence.With(spot, each => each with { MendedAt = time, Found = true });

    public static LeakTest Test(
        LeakTestKind kind,
        LeakTestOutcome outcome,
        double time,
        double pressurePa = 665_400,
        double? seconds = 120
    ) => new(kind, outcome, pressurePa, seconds, 0, false, true, time);

    public static TightnessEvidence Checked(this TightnessEvidence evidence, string spot, LeakTest test) =>
        evidence.With(spot, each => each with { Tests = each.Tests.Add(test) });

    public static NitrogenTest Nitrogen(
        double time,
        double minutes,
        double startBar,
        double endBar,
        double? kelvins = 293.15,
        int count = 4
    ) =>
        new(
            [
                .. Enumerable
                    .Range(0, count)
                    .Select(i => new NitrogenReading(
                        i * minutes * 60 / (count - 1),
                        Air + Bar * (startBar + (endBar - startBar) * i / (count - 1)),
                        kelvins
                    )),
            ],
            time
        )
        {
            SecondsSinceFilled = 900,
        };

    /// <summary>A hold that rises straight by so many pascals.</summary>
    public static VacuumHold Hold(
        double time,
        double minutes,
        double risePa,
        double? kelvins = 293.15,
        int count = 7,
        double startPa = 60,
        double stepPa = 1.3,
        double scatterPa = 1.5
    ) =>
        new(
            [
                .. Enumerable
                    .Range(0, count)
                    .Select(i => new HoldReading(
                        i * minutes * 60 / (count - 1),
                        startPa + risePa * i / (count - 1),
                        stepPa,
                        scatterPa,
                        kelvins
                    )),
            ],
            time
        );

    public static VacuumHold DialHold(double time, double minutes) =>
        Hold(time, minutes, 0, startPa: 2000, stepPa: 1700, scatterPa: 350) with
        {
            OnDial = true,
        };

    public static WholeSearch Soap(double time, double gaugeBar = 10, params string[] notReached) =>
        new(
            Test(LeakTestKind.NitrogenAndSoap, LeakTestOutcome.Nothing, time, Air + gaugeBar * Bar, 60),
            [.. notReached]
        );

    public static WholeSearch Detector(double time, params string[] notReached) =>
        new(Test(LeakTestKind.Detector, LeakTestOutcome.Nothing, time, 665_400, 60), [.. notReached]);

    public static ImmutableArray<T> One<T>(T item) => [item];
}
