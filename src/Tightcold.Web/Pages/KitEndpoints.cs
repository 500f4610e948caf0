using System.Collections.Immutable;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Routing;
using Tightcold.App.Desk;
using Tightcold.Jobs.Fields;
using Tightcold.Jobs.Kits;
using Tightcold.Web.Forms;
using Tightcold.Web.Http;

namespace Tightcold.Web.Pages;

internal static class KitEndpoints
{
    public static void MapKit(this IEndpointRouteBuilder site)
    {
        site.MapGet(Routes.Kit, async (HttpContext http, JobDesk desk, CancellationToken cancellation) =>
        {
            var kit = await desk.KitAsync(cancellation).ConfigureAwait(false);
            return Show(http, kit, Typed.FromFields(Kit.Schema, kit.Fields), []);
        });
        site.MapPost(Routes.Kit, SaveAsync);
        site.MapGet(Routes.NewContainer, (HttpContext http) => Form(http, Add, Typed.Nothing, []));
        site.MapPost(Routes.NewContainer, AddAsync);
        site.MapGet(
            "/kit/containers/{name}",
            async (HttpContext http, JobDesk desk, string name, CancellationToken cancellation) =>
                (await desk.KitAsync(cancellation).ConfigureAwait(false)).Find(name) is { } container
                    ? Form(http, $"Change {container.Name}", Typed.FromFields(Container.Schema, container.Fields), [])
                    : Results.NotFound()
        );
    }

    private static async Task<IResult> SaveAsync(HttpContext http, JobDesk desk, CancellationToken cancellation)
    {
        var typed = Typed.FromPost(Kit.Schema, await http.Request.ReadFormAsync(cancellation).ConfigureAwait(false));
        if (UnitChoice.IsSwitch(http))
        {
            var there = await desk.KitAsync(cancellation).ConfigureAwait(false);
            return Show(http, there, typed.In(Kit.Schema, Visit.Of(http).System), []);
        }
        var outcome = await desk.UpdateKitAsync(typed.Texts(Kit.Schema), cancellation: cancellation)
            .ConfigureAwait(false);
        return outcome.Taken
            ? Page.Go(Routes.Kit + "?kept=yes")
            : Show(http, await desk.KitAsync(cancellation).ConfigureAwait(false), typed, outcome.Problems);
    }

    private const string Add = "Add a can or cylinder";

    private static async Task<IResult> AddAsync(HttpContext http, JobDesk desk, CancellationToken cancellation)
    {
        var form = await http.Request.ReadFormAsync(cancellation).ConfigureAwait(false);
        var typed = Typed.FromPost(Container.Schema, form);
        if (UnitChoice.IsSwitch(http))
            return Form(http, Add, typed.In(Container.Schema, Visit.Of(http).System), []);
        var outcome = await desk.AddContainerAsync(typed.Texts(Container.Schema), cancellation: cancellation)
            .ConfigureAwait(false);
        if (!outcome.Taken)
            return Form(http, Add, typed, outcome.Problems);
        return Page.Go(
            form["then"] == "another"
                ? $"{Routes.NewContainer}?kept={Uri.EscapeDataString(typed.Number(FieldNames.Name))}"
                : Routes.Kit
        );
    }

    private static IResult Show(HttpContext http, Kit kit, Typed typed, ImmutableArray<InputProblem> problems)
    {
        var visit = Visit.Of(http);
        var sheet = new FormSheet(Kit.Schema, typed, visit.System)
        {
            Problems = problems,
            Ghosts = KitGhosts.Of(visit.Reader.Units),
            GhostWord = "Assumed",
        };
        return Page.Show<KitPage>(
            http,
            Status(problems),
            (nameof(KitPage.Kit), kit),
            (nameof(KitPage.Sheet), sheet),
            (nameof(KitPage.Kept), http.Request.Query.ContainsKey("kept"))
        );
    }

    private static IResult Form(HttpContext http, string title, Typed typed, ImmutableArray<InputProblem> problems) =>
        Page.Show<ContainerPage>(
            http,
            Status(problems),
            (nameof(ContainerPage.Title), title),
            (nameof(ContainerPage.IsNew), title == Add),
            (nameof(ContainerPage.Kept), http.Request.Query["kept"].ToString() is { Length: > 0 } kept ? kept : null),
            (
                nameof(ContainerPage.Sheet),
                new FormSheet(Container.Schema, typed, Visit.Of(http).System)
                {
                    Problems = problems,
                    First = title == Add ? "name" : null,
                }
            )
        );

    private static int Status(ImmutableArray<InputProblem> problems) =>
        problems.Length > 0 ? StatusCodes.Status422UnprocessableEntity : StatusCodes.Status200OK;
}
