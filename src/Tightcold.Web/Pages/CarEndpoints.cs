using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Routing;
using Tightcold.App.Desk;
using Tightcold.Jobs.Cars;
using Tightcold.Jobs.Journals;
using Tightcold.Web.Forms;
using Tightcold.Web.Http;

namespace Tightcold.Web.Pages;

internal static class CarEndpoints
{
    public static void MapCars(this IEndpointRouteBuilder site)
    {
        site.MapGet(Routes.NewCar, (HttpContext http, IIdSource ids) =>
            Form(http, null, Typed.Nothing, [], ids.NextId(Visit.Of(http).Reader.Now))
        );
        site.MapPost(Routes.NewCar, (HttpContext http, JobDesk desk, CancellationToken cancellation) =>
            SaveAsync(http, desk, null, cancellation)
        );
        site.MapGet("/cars/{id:guid}", ShowAsync);
        site.MapGet(
            "/cars/{id:guid}/edit",
            async (HttpContext http, JobDesk desk, Guid id, CancellationToken cancellation) =>
                await desk.CarAsync(id, cancellation).ConfigureAwait(false) is { } car
                    ? Form(http, car, Typed.FromFields(Car.Schema, car.Fields), [], Guid.Empty)
                    : Results.NotFound()
        );
        site.MapPost(
            "/cars/{id:guid}/edit",
            async (HttpContext http, JobDesk desk, Guid id, CancellationToken cancellation) =>
                await desk.CarAsync(id, cancellation).ConfigureAwait(false) is { } car
                    ? await SaveAsync(http, desk, car, cancellation).ConfigureAwait(false)
                    : Results.NotFound()
        );
        site.MapGet(
            "/cars/{id:guid}/jobs/new",
            async (HttpContext http, JobDesk desk, IIdSource ids, Guid id, CancellationToken cancellation) =>
                await desk.CarAsync(id, cancellation).ConfigureAwait(false) is { } car
                    ? Page.Show<NewJobPage>(
                        http,
                        (nameof(NewJobPage.Car), car),
                        (nameof(NewJobPage.Id), ids.NextId(Visit.Of(http).Reader.Now))
                    )
                    : Results.NotFound()
        );
        site.MapPost("/cars/{id:guid}/jobs/new", OpenJobAsync);
    }

    private static async Task<IResult> ShowAsync(
        HttpContext http,
        JobDesk desk,
        Guid id,
        CancellationToken cancellation
    )
    {
        if (await desk.CarAsync(id, cancellation).ConfigureAwait(false) is not { } car)
            return Results.NotFound();
        var jobs = (await desk.JobsAsync(new JobSearch { CarId = id }, cancellation).ConfigureAwait(false)).Jobs;
        var history = Tightcold.Picture.Books.CarHistory.Of(
            (await desk.RecordsOfCarAsync(id, cancellation).ConfigureAwait(false)).Select(
                record => new Tightcold.Picture.JobPicture(record)
            )
        );
        return Page.Show<CarPage>(
            http,
            (nameof(CarPage.Car), car),
            (nameof(CarPage.Jobs), jobs),
            (nameof(CarPage.History), history)
        );
    }

    private static async Task<IResult> SaveAsync(
        HttpContext http,
        JobDesk desk,
        Car? car,
        CancellationToken cancellation
    )
    {
        var form = await http.Request.ReadFormAsync(cancellation).ConfigureAwait(false);
        var typed = Typed.FromPost(Car.Schema, form);
        Guid? own = Guid.TryParse(form["id"], out var given) ? given : null;
        if (UnitChoice.IsSwitch(http))
            return Form(http, car, typed.In(Car.Schema, Visit.Of(http).System), [], own ?? Guid.Empty);
        var texts = typed.Texts(Car.Schema);
        var outcome = car is null
            ? await desk.AddCarAsync(texts, own, cancellation).ConfigureAwait(false)
            : await desk.UpdateCarAsync(car.Id, texts, cancellation).ConfigureAwait(false);
        return outcome.Taken
            ? Page.Go(Routes.Car(outcome.Value.Id))
            : Form(http, car, typed, outcome.Problems, own ?? Guid.Empty);
    }

    private static async Task<IResult> OpenJobAsync(
        HttpContext http,
        JobDesk desk,
        Guid id,
        CancellationToken cancellation
    )
    {
        if (await desk.CarAsync(id, cancellation).ConfigureAwait(false) is not { } car)
            return Results.NotFound();
        var form = await http.Request.ReadFormAsync(cancellation).ConfigureAwait(false);
        var complaint = form["complaint"].ToString();
        var told = form["told"].ToString() is { Length: > 0 } tapped ? tapped : null;
        Guid? own = Guid.TryParse(form["id"], out var given) ? given : null;
        var outcome = await desk.OpenJobAsync(id, complaint, own, told, cancellation: cancellation)
            .ConfigureAwait(false);
        return outcome.Taken
            ? Page.Go(Routes.Job(outcome.Value))
            : Page.Show<NewJobPage>(
                http,
                StatusCodes.Status422UnprocessableEntity,
                (nameof(NewJobPage.Car), car),
                (nameof(NewJobPage.Id), own ?? Guid.Empty),
                (nameof(NewJobPage.Complaint), complaint),
                (nameof(NewJobPage.Told), told),
                (nameof(NewJobPage.Problems), outcome.Problems)
            );
    }

    private static IResult Form(
        HttpContext http,
        Car? car,
        Typed typed,
        System.Collections.Immutable.ImmutableArray<Jobs.Fields.InputProblem> problems,
        Guid id
    )
    {
        var sheet = new FormSheet(Car.Schema, typed, Visit.Of(http).System) { Problems = problems };
        return Page.Show<CarFormPage>(
            http,
            problems.Length > 0 ? StatusCodes.Status422UnprocessableEntity : StatusCodes.Status200OK,
            (nameof(CarFormPage.Title), car is null ? "Add a car" : $"Label data of {car.Label}"),
            (nameof(CarFormPage.Sheet), sheet),
            (nameof(CarFormPage.Id), id)
        );
    }
}
