using System.Diagnostics;
using Tightcold.Numerics.Sampling;

namespace Tightcold.SecondWorld.Cars;

/// <summary>Prints where sound cars lie, to be held against published charts.</summary>
public static class Levels
{
    private const double BarPa = 1e5;

    public static void Print()
    {
        var clock = Stopwatch.StartNew();
        foreach (var (label, setup) in Setups())
        {
            var lows = new List<double>();
            var highs = new List<double>();
            var vents = new List<double>();
            var superheats = new List<double>();
            var subcools = new List<double>();
            var discharges = new List<double>();
            var levels = new List<double>();
            var unsolved = 0;
            for (var i = 0; i < 40; i++)
            {
                var car = CarMaker.Draw(new SeededChance((ulong)(1000 + i)));
                var state = new Circuit(car, new Condition(), setup).Work();
                if (!state.Solved)
                    unsolved++;
                lows.Add((state.SuctionPa - setup.AirPressurePa) / BarPa);
                highs.Add(
                    ((car.HighPortOnLiquidLine ? state.LiquidPa : state.DischargePa) - setup.AirPressurePa) / BarPa
                );
                vents.Add(state.VentC);
                discharges.Add(state.DischargeC);
                levels.Add(state.StoreLevel);
                subcools.Add(state.CondenserOutC);
                superheats.Add(state.EvaporatorOutC - state.EvaporatorInC);
            }
            Console.WriteLine(
                $"{label, -24} low {Band(lows)} high {Band(highs)} vent {Band(vents)} "
                    + $"superheat {Band(superheats)} "
                    + $"out {Band(subcools)} discharge {Band(discharges)} level {Band(levels)} unsolved {unsolved}"
            );
        }
        Console.WriteLine($"{clock.Elapsed.TotalSeconds:F1} s");
        Console.WriteLine(
            string.Join(
                ' ',
                Enumerable.Range(0, 40).Select(i => CarMaker.Draw(new SeededChance((ulong)(1000 + i))).LabelKg)
            )
        );
    }

    /// <summary>One line a fault and severity, on a few cars: is it what a mechanic would expect?</summary>
    public static void Faults()
    {
        var clock = Stopwatch.StartNew();
        var count = 0;
        foreach (var kind in Enum.GetValues<FaultKind>().Cast<FaultKind?>().Prepend(null))
        {
            var unsolved = 0;
            for (ulong seed = 2000; seed < 2012; seed++)
            {
                var chance = new SeededChance(seed);
                var car = CarMaker.Draw(chance);
                while (kind is { } wanted && !Fault.Fits(wanted, car))
                    car = CarMaker.Draw(chance);
                foreach (var severity in new[] { 0, 0.5, 1 })
                {
                    count++;
                    var condition = kind is { } one
                        ? new Fault(one, severity).Upon(new Condition(), car)
                        : new Condition();
                    var idle = Runner.Run(
                        car,
                        condition,
                        new()
                        {
                            AmbientC = 30,
                            Humidity = 0.5,
                            EngineRpm = 800,
                        }
                    );
                    var fast = Runner.Run(
                        car,
                        condition,
                        new()
                        {
                            AmbientC = 30,
                            Humidity = 0.5,
                            EngineRpm = 1500,
                        }
                    );
                    if (!idle.Trusted || !fast.Trusted)
                        unsolved++;
                    if (seed < 2003)
                    {
                        Console.WriteLine(
                            $"{kind, -22} {severity:F1} {car.Device} {car.Control} " + $"{One(idle)} | {One(fast)}"
                        );
                    }
                }
            }
            Console.WriteLine($"{kind} unsolved {unsolved} of 36");
        }
        Console.WriteLine($"{clock.Elapsed.TotalMilliseconds / count / 2:F0} ms a point");
    }

    /// <summary>Drawn cases, one a line: what was read, and whether anybody could see it.</summary>
    public static void Cases(int count)
    {
        var clock = Stopwatch.StartNew();
        for (ulong seed = 1; seed <= (ulong)count; seed++)
        {
            var one = CaseMaker.Draw(seed, 1.0 / 3, 0.1);
            var fault = string.Join('+', one.Faults.Select(fault => $"{fault.Kind} {fault.Severity:F2}"));
            var point = one.Points[0];
            Console.WriteLine(
                $"{fault, -30} {(one.Gross ? "gross" : one.Seen ? "seen" : ""), -6} "
                    + $"{one.Car.Device} {one.Car.Control} {point.AmbientC:F0} C stand {one.StandingPa / BarPa:F2} "
                    + $"low {point.LowMinPa / BarPa:F2}-{point.LowMaxPa / BarPa:F2} "
                    + $"high {point.HighMinPa / BarPa:F1}-{point.HighMaxPa / BarPa:F1} "
                    + $"vent {point.VentC:F0} glass {point.Glass} frost {point.Frost} "
                    + $"equal {one.EqualAfterS:F0} s"
            );
        }
        Console.WriteLine($"{clock.Elapsed.TotalMilliseconds / count:F0} ms a case");
    }

    private static string One(Running run) =>
        $"{(run.Trusted ? "" : "?")}{(run.ClutchIn ? "" : "off ")}{run.LowMinPa / BarPa:F2}-{run.LowMaxPa / BarPa:F2} "
        + $"{run.HighMinPa / BarPa:F1}-{run.HighMaxPa / BarPa:F1} vent {run.VentC:F0} c {run.CyclesPerMinute:F1}";

    private static IEnumerable<(string, Setup)> Setups()
    {
        foreach (var rpm in new[] { 800.0, 1500 })
        foreach (var ambient in new[] { 20.0, 25, 30, 35, 40 })
            yield return (
                $"{ambient} C {rpm} doors open",
                new Setup
                {
                    AmbientC = ambient,
                    Humidity = 0.55,
                    EngineRpm = rpm,
                }
            );
        yield return (
            "30 C 800 closed",
            new Setup
            {
                AmbientC = 30,
                Humidity = 0.55,
                EngineRpm = 800,
                OutsideShare = 0.25,
            }
        );
    }

    private static string Band(List<double> values)
    {
        values.Sort();
        double At(double share) => values[(int)(share * (values.Count - 1))];
        return $"{At(0.1):F1}/{At(0.5):F1}/{At(0.9):F1}";
    }
}
