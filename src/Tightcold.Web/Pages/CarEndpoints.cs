using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Routing;
using Tightcold.App.Desk;
using Tightcold.Jobs.Cars;
using Tightcold.Jobs.Entries;
using Tightcold.Jobs.Fields;
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
            ? Page.Go(form["then"] == "job" ? Routes.NewJob(outcome.Value.Id) : Routes.Car(outcome.Value.Id))
            : Form(http, car, typed, outcome.Problems, own ?? Guid.Empty);
    }

    private static async Task<IResult> OpenJobAsync(
        HttpContext http,
        JobDesk desk,
        FindingSource findings,
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
        if (outcome.Taken)
            return Page.Go(
                await FirstAsync(http, desk, findings, outcome.Value, form["filled"], told is not null, cancellation)
                    .ConfigureAwait(false)
            );
        return Page.Show<NewJobPage>(
            http,
            StatusCodes.Status422UnprocessableEntity,
            (nameof(NewJobPage.Car), car),
            (nameof(NewJobPage.Id), own ?? Guid.Empty),
            (nameof(NewJobPage.Complaint), complaint),
            (nameof(NewJobPage.Months), form["filled"].ToString()),
            (nameof(NewJobPage.Problems), outcome.Problems)
        );
    }

    /// <summary>What the driver knows of the last filling, once; then the first form by itself for who only tapped why
    /// it is here, else the page of now.</summary>
    private static async Task<string> FirstAsync(
        HttpContext http,
        JobDesk desk,
        FindingSource findings,
        Job job,
        string? months,
        bool tapped,
        CancellationToken cancellation
    )
    {
        async Task<JobRecord> RecordAsync() =>
            (await desk.RecordAsync(job.Number, cancellation).ConfigureAwait(false))!;
        var record = await RecordAsync().ConfigureAwait(false);
        if (!string.IsNullOrEmpty(months) && !record.Journal.OfKind(EntryKinds.EarlierCharge).Any())
        {
            // Months that are no number come from no page of ours; the job stands all the same.
            await desk.AddEntryAsync(
                    job.Number,
                    EntryKinds.EarlierCharge,
                    new Dictionary<string, string>
                    {
                        [FieldNames.MonthsAgo] = months,
                        ["filled"] = "full, not weighed",
                    },
                    null,
                    EntryEndpoints.Who(record, null),
                    cancellation: cancellation
                )
                .ConfigureAwait(false);
            record = await RecordAsync().ConfigureAwait(false);
        }
        var sight = await findings.AtAGlanceAsync(desk, record, cancellation).ConfigureAwait(false);
        return
            tapped
            && Findings.Now.NowWords.Of(sight.Picture) is { IsUrgent: false, Action: { EntryKind: not null } action }
            ? Routes.Write(job, action)
            : Routes.Job(job);
    }

    private static IResult Form(
        HttpContext http,
        Car? car,
        Typed typed,
        System.Collections.Immutable.ImmutableArray<Jobs.Fields.InputProblem> problems,
        Guid id
    )
    {
        var sheet = new FormSheet(Car.Schema, typed, Visit.Of(http).System)
        {
            Problems = problems,
            First = car is null ? "label" : null,
        };
        return Page.Show<CarFormPage>(
            http,
            problems.Length > 0 ? StatusCodes.Status422UnprocessableEntity : StatusCodes.Status200OK,
            (nameof(CarFormPage.Title), car is null ? "Add a car" : $"Label data of {car.Label}"),
            (nameof(CarFormPage.IsNew), car is null),
            (nameof(CarFormPage.Sheet), sheet),
            (nameof(CarFormPage.Id), id)
        );
    }
}
