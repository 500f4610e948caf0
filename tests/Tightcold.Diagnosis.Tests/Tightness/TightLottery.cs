using Tightcold.Diagnosis.Leaks;
using Tightcold.Diagnosis.Tightness;
using Tightcold.LeakTests;
using Tightcold.Numerics.Sampling;
using Tightcold.Procedures.Hold;
using static Tightcold.Diagnosis.Tests.Tightness.TightCase;

namespace Tightcold.Diagnosis.Tests.Tightness;

/// <summary>Evidence as it may come: what was found, mended, searched, held and weighed in any mixture. For laws, not
/// for odds.</summary>
internal static class TightLottery
{
    private static readonly LeakTestKind[] Kinds =
    [
        LeakTestKind.Detector,
        LeakTestKind.UvLamp,
        LeakTestKind.Soap,
        LeakTestKind.NitrogenAndSoap,
        LeakTestKind.OilTrace,
    ];

    public static TightnessEvidence Draw(ulong seed)
    {
        var chance = new SeededChance(seed * 7919 + 3);
        var evidence = Car(seed) with { Came = (WhyItCame)chance.Below(3) };
        if (chance.Chance(0.6))
            evidence = Repaired(evidence, chance);
        foreach (var name in Names)
            while (chance.Chance(0.35))
                evidence = evidence.Checked(name, Check(chance, chance.Between(-5000, 60_000)));
        if (chance.Chance(0.3))
            evidence = evidence with
            {
                Searches = [Soap(chance.Between(20_000, 50_000), chance.Between(2, 12), "evaporator")],
            };
        if (chance.Chance(0.5))
            evidence = evidence with { Holds = [Held(chance, chance.Between(15_000, 40_000))] };
        if (chance.Chance(0.4))
            evidence = evidence with { Nitrogen = [Pressed(chance, chance.Between(15_000, 40_000))] };
        if (chance.Chance(0.4))
            evidence = evidence with { Losses = [Lost(chance)] };
        return evidence;
    }

    private static TightnessEvidence Repaired(TightnessEvidence evidence, SeededChance chance)
    {
        var spot = Names[chance.Below(Names.Length)];
        evidence = evidence.Checked(spot, Test(LeakTestKind.Detector, LeakTestOutcome.Clear, 0)).Mended(spot, 10_000);
        return chance.Chance(0.7)
            ? evidence with
            {
                Openings = [new(10_000, chance.Between(600, 9000), 1 + chance.Below(4))],
            }
            : evidence;
    }

    private static LeakTest Check(SeededChance chance, double time) =>
        Test(
            Kinds[chance.Below(Kinds.Length)],
            chance.Chance(0.85) ? LeakTestOutcome.Nothing
                : chance.Chance(0.7) ? LeakTestOutcome.Trace
                : LeakTestOutcome.Clear,
            time,
            chance.Between(2e5, 12e5),
            chance.Chance(0.3) ? null : chance.Between(5, 300)
        );

    public static VacuumHold Held(SeededChance chance, double time)
    {
        var span = chance.LogBetween(120, 20_000);
        var count = 3 + chance.Below(8);
        var (step, scatter, start) = chance.Below(3) switch
        {
            0 => (1.3, 1.5, 60.0),
            1 => (13.0, 4.0, 120.0),
            _ => (1700.0, 350.0, 2500.0),
        };
        var rise = chance.Chance(0.5) ? 0 : chance.LogBetween(1, 3000);
        var kelvins = chance.Between(280, 305);
        var drift = 1.5 * chance.Normal();
        return new(
            [
                .. Enumerable
                    .Range(0, count)
                    .Select(i =>
                    {
                        var share = i / (count - 1.0);
                        var pressure = start + rise * share + 0.5 * scatter * chance.Normal();
                        return new HoldReading(
                            share * span,
                            Math.Max(0, Math.Round(pressure / step) * step),
                            step,
                            scatter,
                            kelvins + drift * share
                        );
                    }),
            ],
            time
        )
        {
            OnDial = step > 1000,
        };
    }

    public static NitrogenTest Pressed(SeededChance chance, double time)
    {
        var span = chance.LogBetween(60, 90_000);
        var count = 2 + chance.Below(6);
        var start = Air + Bar * chance.Between(1, 16);
        var fall = chance.Chance(0.6) ? 0 : chance.LogBetween(500, 3e5);
        var kelvins = chance.Between(280, 305);
        var drift = 1.5 * chance.Normal();
        return new(
            [
                .. Enumerable
                    .Range(0, count)
                    .Select(i =>
                    {
                        var share = i / (count - 1.0);
                        var now = kelvins + drift * share;
                        var pressure =
                            (start - Math.Min(fall, 0.5 * (start - Air)) * share)
                            * (now + 0.5 * chance.Normal())
                            / kelvins;
                        return new NitrogenReading(share * span, Math.Round(pressure / 2000) * 2000, now);
                    }),
            ],
            time
        )
        {
            StepPa = 2000,
            ScatterPa = 1500,
            SecondsSinceFilled = chance.Chance(0.5) ? 1200 : 0,
        };
    }

    private static MassLoss Lost(SeededChance chance) =>
        new(
            -1000,
            chance.LogBetween(0.2, 5) * LeakForecast.Year,
            chance.Chance(0.5) ? 0 : 0.8,
            chance.Between(0.02, 0.5),
            0.03,
            0.7
        );
}
