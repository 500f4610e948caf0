using System.Globalization;
using Tightcold.Findings.Now;
using Tightcold.Jobs.Entries;
using Tightcold.Jobs.Fields;
using Tightcold.Jobs.Journals;
using Tightcold.Pages.Words;
using Tightcold.Picture.Now;
using Tightcold.Tongues;

namespace Tightcold.Pages.Asked;

/// <summary>The addresses of the site, in one place.</summary>
public static class Routes
{
    public const string Start = "/";
    public const string Kit = "/kit";
    public const string NewContainer = "/kit/containers/new";
    public const string NewCar = "/cars/new";
    public const string Import = "/import";
    public const string Everything = "/everything";

    /// <summary>With another store: what it lacks, what is lacking here.</summary>
    public const string Exchange = "/exchange";
    public const string Tally = "/exchange/tally";
    public const string Lacking = "/exchange/lacking";
    public const string Ledger = "/ledger";
    public const string AllTimers = "/timers";
    public const string LedgerCsv = "/ledger.csv";

    public static string ChangeContainer(string name) => "/kit/containers/" + Uri.EscapeDataString(name);

    /// <summary>Where the owner lets phones in; a host without a network has none.</summary>
    public const string Devices = "/devices";

    /// <summary>Where a phone shows its code to be let in.</summary>
    public const string Pair = "/pair";

    /// <summary>Where a site hands out the program for the phone itself.</summary>
    public const string Phone = "/phone/";
    public const string Units = "/units";
    public const string Light = "/light";
    public const string Voice = "/voice";
    public const string Language = "/language";

    public static string Car(Guid id) => $"/cars/{id}";

    public static string EditCar(Guid id) => $"/cars/{id}/edit";

    public static string Circuit(Guid carId) => $"/cars/{carId}/circuit";

    public static string NewJob(Guid carId) => $"/cars/{carId}/jobs/new";

    public static string Job(Job job) => string.Create(CultureInfo.InvariantCulture, $"/jobs/{job.Number}");

    public static string News(Job job) => Job(job) + "/news";

    /// <summary>A step's own page.</summary>
    public static string Step(Job job, Step step) => $"{Job(job)}/steps/{StepWords.Slug(step)}";

    /// <summary>From a step's page back to its line, where the thumb was.</summary>
    public static string Back(Job job, Step step) => $"{Job(job)}#{StepWords.Slug(step)}";

    public static string Journal(Job job) => Job(job) + "/journal";

    /// <summary>The search: the map, one spot after the other, or all at once.</summary>
    public static string Search(Job job, string? spot = null, string? test = null, bool all = false) =>
        Job(job) + (all ? "/search/all" : "/search") + Query(("spot", spot), ("test", test));

    /// <summary>What was done at one spot, in one go.</summary>
    public static string Mend(Job job, string? spot = null, Guid? wrote = null) =>
        Job(job) + "/mend" + Query(("spot", spot), ("wrote", wrote?.ToString()));

    /// <summary>To a spot of the search from elsewhere, with what was just written read back there.</summary>
    public static string Searched(Job job, string? spot, Guid wrote) =>
        Job(job) + "/search" + Query(("spot", spot), ("wrote", wrote.ToString()));

    /// <summary>The form that takes the nitrogen's pressure down; who taps it says that it is dry nitrogen.</summary>
    public static string Nitrogen(Job job, Guid? wrote = null) =>
        NewEntry(job, EntryKinds.PressureTest)
        + Query((Forms.Typed.NumberName("gas"), "dry nitrogen"), ("wrote", wrote?.ToString()));

    public static string WeighIn(Job job) => Job(job) + "/weigh-in";

    public static string Expect(Job job) => Job(job) + "/expect";

    public static string Card(Job job) => Job(job) + "/card";

    /// <summary>The card in another language than its reader's.</summary>
    public static string Card(Job job, Tongue tongue) => $"{Card(job)}?language={tongue.Name}";

    /// <summary>The card as a file, without the way back.</summary>
    public static string CardFile(Job job, Tongue tongue) => $"{Job(job)}/card.html?language={tongue.Name}";

    public static string Label(Guid carId) => Car(carId) + "/label";

    public static string Calendar(Job job) => Job(job) + "/next-check.ics";

    public static string Timers(Job job) => Job(job) + "/timers";

    public static string Decide(Job job) => Job(job) + "/ways";

    public static string GaugeLog(Job job) => Job(job) + "/gauge-log";

    public static string Export(Job job) => Job(job) + "/export";

    public static string AnyEntry(Job job) => Job(job) + "/entries/new";

    public static string NewEntry(Job job, string kind) => $"{Job(job)}/entries/new/{kind}";

    /// <summary>After a look: back to the search, the next spot chosen.</summary>
    public static string Looked(Job job, string? next, Entry wrote)
    {
        ArgumentNullException.ThrowIfNull(wrote);
        return Job(job)
            + "/search"
            + Query(("spot", next), ("test", wrote.Fields.Text(FieldNames.Test)), ("wrote", wrote.Id.ToString()));
    }

    /// <summary>Where the one thing to do now is done, and what the button says; null where nothing is to be
    /// done.</summary>
    public static (string Address, string Words)? Do(JobRecord record, NowLine line)
    {
        ArgumentNullException.ThrowIfNull(record);
        ArgumentNullException.ThrowIfNull(line);
        return line switch
        {
            { Kind: NowKind.LabelCharge } => (EditCar(record.Car.Id), Say.It("Write down: the label’s charge")),
            { Kind: NowKind.NoContainer } => (NewContainer, Say.It("Add a can to the kit")),
            { Action: { EntryKind: not null } action } => Doing(record.Job, action),
            _ => null,
        };
    }

    /// <summary>The same of one action with a form.</summary>
    public static (string Address, string Words) Doing(Job job, Findings.NextAction action)
    {
        ArgumentNullException.ThrowIfNull(action);
        return (
            Write(job, action),
            action.EntryKind switch
            {
                EntryKinds.ScaleReading or EntryKinds.ContainerMoved => Say.It("Weigh in"),
                EntryKinds.LeakCheck => Say.It("Search"),
                EntryKinds.SealChanged => Say.It("Mend"),
                EntryKinds.JobState when action.Known.Any(known => known.Text == "closed") => Say.It("Close the job"),
                var kind => Say.It($"Write down: {Say.Within(EntryKinds.Get(kind!).Label)}"),
            }
        );
    }

    /// <summary>The form that takes an action down, with what is known of it filled in.</summary>
    /// <param name="job">Of which job.</param>
    /// <param name="action">What.</param>
    /// <param name="wrote">What was just written, to be read back there.</param>
    public static string Write(Job job, Findings.NextAction action, Guid? wrote = null)
    {
        ArgumentNullException.ThrowIfNull(action);
        string? Known(string field) => action.Known.FirstOrDefault(known => known.Field == field).Text;
        if (action.EntryKind is EntryKinds.ScaleReading or EntryKinds.ContainerMoved)
            return WeighIn(job) + Query(("wrote", wrote?.ToString()));
        if (action.EntryKind == EntryKinds.SealChanged)
            return Mend(job, Known("spot"), wrote);
        if (action.EntryKind == EntryKinds.LeakCheck)
            return Job(job)
                + "/search"
                + Query(("spot", Known("spot")), ("test", Known("test")), ("wrote", wrote?.ToString()));
        (string Name, string? Value)[] query =
        [
            ("first", action.First),
            ("wrote", wrote?.ToString()),
            .. action.Known.Select(known => (Forms.Typed.NumberName(known.Field), (string?)known.Text)),
        ];
        var begins = action is { First: { } first, EntryKind: not EntryKinds.Sign } ? "#" + Forms.Typed.Id(first) : "";
        return NewEntry(job, action.EntryKind!) + Query(query) + begins;
    }

    public static string Entry(Job job, Guid id) => $"{Job(job)}/entries/{id}";

    public static string Photos(Job job, Guid entry) => Entry(job, entry) + "/photos";

    public static string Photo(Job job, Guid photo) => $"{Job(job)}/photos/{photo}";

    public static string Correct(Job job, Guid id) => Entry(job, id) + "/correct";

    public static string Strike(Job job, Guid id) => Entry(job, id) + "/strike";

    public const string Jobs = "/jobs";
    public const string Cars = "/cars";

    /// <summary>A part of the list of jobs.</summary>
    public static string FindJobs(string? state, string find, int? before) =>
        Jobs + Query(("state", state), ("find", find), ("before", before?.ToString(CultureInfo.InvariantCulture)));

    /// <summary>A part of the list of cars.</summary>
    public static string FindCars(string find, int skip) =>
        Cars + Query(("find", find), ("skip", skip > 0 ? skip.ToString(CultureInfo.InvariantCulture) : null));

    private static string Query(params ReadOnlySpan<(string Name, string? Value)> pairs)
    {
        var query = "";
        foreach (var (name, value) in pairs)
            if (!string.IsNullOrEmpty(value))
                query += (query.Length == 0 ? "?" : "&") + name + "=" + Uri.EscapeDataString(value);
        return query;
    }
}
