using System.Collections.Immutable;
using System.Diagnostics.CodeAnalysis;
using Tightcold.Jobs.Fields;
using Tightcold.Jobs.Kinds;

namespace Tightcold.Jobs.Entries;

/// <summary>Every kind of entry. Adding one is adding a file in <c>Kinds</c>: it is found by itself. A name stands here
/// only where somebody speaks of that kind.</summary>
[UnconditionalSuppressMessage("Trimming", "IL2026", Justification = "Whoever trims keeps this room whole.")]
[UnconditionalSuppressMessage("Trimming", "IL2067", Justification = "Whoever trims keeps this room whole.")]
public static class EntryKinds
{
    public const string Weather = "weather";
    public const string Story = "story";
    public const string Aim = "aim";
    public const string StandingReading = "standing-reading";
    public const string RunningReading = "running-reading";
    public const string Sign = "sign";
    public const string LeakCheck = "leak-check";
    public const string LeakSearch = "leak-search";
    public const string EarlierCharge = "earlier-charge";
    public const string Recovery = "recovery";
    public const string Opened = "opened";
    public const string Closed = "closed";
    public const string PartChanged = "part-changed";
    public const string SealChanged = "seal-changed";
    public const string OilMoved = "oil-moved";
    public const string Pump = "pump";
    public const string VacuumReading = "vacuum-reading";
    public const string PressureTest = "pressure-test";
    public const string ContainerMoved = "container-moved";
    public const string ScaleReading = "scale-reading";
    public const string Purge = "purge";
    public const string VentReading = "vent-reading";
    public const string Cost = "cost";
    public const string Note = "note";
    public const string JobState = "job-state";

    /// <summary>Strikes another entry without replacing it.</summary>
    public const string Struck = "struck";

    /// <summary>In the order of the job: by the first step they belong to, then those of no step.</summary>
    public static readonly ImmutableArray<Kind> Kinds =
    [
        .. typeof(Kind)
            .Assembly.GetTypes()
            .Where(type => type.IsSubclassOf(typeof(Kind)))
            .Select(type => (Kind)Activator.CreateInstance(type)!)
            .OrderBy(kind => kind.Steps.IsEmpty)
            .ThenBy(kind => kind.Steps.FirstOrDefault().Step)
            .ThenBy(kind => kind.Steps.FirstOrDefault().Rank)
            .ThenBy(kind => kind.Anywhere ?? int.MaxValue)
            .ThenBy(kind => kind.Name, StringComparer.Ordinal),
    ];

    private static readonly ImmutableDictionary<string, Kind> ByName = Kinds.ToImmutableDictionary(
        kind => kind.Name,
        StringComparer.Ordinal
    );

    private static readonly ImmutableDictionary<Step, ImmutableArray<string>> ByStep = Enum.GetValues<Step>()
        .ToImmutableDictionary(
            step => step,
            step =>
                Kinds
                    .SelectMany(kind => kind.Steps, (kind, at) => (kind.Name, at))
                    .Where(one => one.at.Step == step)
                    .OrderBy(one => one.at.Rank)
                    .Select(one => one.Name)
                    .ToImmutableArray()
        );

    /// <summary>The fields of each.</summary>
    public static ImmutableArray<Schema> All { get; } = [.. Kinds.Select(kind => kind.Schema)];

    /// <summary>Belong to no step in particular.</summary>
    public static ImmutableArray<string> Anywhere { get; } =
    [.. Kinds.Where(kind => kind.Anywhere is not null).OrderBy(kind => kind.Anywhere).Select(kind => kind.Name)];

    /// <exception cref="KeyNotFoundException">No kind has this name.</exception>
    public static Kind Kind(string name) => ByName[name];

    public static Schema Get(string kind) => ByName[kind].Schema;

    public static Schema? Find(string kind) => ByName.GetValueOrDefault(kind)?.Schema;

    /// <summary>The kinds of entry that belong to a step, the usual one first.</summary>
    public static ImmutableArray<string> At(Step step) => ByStep[step];

    /// <summary>The step that an entry of this kind belongs to; null when to none.</summary>
    public static Step? StepOf(string kind) =>
        ByName.GetValueOrDefault(kind) is { Steps: [var first, ..] } ? first.Step : null;
}
