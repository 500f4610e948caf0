using System.ComponentModel;
using System.Globalization;
using System.Text.Json.Nodes;
using Tightcold.Cli.Show;
using Tightcold.Cli.Wiring;
using Tightcold.Diagnosis.Acceptance;
using Tightcold.Diagnosis.Priors;
using Tightcold.Findings;
using Tightcold.Jobs.Entries;
using Tightcold.Picture;
using Tightcold.Procedures.Cold.Trial;

namespace Tightcold.Cli.Commands.Charge;

internal sealed class VerifySettings : DeskSettings
{
    [CommandArgument(0, "[NUMBER]")]
    [Description("Number of the job.")]
    public int? Number { get; init; }

    [CommandOption("--trial <CARS>")]
    [Description(
        "Instead of a job: judge so many simulated healthy and as many faulty cars and print how often it is wrong."
    )]
    public int? Trial { get; init; }

    [CommandOption("--seed <NUMBER>")]
    [Description("Of the trial; 20 unless given.")]
    public int? Seed { get; init; }
}

/// <summary>The proof of cold of a job, or how often that proof is wrong about simulated cars.</summary>
internal sealed class VerifyCommand(Surroundings surroundings) : DeskCommand<VerifySettings>(surroundings)
{
    private const int MostCars = 20_000;

    protected override bool NeedsData(VerifySettings settings) => settings.Trial is null;

    protected override async Task<int> RunAsync(VerifySettings settings, CancellationToken cancellation)
    {
        if (settings.Trial is { } cars)
        {
            if (cars is < 1 or > MostCars)
                throw new RefusedException(
                    "trial",
                    cars.ToString(CultureInfo.InvariantCulture),
                    "1 to 20000 cars are allowed"
                );
            return Trial(settings, cars, settings.Seed ?? 20);
        }
        if (settings.Number is not { } number)
            throw new RefusedException("number", "", "the number of a job is needed, or --trial 1000");
        var record = await RecordAsync(number, cancellation).ConfigureAwait(false);
        var finding = Walk.Of(Step.ProveCold, await Desk.PictureAsync(record, cancellation).ConfigureAwait(false));
        return Answer(
            settings,
            () => new JsonObject { ["job"] = number, ["finding"] = FindingText.Machine(finding, Units) },
            () => FindingText.Show(Out, finding, record, Units)
        );
    }

    private int Trial(VerifySettings settings, int cars, int seed)
    {
        var rates = ColdTrial.Run(LoopCars.Of(new CarKnowledge("R134a")), cars, cars, seed);
        var healthy = rates.Where(rate => rate.Fault == CarFault.None).ToArray();
        var faulty = rates.Where(rate => rate.Fault != CarFault.None).ToArray();
        double falseAlarm = (double)healthy.Sum(rate => rate.CalledSick) / healthy.Sum(rate => rate.Cars);
        double miss = (double)faulty.Sum(rate => rate.CalledHealthy) / faulty.Sum(rate => rate.Cars);
        var felt = faulty.Sum(rate => rate.Felt);
        double? missFelt = felt > 0 ? (double)faulty.Sum(rate => rate.FeltCalledHealthy) / felt : null;
        static string Percent(double share) => (share * 100).ToString("0.0", CultureInfo.InvariantCulture) + " %";
        return Answer(
            settings,
            () =>
                new JsonObject
                {
                    ["seed"] = seed,
                    ["false-alarm"] = falseAlarm,
                    ["miss"] = miss,
                    ["miss-of-felt"] = missFelt,
                    ["felt"] = felt,
                    ["kinds"] = new JsonArray([
                        .. rates.Select(rate =>
                            (JsonNode)
                                new JsonObject
                                {
                                    ["fault"] = FindingText.Kebab(rate.Fault.ToString()),
                                    ["cars"] = rate.Cars,
                                    ["called-healthy"] = rate.CalledHealthy,
                                    ["cannot-tell"] = rate.CannotTell,
                                    ["called-sick"] = rate.CalledSick,
                                    ["felt"] = rate.Felt,
                                    ["felt-called-healthy"] = rate.FeltCalledHealthy,
                                }
                        ),
                    ]),
                },
            () =>
            {
                var table = new TextTable(
                    "simulated cars",
                    "cars",
                    "called healthy",
                    "cannot tell",
                    "called sick",
                    "4 K or more too warm",
                    "of those called healthy"
                );
                foreach (var rate in rates)
                    table.Row(
                        Words(rate.Fault),
                        Count(rate.Cars),
                        Count(rate.CalledHealthy),
                        Count(rate.CannotTell),
                        Count(rate.CalledSick),
                        Count(rate.Felt),
                        Count(rate.FeltCalledHealthy)
                    );
                table.Show(Out);
                Page.Line(
                    Out,
                    $"False alarm: {Percent(falseAlarm)} of healthy cars called sick. Miss: {Percent(miss)} of all "
                        + $"faulty cars called healthy; {(missFelt is { } share ? Percent(share) : "none")} of those "
                        + $"that blow 4 K or more too warm."
                );
                Page.Line(
                    Out,
                    "The cars are simulated by a model of another build; the rates say nothing of cars unlike them. A "
                        + "fault that leaves the vent as cold as before cannot be seen at the vent."
                );
            }
        );
    }

    private static string Count(int count) => count.ToString(CultureInfo.InvariantCulture);

    private static string Words(CarFault fault) =>
        fault switch
        {
            CarFault.None => "healthy",
            CarFault.Undercharge => "too little refrigerant",
            CarFault.WeakCompressor => "weak compressor",
            CarFault.BlockedCondenser => "condenser short of air",
            CarFault.AirOrOvercharge => "air inside or too much",
            _ => "blend door lets heat in",
        };
}
