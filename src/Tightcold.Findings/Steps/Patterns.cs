using System.Collections.Immutable;
using Tightcold.Jobs.Entries;
using Tightcold.Quantities;

namespace Tightcold.Findings.Steps;

/// <summary>The trade's teaching table of gauge patterns; common practice, no source. A pattern points at several
/// faults and proves none.</summary>
internal sealed record Pattern(Phrase Meaning, ImmutableArray<NextAction> Next);

internal static class Patterns
{
    internal static readonly NextAction Lines = new(Phrase.Words("Clamp the thermometer on suction and liquid line"),
        Phrase.Words("superheat and subcooling: too little charge, a restriction or a weak compressor"), 5, EntryKinds.RunningReading);
    private static readonly NextAction Fan = new(Phrase.Words("Blow a shop fan at the condenser and read again"),
        Phrase.Words("if the high side falls well, the condenser lacks air"), 4, EntryKinds.RunningReading);
    private static readonly NextAction Static = new(Phrase.Words("Stop the engine, let it rest, read the standing pressure"),
        Phrase.Words("above saturation means air inside"), 60, EntryKinds.StandingReading);
    private static readonly NextAction Weigh = new(Phrase.Words("Have it recovered and weighed"),
        Phrase.Words("the charge itself, to some grams; no gauge gives that"), 35, EntryKinds.Recovery);

    public static Pattern Of(int low, int high) => (low, high) switch
    {
        (0, 0) => new(Phrase.Words("Normal pressures do not prove the charge: with a receiver they stay the same over a wide range. If the vent is warm all the same, look at blend door, heater valve and icing."), [Lines, Weigh]),
        (-1, -1) => new(Phrase.Words("Points to too little refrigerant; a restriction with no reserve looks alike, and so does a weak airflow over the evaporator on the low side."), [Lines, Weigh]),
        (-1, 0) or (-1, 1) => new(Phrase.Words("Points to a restriction: valve, orifice tube, drier or line; ice from moisture comes and goes."), [Lines, Static]),
        (0, -1) => new(Phrase.Words("Points to a charge somewhat low or a cool condenser; a worn compressor begins like this too."), [Lines, Weigh]),
        (1, -1) => new(Phrase.Words("Points to a worn compressor or a control stuck at small stroke; a slipping clutch looks alike."), [Lines]),
        (1, 0) => new(Phrase.Words("Points to an expansion valve stuck open, a heavy heat load or a worn compressor."), [Lines]),
        (0, 1) => new(Phrase.Words("Points to a condenser short of air, too much refrigerant, or air inside."), [Fan, Static, Weigh]),
        (1, 1) => new(Phrase.Words("Points to a condenser short of air, too much refrigerant, or air inside."), [Fan, Static, Weigh]),
        _ => throw new ArgumentOutOfRangeException(nameof(low), low, "a side is -1, 0 or 1"),
    };
}
