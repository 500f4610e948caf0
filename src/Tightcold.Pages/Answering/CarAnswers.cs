using System.Collections.Immutable;
using Tightcold.App.Desk;
using Tightcold.Findings.Now;
using Tightcold.Jobs.Cars;
using Tightcold.Jobs.Entries;
using Tightcold.Jobs.Fields;
using Tightcold.Jobs.Journals;
using Tightcold.Pages.Asked;
using Tightcold.Pages.Forms;
using Tightcold.Pages.Shown;
using Tightcold.Picture;
using Tightcold.Picture.Books;
using Tightcold.Tongues;

namespace Tightcold.Pages.Answering;

/// <summary>A car with its history, its label data, and a job opened on it.</summary>
internal sealed class CarAnswers(JobDesk desk, FindingSource findings, IIdSource ids)
{
    private const string Here = "/cars/{id:guid}";

    public IEnumerable<PageRow> Rows =>
        [
            PageRow.Shows(Routes.NewCar, ask =>
                Task.FromResult(Form(ask, null, Typed.Nothing, [], ids.NextId(ask.Now)))
            ),
            PageRow.Takes(Routes.NewCar, ask => SaveAsync(ask, null)),
            PageRow.Shows(Here, ask => OfCarAsync(ask, car => ShowAsync(ask, car))),
            PageRow.Shows(Here + "/edit", ask =>
                OfCarAsync(ask, car =>
                    Task.FromResult(Form(ask, car, Typed.FromFields(Car.Schema, car.Fields), [], Guid.Empty))
                )
            ),
            PageRow.Takes(Here + "/edit", ask => OfCarAsync(ask, car => SaveAsync(ask, car))),
            PageRow.Shows(Here + "/jobs/new", ask =>
                OfCarAsync(ask, car =>
                    Task.FromResult(
                        Answer.Show<NewJobPage>(
                            (nameof(NewJobPage.Car), car),
                            (nameof(NewJobPage.Id), ids.NextId(ask.Now))
                        )
                    )
                )
            ),
            PageRow.Takes(Here + "/jobs/new", ask => OfCarAsync(ask, car => OpenJobAsync(ask, car))),
        ];

    private async Task<Answer> OfCarAsync(Ask ask, Func<Car, Task<Answer>> answer) =>
        await desk.CarAsync(ask.Which, ask.Cancellation).ConfigureAwait(false) is { } car
            ? await answer(car).ConfigureAwait(false)
            : new Answer.NotHere();

    private async Task<Answer> ShowAsync(Ask ask, Car car)
    {
        var search = new JobSearch { CarId = car.Id };
        var jobs = (await desk.JobsAsync(search, ask.Cancellation).ConfigureAwait(false)).Jobs;
        var history = CarHistory.Of(
            (await desk.RecordsOfCarAsync(car.Id, ask.Cancellation).ConfigureAwait(false)).Select(
                record => new JobPicture(record)
            )
        );
        return Answer.Show<CarPage>(
            (nameof(CarPage.Car), car),
            (nameof(CarPage.Jobs), jobs),
            (nameof(CarPage.History), history)
        );
    }

    private async Task<Answer> SaveAsync(Ask ask, Car? car)
    {
        var typed = Typed.FromSent(Car.Schema, ask.Sent);
        if (ask.IsSwitch)
            return Form(ask, car, typed.In(Car.Schema, ask.Visit.System), [], ask.SentId ?? Guid.Empty);
        var texts = typed.Texts(Car.Schema);
        var outcome = car is null
            ? await desk.AddCarAsync(texts, ask.SentId, ask.Cancellation).ConfigureAwait(false)
            : await desk.UpdateCarAsync(car.Id, texts, ask.Cancellation).ConfigureAwait(false);
        return outcome.Taken
            ? Answer.Go(ask.Field("then") == "job" ? Routes.NewJob(outcome.Value.Id) : Routes.Car(outcome.Value.Id))
            : Form(ask, car, typed, outcome.Problems, ask.SentId ?? Guid.Empty);
    }

    private async Task<Answer> OpenJobAsync(Ask ask, Car car)
    {
        var complaint = ask.Sent.GetValueOrDefault("complaint", "");
        var told = ask.Field("told") is { Length: > 0 } tapped ? tapped : null;
        var outcome = await desk.OpenJobAsync(car.Id, complaint, ask.SentId, told, cancellation: ask.Cancellation)
            .ConfigureAwait(false);
        if (outcome.Taken)
            return Answer.Go(await FirstAsync(ask, outcome.Value, told is not null).ConfigureAwait(false));
        return Answer.Refuse<NewJobPage>(
            (nameof(NewJobPage.Car), car),
            (nameof(NewJobPage.Id), ask.SentId ?? Guid.Empty),
            (nameof(NewJobPage.Complaint), complaint),
            (nameof(NewJobPage.Months), ask.Sent.GetValueOrDefault("filled", "")),
            (nameof(NewJobPage.Problems), outcome.Problems)
        );
    }

    /// <summary>What the driver knows of the last filling, once; then the first form by itself for who only tapped why
    /// it is here, else the page of now.</summary>
    private async Task<string> FirstAsync(Ask ask, Job job, bool tapped)
    {
        async Task<JobRecord> RecordAsync() =>
            (await desk.RecordAsync(job.Number, ask.Cancellation).ConfigureAwait(false))!;
        var record = await RecordAsync().ConfigureAwait(false);
        var months = ask.Sent.GetValueOrDefault("filled", "");
        if (months.Length > 0 && !record.Journal.OfKind(EntryKinds.EarlierCharge).Any())
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
                    EntryAnswers.Who(record, null),
                    cancellation: ask.Cancellation
                )
                .ConfigureAwait(false);
            record = await RecordAsync().ConfigureAwait(false);
        }
        var sight = await findings.AtAGlanceAsync(desk, record, ask.Cancellation).ConfigureAwait(false);
        return tapped && NowWords.Of(sight.Picture) is { IsUrgent: false, Action: { EntryKind: not null } action }
            ? Routes.Write(job, action)
            : Routes.Job(job);
    }

    private static Answer Form(Ask ask, Car? car, Typed typed, ImmutableArray<InputProblem> problems, Guid id)
    {
        var sheet = new FormSheet(Car.Schema, typed, ask.Visit.System)
        {
            Problems = problems,
            First = car is null ? "label" : null,
        };
        return Answer.Show<CarFormPage>(
            problems.Length > 0,
            (nameof(CarFormPage.Title), car is null ? Say.It("Add a car") : Say.It($"Label data of {car.Label}")),
            (nameof(CarFormPage.IsNew), car is null),
            (nameof(CarFormPage.Sheet), sheet),
            (nameof(CarFormPage.Id), id)
        );
    }
}
