using Tightcold.Numerics.Sampling;
using Tightcold.SecondWorld.Leaks;

namespace Tightcold.SecondWorld.Search;

/// <summary>
/// A car to be searched. Each place seeps a little; none to four leak. What a look finds follows from what comes out
/// there, by a threshold that bends: gas at the probe against wind and gas that hangs in the bay, bubbles against flow
/// and pressure, dye against the oil that came out since it was put in.
/// </summary>
public sealed class SearchCar
{
    /// <summary>
    /// How often each place leaks, share of leaks; of the second world's own choosing after the trade's telling
    /// (condensers by stones, shaft seals, ports, joints, evaporators; from memory).
    /// </summary>
    private static readonly (Spot Spot, double Weight, double Reach, double Minutes)[] Places =
    [
        (Spot.ShaftSeal, 13, 0.6, 3),
        (Spot.CompressorBody, 4, 0.5, 3),
        (Spot.CompressorJoints, 8, 0.6, 3),
        (Spot.Condenser, 22, 0.75, 4),
        (Spot.CondenserJoints, 9, 0.8, 2),
        (Spot.Drier, 4, 0.7, 2),
        (Spot.LiquidLine, 4, 0.7, 3),
        (Spot.ValveJoints, 6, 0.6, 2),
        (Spot.Evaporator, 9, 0.25, 6),
        (Spot.SuctionHose, 5, 0.8, 3),
        (Spot.DischargeHose, 6, 0.8, 3),
        (Spot.LowPort, 7, 1, 1),
        (Spot.HighPort, 6, 1, 1),
        (Spot.SensorOrSwitch, 3, 0.7, 1),
    ];

    private readonly SeededChance chance;
    private readonly Dictionary<Spot, double> rates = [];
    private readonly double windCut;
    private readonly double detectorGramPerYear;
    private readonly double background;
    private readonly double dyeDays;
    private readonly double dirt;

    private SearchCar(SeededChance chance)
    {
        this.chance = chance;
        foreach (var (spot, _, _, _) in Places)
            rates[spot] = 0.6 * Math.Exp(0.9 * chance.Normal());
        var pick = chance.Uniform();
        var count =
            pick < 0.2 ? 0
            : pick < 0.68 ? 1
            : pick < 0.9 ? 2
            : pick < 0.97 ? 3
            : 4;
        while (Leaks.Count < count)
        {
            var at = chance.Uniform() * Places.Sum(place => place.Weight);
            var spot = Places[^1].Spot;
            foreach (var (one, weight, _, _) in Places)
            {
                at -= weight;
                if (at > 0)
                    continue;
                spot = one;
                break;
            }
            if (Leaks.Contains(spot))
                continue;
            Leaks.Add(spot);
            rates[spot] += LeakMaker.Rate(chance);
        }
        windCut = chance.Chance(0.7) ? chance.Between(0.6, 1) : chance.Between(0.1, 0.5);
        detectorGramPerYear = chance.LogBetween(3, 12);
        dyeDays = chance.LogBetween(0.02, 30);
        dirt = chance.Between(0.3, 1);
        // Gas hangs in the bay where much comes out and no wind blows.
        background = 0.0015 * TotalGramPerYear * windCut * chance.Uniform();
    }

    public static SearchCar Draw(ulong seed) => new(new SeededChance(seed * 4441 + 29));

    /// <summary>The places that leak more than they should, most first.</summary>
    public List<Spot> Leaks { get; } = [];

    public double Rate(Spot spot) => rates[spot];

    public double TotalGramPerYear => rates.Values.Sum();

    /// <summary>Wind as a share of what is left at the probe: 1 still air.</summary>
    public double WindCut => windCut;

    public double DetectorGramPerYear => detectorGramPerYear;

    /// <summary>Days since dye was put in.</summary>
    public double DyeDays => dyeDays;

    public static double Reach(Spot spot) => Places.First(place => place.Spot == spot).Reach;

    /// <summary>Minutes that a careful look takes.</summary>
    public static double Minutes(Spot spot, Look look) =>
        Places.First(place => place.Spot == spot).Minutes
            * look switch
            {
                Look.Eye => 0.4,
                Look.Soap => 1.3,
                Look.Dye => 0.8,
                Look.Cover => 1,
                _ => 1,
            }
        + (look == Look.Cover ? 10 : 0);

    /// <summary>
    /// One look at one place. Pressure is that of the circuit, absolute, of refrigerant or (for soap) nitrogen.
    /// </summary>
    /// <returns>True where something is found, rightly or not.</returns>
    public bool Find(Spot spot, Look look, double pressurePa = Leak.ReferencePa, bool nitrogen = false)
    {
        var laminar = new Leak(rates[spot], LeakKind.Laminar);
        var strength =
            laminar.Flow(nitrogen ? GasKind.Nitrogen : GasKind.Refrigerant, pressurePa, Leak.AirPa, false)
            / new Leak(1, LeakKind.Laminar).Flow(GasKind.Refrigerant, Leak.ReferencePa, Leak.AirPa, false);
        // Strength is the flow in units of 1 g/yr at the reference. Two hands in three get to the place itself.
        var close = chance.Chance(0.35 + 0.65 * Reach(spot)) ? 1 : 0.15;
        return look switch
        {
            Look.Detector => !nitrogen && Above(strength * close * windCut + background, detectorGramPerYear, 0.5)
                || chance.Chance(0.015),
            Look.Soap => Above(strength * close, nitrogen ? 60 : 90, 0.7) || chance.Chance(0.008),
            Look.Dye => Above(rates[spot] * dyeDays / 365 * close, 0.5, 0.8) || chance.Chance(0.02),
            Look.Cover => !nitrogen && Above(strength * close + 0.5 * background, 0.4 * detectorGramPerYear, 0.5)
                || chance.Chance(0.02),
            // The drain is far from the core: a part of the gas comes by, and only the evaporator's.
            Look.Drain => spot == Spot.Evaporator
                && Above(0.35 * strength * windCut + background, detectorGramPerYear, 0.6)
                || chance.Chance(0.02),
            _ => Above(rates[spot] * close * dirt, 150, 1.1) || chance.Chance(0.05),
        };
    }

    /// <summary>
    /// Whether what was found is told as a clear leak: the stronger the clearer; one false alarm in eight is.
    /// </summary>
    public bool LooksClear(Spot spot) => Above(rates[spot], 60, 0.8) || chance.Chance(0.12);

    private bool Above(double signal, double threshold, double spread) =>
        signal > 0 && Math.Log(signal / threshold) / spread + chance.Normal() > 0;
}
