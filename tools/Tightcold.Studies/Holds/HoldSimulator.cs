using Tightcold.Numerics.Sampling;
using Tightcold.Procedures.Hold;

namespace Tightcold.Studies.Holds;

/// <summary>Invents holds with a known truth, to see whether the odds mean what they say.</summary>
public static class HoldSimulator
{
    /// <summary>One invented hold.</summary>
    public sealed record Hold(
        HoldExplanation Truth,
        double ThroughputPaM3PerS,
        HoldReading[] Readings,
        HoldSetting Setting
    );

    /// <summary>The gauges that people own: an absolute gauge in fine steps, a coarser one, a dial.</summary>
    private static readonly (double StepPa, double ScatterShare, double LeastScatterPa, double StartPa)[] Gauges =
    [
        (1.3, 0.02, 0.5, 60),
        (13, 0.02, 2, 120),
        (1700, 0.0, 350, 2500),
    ];

    /// <summary>Draws truth and parameters from the prior, times and gauge as people hold: 4 to 9 readings over 15 to
    /// 60 minutes, temperatures drifting by a few kelvins.</summary>
    public static Hold Draw(ulong seed)
    {
        var chance = new SeededChance(seed);
        var pick = chance.Uniform();
        var h = 0;
        while (h < HoldPrior.Odds.Length - 1 && (pick -= HoldPrior.Odds[h]) > 0)
            h++;
        return Draw((HoldExplanation)h, chance, seed);
    }

    public static Hold Draw(HoldExplanation truth, ulong seed) => Draw(truth, new SeededChance(seed), seed);

    private static Hold Draw(HoldExplanation truth, SeededChance chance, ulong seed)
    {
        var gauge = Gauges[
            chance.Uniform() is var u && u < 0.5 ? 0
            : u < 0.8 ? 1
            : 2
        ];
        var count = 4 + chance.Below(6);
        var span = chance.Between(900, 3600);
        var startK = chance.Between(281, 308);
        var drift = 2.5 * chance.Normal();
        var start = gauge.StartPa * chance.Between(0.5, 1.5);
        var blank = new HoldReading[count];
        for (var i = 0; i < count; i++)
        {
            var share = i / (count - 1.0);
            blank[i] = new(
                share * span,
                start,
                gauge.StepPa,
                Math.Max(gauge.LeastScatterPa, gauge.ScatterShare * start),
                startK + drift * share
            );
        }
        var setting = new HoldSetting(chance.Between(1.8e-3, 3.5e-3), 0.1e-3, 98_000, startK, seed);
        return Read(truth, blank, setting, chance, gauge.LeastScatterPa, gauge.ScatterShare);
    }

    /// <summary>Plays parameters of this explanation drawn from their prior, then reads the gauge.</summary>
    private static Hold Read(
        HoldExplanation truth,
        HoldReading[] blank,
        HoldSetting setting,
        SeededChance chance,
        double leastScatterPa,
        double scatterShare
    )
    {
        var model = new HoldModel(truth, new HoldCurve(blank, setting), new HoldLikelihood(blank), null, null);
        var at = new double[model.Dimensions];
        for (var k = 0; k < at.Length; k++)
            at[k] = chance.Normal();
        return new(truth, model.Throughput(at), Read(model, at, blank, chance, leastScatterPa, scatterShare), setting);
    }

    private static HoldReading[] Read(
        HoldModel model,
        double[] at,
        HoldReading[] blank,
        SeededChance chance,
        double leastScatterPa,
        double scatterShare
    )
    {
        double[] factor = new double[blank.Length],
            rise = new double[blank.Length];
        model.Expect(at, factor, rise);
        var start = blank[0].PressurePa;
        var read = new HoldReading[blank.Length];
        for (var i = 0; i < read.Length; i++)
        {
            var pressure = start * factor[i] + rise[i];
            var scatter = Math.Max(leastScatterPa, scatterShare * pressure);
            var shown = Math.Max(
                0,
                Math.Round((pressure + scatter * chance.Normal()) / blank[i].StepPa) * blank[i].StepPa
            );
            read[i] = blank[i] with { PressurePa = shown, ScatterPa = Math.Max(leastScatterPa, scatterShare * shown) };
        }
        return read;
    }

    /// <summary>A leak of a given size and nothing else, at given moments on a given gauge.</summary>
    public static HoldReading[] Leak(double throughputPaM3PerS, HoldReading[] like, HoldSetting setting, ulong seed)
    {
        var chance = new SeededChance(seed);
        var curve = new HoldCurve(like, setting);
        double[] factor = new double[like.Length],
            rise = new double[like.Length];
        curve.Still(factor, rise);
        curve.Leak(rise, throughputPaM3PerS, setting.VolumeM3);
        var offset = like[0].StepPa * chance.Uniform();
        var read = new HoldReading[like.Length];
        for (var i = 0; i < read.Length; i++)
        {
            var pressure = (like[0].PressurePa + offset) * factor[i] + rise[i] + like[i].ScatterPa * chance.Normal();
            read[i] = like[i] with { PressurePa = Math.Max(0, Math.Round(pressure / like[i].StepPa) * like[i].StepPa) };
        }
        return read;
    }
}
