using Tightcold.App.Desk;
using Tightcold.Pages.Asked;
using Tightcold.Pages.Shown;

namespace Tightcold.Pages.Answering;

/// <summary>Where the code on a car's label leads.</summary>
/// <param name="Base">The site's address.</param>
/// <param name="OnThisMachineOnly">No other device reaches it there.</param>
public sealed record LabelReach(Uri Base, bool OnThisMachineOnly);

/// <summary>A label for a car, whose code opens its history.</summary>
internal sealed class LabelAnswers(JobDesk desk, Func<LabelReach> reach)
{
    public IEnumerable<PageRow> Rows =>
        [
            PageRow.Shows("/cars/{id:guid}/label", async ask =>
                await desk.CarAsync(ask.Which, ask.Cancellation).ConfigureAwait(false) is { } car
                    ? Answer.Show<LabelPage>(
                        (nameof(LabelPage.Car), car),
                        (nameof(LabelPage.Link), reach().Base.ToString().TrimEnd('/') + Routes.Car(car.Id)),
                        (nameof(LabelPage.OnThisMachineOnly), reach().OnThisMachineOnly)
                    )
                    : new Answer.NotHere()
            ),
        ];
}
