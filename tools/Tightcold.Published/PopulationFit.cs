using System.Globalization;
using System.Text;
using Tightcold.Diagnosis.Priors;
using Tightcold.Loop.Designs;

namespace Tightcold.Published;

/// <summary>
/// What sound cars are like, from the charts: each chart is one car whose traits are drawn from a population, and level
/// and spread of that population are what is sought (a hierarchical model, by expectation and maximisation with
/// weighted points; Wei and Tanner 1990, J. Am. Stat. Assoc. 85, 699). The first guess counts as so many cars, so that
/// few charts cannot drag it anywhere; makers weigh by the root of their number of charts.
/// </summary>
internal sealed class PopulationFit
{
    // What the first guess is worth, in charts: of its level and of its spread.
    private const double LevelWorth = 1.5,
        SpreadWorth = 4;

    // No trait becomes surer than this share of the first guess's spread: a dozen charts do not know that.
    private const double LeastSpread = 0.6;

    private static readonly (int Coordinate, string[] Traits)[] Map =
    [
        (Coordinate.CondenserUa, ["condenser"]),
        (Coordinate.FaceSpeed, ["face-idle", "face-raised"]),
        (Coordinate.Reentry, ["reentry-idle", "reentry-raised"]),
        (Coordinate.Displacement, ["displacement"]),
        (Coordinate.Volumetric, ["volumetric"]),
        (Coordinate.CoilNtu, ["coil"]),
        (Coordinate.Blower, ["blower"]),
        (Coordinate.ThrottleArea, ["throttle"]),
        (Coordinate.ValveSetting, ["superheat"]),
        (Coordinate.Isentropic, ["isentropic"]),
        (Coordinate.LineHeat, ["line-heat"]),
        (Coordinate.Switches, ["fin-off", "low-switch"]),
        (Coordinate.Cabin, ["cabin"]),
        (Coordinate.Control, ["suction-set", "electric-target"]),
        (Coordinate.LineDrop, ["line-drop"]),
        (Coordinate.Duct, ["duct"]),
        (Coordinate.FanStage, ["fan-mild"]),
    ];

    private readonly Population first;
    private double[] level = new double[Map.Length];
    private double[] spread = [.. Enumerable.Repeat(1.0, Map.Length)];

    private PopulationFit(Population first) => this.first = first;

    /// <summary>Charts by car, left-out rows aside.</summary>
    public static PublishedRow[][] Charts() =>
        [
            .. PublishedRow
                .All()
                .Where(row => row.IsSound && row.LeftOut.Length == 0)
                .GroupBy(row => row.Car)
                .Select(group => group.ToArray()),
        ];

    public Population Population => first.With(Traits());

    public static PopulationFit Of(Population first, PublishedRow[][] charts, int rounds, Action<string> told)
    {
        var fit = new PopulationFit(first);
        for (var round = 0; round < rounds; round++)
        {
            var cars = Draw(charts, fit.Population, (ulong)round);
            fit.Maximise(cars, (fit.level, fit.spread), 1);
            var (least, most) = (cars.Min(car => car.Effective), cars.Max(car => car.Effective));
            told(FormattableString.Invariant($"round {round + 1}: points worth {least:0} to {most:0}\n{fit.Text()}"));
        }

        return fit;
    }

    /// <summary>The same without one maker, from points drawn by this fit's population and weighed anew.</summary>
    public PopulationFit Without(string maker, IEnumerable<ChartCar> cars)
    {
        var fit = new PopulationFit(first) { level = [.. level], spread = [.. spread] };
        fit.Maximise([.. cars.Where(car => car.Maker != maker)], (level, spread), 6);
        return fit;
    }

    public static ChartCar[] Draw(PublishedRow[][] charts, Population population, ulong seed)
    {
        var cars = new ChartCar[charts.Length];
        Parallel.For(0, charts.Length, new ParallelOptions { MaxDegreeOfParallelism = 2 }, i =>
            cars[i] = ChartCar.Of(charts[i], population, (seed << 8) + (ulong)i + 1)
        );
        return cars;
    }

    public string Text()
    {
        var text = new StringBuilder();
        foreach (var (name, trait) in Traits())
            text.Append(
                CultureInfo.InvariantCulture,
                $"{name};{trait.Level:G5};{trait.Spread:G3};{(trait.IsFactor ? "x" : "")}\n"
            );
        return text.ToString();
    }

    /// <summary>The guess's file with the fitted levels and spreads, and where they come from.</summary>
    public string File(IEnumerable<string> guess)
    {
        var text = new StringBuilder();
        text.Append("# What sound cars are like: level and spread of each trait, learnt from makers' printed charts\n");
        text.Append("# (sources and ranges: tools/Tightcold.Published/rows.csv; how: docs/physics/loop.md).\n");
        text.Append("# A level marked x is a factor on LoopDesign's ordinary car.\n");
        text.Append("# Written by the tool's command ship; not by hand.\n");
        text.Append("trait;level;spread;unit\n");
        foreach (
            var line in guess.Where(line =>
                line.Length > 0 && line[0] != '#' && !line.StartsWith("trait;", StringComparison.Ordinal)
            )
        )
        {
            var f = line.Split(';');
            var trait = Population[f[0]];
            text.Append(CultureInfo.InvariantCulture, $"{f[0]};{trait.Level:G6};{trait.Spread:G3};{f[3]}\n");
        }

        return text.ToString();
    }

    /// <param name="drawnBy">Level and spread that the cars' points are coordinates of.</param>
    private void Maximise(ChartCar[] cars, (double[] Level, double[] Spread) drawnBy, int rounds)
    {
        var charts = cars.GroupBy(car => car.Maker).ToDictionary(group => group.Key, group => group.Count());
        for (var round = 0; round < rounds; round++)
        {
            var sum = new double[Map.Length];
            var squares = new double[Map.Length];
            var all = 0.0;
            foreach (var car in cars)
            {
                var voice = 1 / Math.Sqrt(charts[car.Maker]);
                all += voice;
                var weights = Weights(car, drawnBy);
                for (var t = 0; t < Map.Length; t++)
                {
                    for (var i = 0; i < car.Count; i++)
                    {
                        var value = drawnBy.Level[t] + (drawnBy.Spread[t] * car.Point(i)[Map[t].Coordinate]);
                        sum[t] += voice * weights[i] * value;
                        squares[t] += voice * weights[i] * value * value;
                    }
                }
            }

            var (newLevel, newSpread) = (new double[Map.Length], new double[Map.Length]);
            for (var t = 0; t < Map.Length; t++)
            {
                newLevel[t] = sum[t] / (all + LevelWorth);
                var about = squares[t] - (2 * newLevel[t] * sum[t]) + (all * newLevel[t] * newLevel[t]);
                var variance = (about + SpreadWorth) / (all + SpreadWorth);
                newSpread[t] = Math.Max(LeastSpread, Math.Sqrt(variance));
            }

            (level, spread) = (newLevel, newSpread);
        }
    }

    /// <summary>Weights under the present population of points drawn by another.</summary>
    private double[] Weights(ChartCar car, (double[] Level, double[] Spread) drawnBy)
    {
        var logs = new double[car.Count];
        for (var i = 0; i < logs.Length; i++)
        {
            logs[i] = car.LogWeight(i);
            for (var t = 0; t < Map.Length; t++)
            {
                var z = car.Point(i)[Map[t].Coordinate];
                var now = (drawnBy.Level[t] + (drawnBy.Spread[t] * z) - level[t]) / spread[t];
                logs[i] += (0.5 * ((z * z) - (now * now))) + Math.Log(drawnBy.Spread[t] / spread[t]);
            }
        }

        var most = logs.Max();
        var weights = logs.Select(log => Math.Exp(log - most)).ToArray();
        var sum = weights.Sum();
        return [.. weights.Select(weight => weight / sum)];
    }

    private IEnumerable<KeyValuePair<string, Trait>> Traits()
    {
        for (var t = 0; t < Map.Length; t++)
            foreach (var name in Map[t].Traits)
                yield return new(
                    name,
                    first[name] with
                    {
                        Level = first[name].At(level[t]),
                        Spread = first[name].Spread * spread[t],
                    }
                );
    }
}
