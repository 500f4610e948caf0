using System.Collections.Immutable;
using Tightcold.Diagnosis.Leaks;
using Tightcold.Jobs.Circuit;
using Tightcold.Jobs.Entries;
using Tightcold.Jobs.Fields;
using Tightcold.Jobs.Journals;
using Tightcold.Pages.Forms;
using Tightcold.Picture.Leaks;
using Tightcold.Quantities;

namespace Tightcold.Pages.Shown;

/// <summary>What was done at one spot, in one go: opened; seals, drier and oil; closed. Each becomes an entry of its
/// own.</summary>
/// <param name="Oil">The form of the oil, with the car's own in it.</param>
/// <param name="Id">From which the ids of the entries are made, so that sending it twice writes once.</param>
/// <param name="Spot">Where; empty until it is chosen.</param>
/// <param name="Ticked">What was ticked, by the names of the page.</param>
public sealed record MendModel(JobModel Job, FormSheet Oil, Guid Id, string Spot, ImmutableHashSet<string> Ticked)
{
    /// <summary>Sealing parts that a mend takes, as a person ticks them and as they are stored.</summary>
    [Said]
    public static readonly ImmutableArray<(string Name, string Words)> Seals =
    [
        ("seal-ring", "HNBR O-ring, oiled"),
        ("seal-core", "valve core and cap"),
        ("seal-washer", "sealing washer"),
        ("seal-gasket", "gasket"),
    ];

    public const string DrierTick = "drier";

    public ImmutableArray<InputProblem> Problems { get; init; } = [];

    /// <summary>What is asked back once before it is written down; empty where there is nothing to ask.</summary>
    public ImmutableArray<Phrase> Asked { get; init; } = [];

    /// <summary>Which button was pressed when something was asked back.</summary>
    public string Then { get; init; } = "";

    public string Really => string.Join("; ", Asked.Select(one => one.ToString()));

    public JobRecord Record => Job.Record;

    /// <summary>What stands open now.</summary>
    public ImmutableArray<string> Open => [.. Job.Sight.Picture.Timeline.Now.Open.Select(one => one.Spot)];

    /// <summary>Spots that a mend is likely at: what stands open, what was found leaking, what was chosen.</summary>
    public ImmutableArray<string> Likely =>
        [
            .. Open.Concat(
                    SpotView
                        .Of(Job.Sight.Picture.Leaks)
                        .Where(spot => spot.Standing == SpotStanding.Leaking || spot.State.Trace)
                        .Select(spot => spot.Name)
                )
                .Append(Spot)
                .Where(name => name.Length > 0)
                .Distinct(StringComparer.OrdinalIgnoreCase),
        ];

    public ImmutableArray<string> Others => [.. CircuitMap.Spots(Record.Car).Except(Likely)];

    /// <summary>The drier of this circuit, by the car's own name for it; null where it has none on the list.</summary>
    public string? Drier =>
        CircuitMap.Spots(Record.Car).FirstOrDefault(spot => LeakComponents.FromName(spot) == LeakComponent.Drier);

    /// <summary>The entries that this sheet stands for, in the order in which they are done.</summary>
    public IEnumerable<(string Kind, ImmutableDictionary<string, string> Fields)> Entries(string then)
    {
        static ImmutableDictionary<string, string> Of(params ReadOnlySpan<(string Name, string Text)> fields)
        {
            var all = ImmutableDictionary.CreateBuilder<string, string>();
            foreach (var (name, text) in fields)
                all[name] = text;
            return all.ToImmutable();
        }
        if (then == "opened")
        {
            yield return (EntryKinds.Opened, Of(("spot", Spot)));
            yield break;
        }
        foreach (var (name, words) in Seals)
            if (Ticked.Contains(name))
                yield return (EntryKinds.SealChanged, Of(("spot", Spot), ("seal", words)));
        if (Ticked.Contains(DrierTick) && Drier is { } drier)
            yield return (EntryKinds.PartChanged, Of(("spot", drier), ("part", drier)));
        if (Oil.Typed.Number(FieldNames.Amount).Length > 0)
            yield return (
                EntryKinds.OilMoved,
                Oil.Typed.Texts(Oil.Schema)
                    .ToImmutableDictionary()
                    .SetItem("direction", "added")
                    .SetItem("spot", Ticked.Contains(DrierTick) && Drier is { } filled ? filled : Spot)
            );
        if (then == "closed")
            foreach (var open in Open)
                yield return (EntryKinds.Closed, Of(("spot", open)));
    }
}
