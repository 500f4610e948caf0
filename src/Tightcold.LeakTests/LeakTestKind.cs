using Tightcold.Quantities;

namespace Tightcold.LeakTests;

/// <summary>What a leak test goes by.</summary>
[Flags]
public enum Feels
{
    /// <summary>What flows now: it needs pressure inside.</summary>
    Pressure = 1,

    /// <summary>Bubbles of nitrogen at test pressure, in place of refrigerant.</summary>
    Nitrogen = 2,

    /// <summary>Gas that wind takes away.</summary>
    Wind = 4,

    /// <summary>Dye that was put in earlier.</summary>
    Dye = 8,

    /// <summary>Oil or dye that came out earlier, also where nothing leaks now.</summary>
    Residue = 16,

    /// <summary>Large leaks only.</summary>
    Coarse = 32,
}

/// <summary>
/// A test that points at a spot, each in a file of its own: what the journal calls it, what it needs and what it shows of
/// a leak. Half-seen rates and false alarms are assumed from stated detector classes (4, 7, 14 g/yr) and handbook limits
/// of soap (1e-4 mbar·L/s skilled, 1e-3 usual); docs/physics/leaks.md.
/// </summary>
public sealed partial class LeakTestKind : Row<LeakTestKind>
{
    /// <param name="word">What stands in the entry.</param>
    private LeakTestKind(int order, [Said] string word, [Said] string? name = null)
        : base(order, word, name ?? word) { }

    /// <summary>On a button, where the name is too long; else the name.</summary>
    [Said]
    public string Button
    {
        get => field ?? Name;
        init;
    }

    /// <summary>At one more spot; common practice.</summary>
    public required double Minutes { get; init; }

    /// <summary>Time spent there as it is usually done.</summary>
    public double UsualSeconds { get; init; } = 120;

    /// <summary>What the kit's list of leak tests must name; null where nothing is needed.</summary>
    public string? Needs { get; init; }

    /// <summary>Also a way round the whole circuit.</summary>
    public bool RoundTheCircuit { get; init; }

    public required Feels By { get; init; }

    /// <summary>Rate at which it shows every other leak, grams a year at rest; steepness of the odds over its
    /// logarithm.</summary>
    public required (double Grams, double Steepness) HalfSeen { get; init; }

    /// <summary>Odds that something shows without a leak.</summary>
    public required double FalseAlarm { get; init; }

    /// <summary>How well it gets to the evaporator in its housing and to any other spot, 0 to 1; null for the spot's own
    /// reach.</summary>
    public (double? Evaporator, double? Others) Reach { get; init; }

    /// <summary>Below this time it has not shown what it can.</summary>
    public required double SettleSeconds { get; init; }

    /// <summary>Gas gathers for so long where its rate counts once; null where none is gathered.</summary>
    public double? GathersSeconds { get; init; }

    public bool Goes(Feels by) => (By & by) != 0;
}
