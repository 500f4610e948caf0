using System.Collections.Immutable;
using Tightcold.App.Desk;
using Tightcold.Jobs.Fields;
using Tightcold.Jobs.Kits;
using Tightcold.Pages.Asked;
using Tightcold.Pages.Forms;
using Tightcold.Pages.Shown;

namespace Tightcold.Pages.Answering;

/// <summary>What the person works with, and its cans and cylinders.</summary>
internal sealed class KitAnswers(JobDesk desk)
{
    private const string Add = "Add a can or cylinder";

    public IEnumerable<PageRow> Rows =>
        [
            PageRow.Shows(Routes.Kit, async ask =>
            {
                var kit = await desk.KitAsync(ask.Cancellation).ConfigureAwait(false);
                return Show(ask, kit, Typed.FromFields(Kit.Schema, kit.Fields), []);
            }),
            PageRow.Takes(Routes.Kit, SaveAsync),
            PageRow.Shows(Routes.NewContainer, ask => Task.FromResult(Form(ask, Add, Typed.Nothing, []))),
            PageRow.Takes(Routes.NewContainer, AddAsync),
            PageRow.Shows("/kit/containers/{name}", async ask =>
                (await desk.KitAsync(ask.Cancellation).ConfigureAwait(false)).Find(ask.Places["name"])
                    is { } container
                    ? Form(ask, $"Change {container.Name}", Typed.FromFields(Container.Schema, container.Fields), [])
                    : new Answer.NotHere()
            ),
        ];

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
            return Form(ask, Add, typed.In(Container.Schema, ask.Visit.System), []);
        var outcome = await desk.AddContainerAsync(typed.Texts(Container.Schema), cancellation: ask.Cancellation)
            .ConfigureAwait(false);
        if (!outcome.Taken)
            return Form(ask, Add, typed, outcome.Problems);
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

    private static Answer Form(Ask ask, string title, Typed typed, ImmutableArray<InputProblem> problems) =>
        Answer.Show<ContainerPage>(
            problems.Length > 0,
            (nameof(ContainerPage.Title), title),
            (nameof(ContainerPage.IsNew), title == Add),
            (nameof(ContainerPage.Kept), ask.Word("kept")),
            (
                nameof(ContainerPage.Sheet),
                new FormSheet(Container.Schema, typed, ask.Visit.System)
                {
                    Problems = problems,
                    First = title == Add ? "name" : null,
                }
            )
        );
}
