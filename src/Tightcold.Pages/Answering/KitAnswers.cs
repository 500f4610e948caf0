using System.Collections.Immutable;
using Tightcold.App.Desk;
using Tightcold.Jobs.Fields;
using Tightcold.Jobs.Kits;
using Tightcold.Pages.Asked;
using Tightcold.Pages.Forms;
using Tightcold.Pages.Shown;
using Tightcold.Tongues;

namespace Tightcold.Pages.Answering;

/// <summary>What the person works with, and its cans and cylinders.</summary>
internal sealed class KitAnswers(JobDesk desk)
{
    public IEnumerable<PageRow> Rows => [PageRow.Shows(Routes.Kit, async ask =>
            {
                var kit = await desk.KitAsync(ask.Cancellation).ConfigureAwait(false);
                return Show(ask, kit, Typed.FromFields(Kit.Schema, kit.Fields), []);
            }), PageRow.Takes(Routes.Kit, SaveAsync), PageRow.Shows(Routes.NewContainer, ask => Task.FromResult(Form(ask, null, Typed.Nothing, []))), PageRow.Takes(Routes.NewContainer, AddAsync), PageRow.Shows("/kit/containers/{name}", async ask => (await desk.KitAsync(ask.Cancellation).ConfigureAwait(false)).Find(ask.Places["name"]) is { } container ? Form(ask, container, Typed.FromFields(Container.Schema, container.Fields), []) : new Answer.NotHere())];

    private async Task<Answer> SaveAsync(Ask ask)
    {
        var typed = Typed.FromSent(Kit.Schema, ask.Sent);
        if (ask.IsSwitch)
        {
            var there = await desk.KitAsync(ask.Cancellation).ConfigureAwait(false);
            return Show(ask, there, typed.In(Kit.Schema, ask.Visit.System), []);
        }
        var outcome = await desk.UpdateKitAsync(typed.Texts(Kit.Schema), cancellation: ask.Cancellation)
            .ConfigureAwait(false);
        return outcome.Taken
            ? Answer.Go(Routes.Kit + "?kept=yes")
            : Show(ask, await desk.KitAsync(ask.Cancellation).ConfigureAwait(false), typed, outcome.Problems);
    }

    private async Task<Answer> AddAsync(Ask ask)
    {
        var typed = Typed.FromSent(Container.Schema, ask.Sent);
        if (ask.IsSwitch)
            return Form(ask, null, typed.In(Container.Schema, ask.Visit.System), []);
        var outcome = await desk.AddContainerAsync(typed.Texts(Container.Schema), cancellation: ask.Cancellation)
            .ConfigureAwait(false);
        if (!outcome.Taken)
            return Form(ask, null, typed, outcome.Problems);
        return Answer.Go(
            ask.Field("then") == "another"
                ? $"{Routes.NewContainer}?kept={Uri.EscapeDataString(typed.Number(FieldNames.Name))}"
                : Routes.Kit
        );
    }

    private static Answer Show(Ask ask, Kit kit, Typed typed, ImmutableArray<InputProblem> problems)
    {
        var sheet = new FormSheet(Kit.Schema, typed, ask.Visit.System)
        {
            Problems = problems,
            Ghosts = KitGhosts.Of(ask.Visit.Reader.Units),
            GhostWord = "Assumed",
        };
        return Answer.Show<KitPage>(
            problems.Length > 0,
            (nameof(KitPage.Kit), kit),
            (nameof(KitPage.Sheet), sheet),
            (nameof(KitPage.Kept), ask.Words.ContainsKey("kept"))
        );
    }

    /// <param name="container">The one that is changed; null for a new one.</param>
    private static Answer Form(Ask ask, Container? container, Typed typed, ImmutableArray<InputProblem> problems) =>
        Answer.Show<ContainerPage>(
            problems.Length > 0,
            (
                nameof(ContainerPage.Title),
                container is null ? Say.It("Add a can or cylinder") : Say.It($"Change {container.Name}")
            ),
            (nameof(ContainerPage.IsNew), container is null),
            (nameof(ContainerPage.Kept), ask.Word("kept")),
            (
                nameof(ContainerPage.Sheet),
                new FormSheet(Container.Schema, typed, ask.Visit.System)
                {
                    Problems = problems,
                    First = container is null ? "name" : null,
                }
            )
        );
}
