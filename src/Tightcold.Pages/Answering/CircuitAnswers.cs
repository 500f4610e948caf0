using Tightcold.App.Desk;
using Tightcold.Jobs.Cars;
using Tightcold.Jobs.Circuit;
using Tightcold.Jobs.Fields;
using Tightcold.Pages.Asked;
using Tightcold.Pages.Shown;
using Tightcold.Quantities;

namespace Tightcold.Pages.Answering;

/// <summary>Which spots a car's circuit has: one taken out is kept as taken out, so that it can be put back.</summary>
internal sealed class CircuitAnswers(JobDesk desk)
{
    /// <summary>As long as a spot's name may be in an entry.</summary>
    private const int LongestName = 60;

    private const string Here = "/cars/{id:guid}/circuit";

    public IEnumerable<PageRow> Rows =>
        [
            PageRow.Shows(Here, async ask =>
                await desk.CarAsync(ask.Which, ask.Cancellation).ConfigureAwait(false) is { } car
                    ? Show(car, ask.Word("added"), ask.Word("removed"), "", null)
                    : new Answer.NotHere()
            ),
            PageRow.Takes(Here, ChangeAsync),
        ];

    private async Task<Answer> ChangeAsync(Ask ask)
    {
        if (await desk.CarAsync(ask.Which, ask.Cancellation).ConfigureAwait(false) is not { } car)
            return new Answer.NotHere();
        string add = ask.Field("add"),
            remove = ask.Field("remove"),
            spot = add.Length > 0 ? add : remove;
        List<string> extra = [.. OwnSpots.Of(car, FieldNames.ExtraSpots)],
            struck = [.. OwnSpots.Of(car, FieldNames.StruckSpots)];
        if (spot.Length is 0 or > LongestName || spot.Contains(',', StringComparison.Ordinal))
            return Refused(car, spot, Phrase.Of($"a name of 1 to {LongestName} characters without a comma is needed"));
        var there = CircuitMap.Spots(car).Contains(spot, StringComparer.OrdinalIgnoreCase);
        if (add.Length > 0 && there)
            return Refused(car, spot, Phrase.Words("this car's circuit has that spot already"));
        if (add.Length > 0 && struck.RemoveAll(name => Same(name, spot)) == 0)
            extra.Add(spot);
        // One that was added is taken out as any other: checks that were written down of it keep their spot.
        if (add.Length == 0 && there)
            struck.Add(spot);
        var outcome = await desk.UpdateCarAsync(
                car.Id,
                new Dictionary<string, string>
                {
                    [FieldNames.ExtraSpots] = string.Join(", ", extra),
                    [FieldNames.StruckSpots] = string.Join(", ", struck),
                },
                ask.Cancellation
            )
            .ConfigureAwait(false);
        return outcome.Taken
            ? Answer.Go($"{Routes.Circuit(car.Id)}?{(add.Length > 0 ? "added" : "removed")}={Uri.EscapeDataString(spot)}")
            : Show(car, null, null, spot, outcome.Problems[0]);
    }

    private static bool Same(string one, string other) => string.Equals(one, other, StringComparison.OrdinalIgnoreCase);

    private static Answer Refused(Car car, string spot, Phrase why) => Show(car, null, null, spot, new("add", spot, why));

    private static Answer Show(Car car, string? added, string? removed, string typed, InputProblem? problem) =>
        Answer.Show<CircuitPage>(
            problem is not null,
            (nameof(CircuitPage.Car), car),
            (nameof(CircuitPage.Added), added),
            (nameof(CircuitPage.Removed), removed),
            (nameof(CircuitPage.Typed), typed),
            (nameof(CircuitPage.Problem), problem)
        );
}
