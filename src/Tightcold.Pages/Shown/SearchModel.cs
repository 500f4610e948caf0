using System.Collections.Immutable;
using Tightcold.Jobs.Cars;
using Tightcold.Jobs.Circuit;
using Tightcold.Jobs.Entries;
using Tightcold.Jobs.Fields;
using Tightcold.Jobs.Journals;
using Tightcold.LeakTests;
using Tightcold.Picture;
using Tightcold.Picture.Circuit;
using Tightcold.Picture.Leaks;
using Tightcold.Pages.Forms;

using Tightcold.Pages.Asked;

namespace Tightcold.Pages.Shown;

/// <summary>The search: one spot after the other, or all at once.</summary>
/// <param name="Sheet">The form of a leak check or of a whole search, with what is taken from the last one.</param>
/// <param name="Id">Of the entry to come, so that sending it twice writes it once.</param>
/// <param name="Spot">The spot that is looked at next; null where none stands out.</param>
public sealed record SearchModel(JobModel Job, FormSheet Sheet, Guid Id, string? Spot)
{
    /// <summary>What decides whether a look counts, besides spot, test and outcome.</summary>
    public static readonly ImmutableArray<string> Conditions =
    [
        "wind",
        FieldNames.OldDye,
        FieldNames.SystemPressure,
        FieldNames.TimeSpent,
    ];

    public JobPicture Picture => Job.Sight.Picture;
    public JobRecord Record => Job.Record;

    public string Test => Sheet.Typed.Number(FieldNames.Test);

    /// <summary>Tests that this kit can do and that go round the whole circuit; the eye alone is offered beside them.</summary>
    public ImmutableArray<string> Owned =>
        [
            .. LeakView
                .Owned(Sheet.Kit)
                .Where(test => test is { RoundTheCircuit: true, Needs: not null })
                .Select(test => test.Key),
        ];

    public FieldSpec Asked => Sheet.Schema.Find(FieldNames.Test)!;

    public IEnumerable<string> NotOwned => ((FieldType.Choice)Asked.Type).Words.Except(Owned);

    public bool UnderNitrogen => Picture.Timeline.Now.Inside == Inside.Nitrogen;

    /// <summary>Nitrogen may be in or come in: it is in the kit, and no refrigerant is inside.</summary>
    public bool TakesNitrogen =>
        Owned.Contains(LeakTestKind.NitrogenAndSoap.Key) && !Picture.Timeline.Now.HoldsRefrigerant;

    /// <summary>Spots that could not be reached the last time.</summary>
    public IReadOnlyList<string> NotReached => FieldType.Spots.Of(Sheet.Typed.Number(FieldNames.NotReached));

    public IReadOnlyList<SpotView> Spots => SpotView.Of(Picture.Leaks);

    public IEnumerable<FieldSpec> Fields => Conditions.Select(Sheet.Schema.Find).OfType<FieldSpec>();

    /// <summary>Something was said before and is taken from there.</summary>
    public bool IsTaken => Fields.Any(one => Sheet.CarriedOver.ContainsKey(one.Name));

    /// <summary>After a look: the next spot in the order of the refrigerant, by the same test.</summary>
    internal static string Onward(Car car, Job job, Entry written)
    {
        var spots = CircuitMap.Spots(car);
        var at = spots.IndexOf(written.Fields.Text(FieldNames.Spot) ?? "", StringComparer.OrdinalIgnoreCase);
        var next = at >= 0 && at + 1 < spots.Length ? spots[at + 1] : null;
        return Routes.Looked(job, next, written);
    }
}
