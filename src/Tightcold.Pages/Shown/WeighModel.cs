using System.Collections.Immutable;
using Tightcold.Jobs.Entries;
using Tightcold.Jobs.Fields;
using Tightcold.Jobs.Journals;
using Tightcold.Picture;
using Tightcold.Picture.Mass;
using Tightcold.Picture.WeighIn;
using Tightcold.Procedures.Charging;

namespace Tightcold.Pages.Shown;

/// <summary>The live weigh-in page. What stands on the scale is what a person said last: the page never changes it by
/// itself.</summary>
/// <param name="Id">Of the reading that this form will write, so that sending it twice writes it once.</param>
/// <param name="Named">The container a person put on the scale just now; null where none was named.</param>
/// <param name="Typed">A number and its unit that stood in the box already.</param>
/// <param name="Wrote">What was just written, to be read back; or null.</param>
public sealed record WeighModel(
    JobPicture Picture,
    Guid Id,
    string? Named,
    (string Number, string Unit) Typed,
    Entry? Wrote
)
{
    /// <summary>The field that is typed into.</summary>
    public static FieldSpec Gross { get; } = EntryKinds.Get(EntryKinds.ScaleReading).Find(FieldNames.Gross)!;

    /// <summary>Within this of its mark a can that is to be emptied is asked about, kg; assumed.</summary>
    private const double NearlyEmptyKg = 0.025;

    public JobRecord Record => Picture.Record;
    public LiveWeighIn Live => Picture.WeighIn;

    /// <summary>All containers that may stand on the scale, the one that gives next first. A recovery cylinder only
    /// when a person has connected it.</summary>
    public ImmutableArray<string> Containers =>
        [
            .. (Record.Kits.MaxBy(kit => kit.From) ?? Record.Kit)
                .Containers.Where(container =>
                    container.Refrigerant == Record.Car.Refrigerant
                    && (
                        !container.IsRecovery
                        || Live.Balance.Holdings.GetValueOrDefault(container.Name)?.Connected == true
                    )
                )
                .Select(container => container.Name)
                .OrderByDescending(name => Same(name, Live.Container)),
        ];

    /// <summary>What stands on the scale: named just now, else named by the last entry of a container that was not
    /// taken off by it, else the only one there is. Null: it must be asked.</summary>
    public string? Container =>
        Containers.FirstOrDefault(name => Same(name, Named))
        ?? Containers.FirstOrDefault(name => Same(name, Last))
        ?? (Containers is [var only] ? only : null);

    private string? Last =>
        Record.Journal.Standing.LastOrDefault(entry =>
            entry.Kind is EntryKinds.ScaleReading or EntryKinds.ContainerMoved
        )
            is { } entry
        && entry.Fields.Text(FieldNames.Action) != Chosen.Disconnected
            ? entry.Fields.Text(FieldNames.Container)
            : null;

    public MassBalance.Holding? Holding => Container is { } name ? Live.Balance.Holdings.GetValueOrDefault(name) : null;

    /// <summary>What the plan asks of this container; null where it asks nothing.</summary>
    public ChargeStep? Step =>
        Live
            .Plan?.Steps.Where(step => Same(step.Container, Container))
            .Select(step => (ChargeStep?)step)
            .FirstOrDefault();

    public bool IsOpen => Same(Picture.Timeline.Now.Giving?.Name, Container);
    public bool IsConnected => Holding?.Connected == true;

    /// <summary>What the label asks for is in, as nearly as this scale can say.</summary>
    public bool IsDone => Live is { TargetKg: not null, Begun: true } && Live.ToGoKg <= Live.ToleranceKg;

    public double? RateKgPerS => Container is { } name ? LiveWeighIn.Rate(Record, name) : null;

    /// <summary>It is to be emptied and is nearly so, or nothing more is asked of it: a person lifts it and
    /// says.</summary>
    public bool AsksWhetherEmpty =>
        !IsDone
        && IsOpen
        && Holding is { Weighed: true, GrossKg: { } gross }
        && (Step is null || (Step is { Emptied: true, StopGrossKg: { } stop } && gross < stop + NearlyEmptyKg));

    /// <summary>How a can stood the last time one was opened in this job.</summary>
    public string Position =>
        Record
            .Journal.OfKind(EntryKinds.ContainerMoved)
            .Select(entry => entry.Fields.Text(FieldNames.Position))
            .LastOrDefault(word => word is not null)
        ?? "upright (vapour)";

    internal static bool Same(string? one, string? other) =>
        one is not null && string.Equals(one, other, StringComparison.OrdinalIgnoreCase);
}
