using Tightcold.Numerics.Sampling;
using Tightcold.SecondWorld.Leaks;

namespace Tightcold.SecondWorld.Nitrogen;

/// <summary>
/// A nitrogen test: filling warms the gas, the parts cool it in a minute or two, the parts follow the day, the
/// thermometer sits on one of them; oil takes up nitrogen; circuit and hoses leak; the gauge has gain, zero, step and a
/// body that warms.
/// </summary>
public static class NitrogenWorld
{
    private const double Gas = 8.314462618;
    private const double StepS = 2;

    /// <param name="seed">The same seed gives the same case.</param>
    public static NitrogenCase Draw(ulong seed)
    {
        var chance = new SeededChance(seed * 5003 + 11);
        var circuit = 2.6e-3 * Math.Exp(0.25 * chance.Normal());
        var hose = chance.Between(0.1e-3, 0.3e-3);
        var volume = circuit + hose;
        var dayC = chance.Between(8, 34);
        // Half the cars came in warm and still cool; the rest follow the day.
        var warm = chance.Chance(0.4) ? chance.Between(2, 14) : 0;
        var coolS = chance.Between(1500, 5000);
        var drift = 1.2 * chance.Normal() / 3600;
        var leaks = new List<Leak> { LeakMaker.Of(chance, LeakMaker.Seep(chance)) };
        if (chance.Chance(0.45))
            leaks.Add(LeakMaker.Of(chance, LeakMaker.Rate(chance)));
        // Half of those that stood empty have a hole: it is what a nitrogen test is for.
        if (chance.Chance(0.12))
            leaks.Add(new(15000 * Math.Exp(chance.Normal()), LeakKind.Orifice));
        // A gross leak is heard while filling, and the test is not begun.
        while (leaks.Sum(one => one.GramPerYear) > 150000)
            leaks.RemoveAt(leaks.Count - 1);
        var hoses = new List<Leak> { new(10 * Math.Exp(1.1 * chance.Normal()), LeakKind.Laminar) };
        var fillPa = chance.Between(4e5, 15e5) + Leak.AirPa;
        var oilM3 = 0.14e-3 * Math.Exp(0.2 * chance.Normal());
        // Ostwald share of nitrogen in oil, some 0.07 to 0.12 by volume.
        var ostwald = chance.Between(0.06, 0.12);
        var oilS = 60 * chance.Between(10, 90);
        var oilTaken = ostwald * chance.Between(0, 0.15);

        var fine = chance.Chance(0.4);
        var step =
            fine ? 0.01e5
            : chance.Chance(0.5) ? 0.05e5
            : 0.2e5;
        var gain = 1 + (fine ? 0.006 : 0.02) * chance.Normal();
        var zero = (fine ? 0.01e5 : 0.08e5) * chance.Normal();
        var gaugePerK = (fine ? 0.0004 : 0.0008) * chance.Normal();
        var bodyK = 2 * chance.Normal();
        var bodyS = chance.Between(600, 2400);
        var thermometerK = 0.8 * chance.Normal();
        // The thermometer lies between part and air.
        var touching = chance.Between(0.4, 0.95);

        double PartC(double s) => dayC + warm * Math.Exp(-s / coolS) + drift * s;
        var gasC = PartC(0) + chance.Between(6, 25) * (fillPa / 10e5);
        var gasS = chance.Between(50, 160);
        var mol = fillPa * volume / (Gas * (gasC + 273.15));
        var taken = oilTaken * fillPa * oilM3 / (Gas * (gasC + 273.15));
        double lost = 0,
            seconds = 0;
        var first = chance.Chance(0.35) ? chance.Between(0.5, 3) : chance.Between(5, 18);
        var length = chance.Between(15, 60);
        var count = chance.Chance(0.5) ? 2 : 2 + chance.Below(5);
        var reads = new List<NitrogenRead>();
        for (var i = 0; i < count; i++)
        {
            var minute = first + length * i / (count - 1);
            while (seconds < minute * 60)
            {
                seconds += StepS;
                gasC += (PartC(seconds) - gasC) * (1 - Math.Exp(-StepS / gasS));
                var now = mol * Gas * (gasC + 273.15) / volume;
                var wanted = ostwald * now * oilM3 / (Gas * (gasC + 273.15));
                var up = (wanted - taken) * (1 - Math.Exp(-StepS / oilS));
                taken += up;
                mol -= up;
                var flow =
                    leaks.Sum(one => one.Flow(GasKind.Nitrogen, now, Leak.AirPa, false))
                    + hoses.Sum(one => one.Flow(GasKind.Nitrogen, now, Leak.AirPa, false));
                var gone = flow * StepS / (Gas * 298.15);
                mol -= gone;
                lost += gone;
            }
            var gauge = mol * Gas * (gasC + 273.15) / volume - Leak.AirPa;
            var body = bodyK * (1 - Math.Exp(-seconds / bodyS));
            var shown = gauge * gain * (1 + gaugePerK * body) + zero + 0.15 * step * chance.Normal();
            var part = touching * PartC(seconds) + (1 - touching) * (dayC + drift * seconds);
            reads.Add(
                new(minute, Math.Round(shown / step) * step, Math.Round(part + thermometerK + 0.2 * chance.Normal(), 1))
            );
        }
        return new()
        {
            Seed = seed,
            VolumeM3 = circuit,
            HoseVolumeM3 = hose,
            CircuitGramPerYear = leaks.Sum(one => one.GramPerYear),
            HoseGramPerYear = hoses.Sum(one => one.GramPerYear),
            LeakFallPa = lost * Gas * 298.15 / volume,
            StepPa = step,
            DayC = dayC,
            Reads = reads,
        };
    }
}
