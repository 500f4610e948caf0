using System.Globalization;
using Tightcold.App.Desk;
using Tightcold.Jobs.Fields;
using Tightcold.Jobs.Journals;

namespace Tightcold.App.Demo;

/// <summary>The demo job, played through the same desk and database as any other: an invented car with two leaks.
/// How its readings were made is told in docs/demo.md.</summary>
public static class DemoScenario
{
    public const string Who = "Odalys Venn";
    public const string Complaint = "Blows warm since spring; was filled up last summer";

    /// <summary>Saturday morning, 18 July 2026, summer time.</summary>
    public static readonly DateTimeOffset Start = new(2026, 7, 18, 7, 40, 0, TimeSpan.FromHours(2));

    public static readonly Guid CarId = DemoIds.Of("car");

    private static readonly Dictionary<string, string> Car = new(StringComparer.Ordinal)
    {
        ["label"] = "Grey estate with the dented hatch",
        ["model-year"] = "2011",
        ["refrigerant"] = "R-134a",
        ["label-charge"] = "550 g",
        ["label-tolerance"] = "20 g",
        ["label-charge-source"] = "label",
        ["compressor"] = "variable",
        ["device"] = "expansion valve",
        ["evaporators"] = "1",
        ["oil-type"] = "PAG 46",
        ["oil-amount"] = "120 mL",
        ["dye"] = "yes",
    };

    private static readonly Dictionary<string, string> Kit = new(StringComparer.Ordinal)
    {
        ["owner"] = Who,
        ["place"] = "Kettlemoor, yard behind the mill",
        ["altitude"] = "640 m",
        ["jurisdiction"] = "California, United States (US-CA)",
        ["works"] = Jobs.Kits.Kit.OwnCars,
        ["low-gauge-plus-minus"] = "0.16 bar",
        ["low-gauge-step"] = "0.1 bar",
        ["high-gauge-plus-minus"] = "0.5 bar",
        ["high-gauge-step"] = "0.5 bar",
        ["thermometer-plus-minus"] = "1 K",
        ["hygrometer-plus-minus"] = "5 %",
        ["scale-step"] = "1 g",
        ["scale-plus-minus"] = "3 g",
        ["vacuum-gauge"] = "absolute",
        ["vacuum-gauge-plus-minus"] = "0.05 mbar",
        ["vacuum-gauge-step"] = "0.01 mbar",
        ["pump-free-air"] = "72 L/min",
        ["hose-bore"] = "5 mm",
        ["hose-length"] = "1.8 m",
        ["leak-tests"] = "UV lamp, electronic detector, nitrogen, soap bubbles",
    };

    private static readonly Dictionary<string, string>[] Containers =
    [
        new(StringComparer.Ordinal)
        {
            ["name"] = "Can A",
            ["kind"] = "can",
            ["refrigerant"] = "R-134a",
            ["net-as-sold"] = "300 g",
            ["tare"] = "92 g",
            ["gross-now"] = "392 g",
            ["self-sealing"] = "yes",
        },
        new(StringComparer.Ordinal)
        {
            ["name"] = "Can B",
            ["kind"] = "can",
            ["refrigerant"] = "R-134a",
            ["net-as-sold"] = "500 g",
            ["tare"] = "128 g",
            ["gross-now"] = "627 g",
            ["self-sealing"] = "yes",
        },
        new(StringComparer.Ordinal)
        {
            ["name"] = "R1",
            ["kind"] = "recovery cylinder",
            ["refrigerant"] = "R-134a",
            ["tare"] = "7.9 kg",
            ["gross-now"] = "9.42 kg",
            ["water-capacity"] = "12.2 kg",
        },
    ];

    /// <summary>Writes car, kit, job and all entries. Again on the same data it changes nothing: the ids are
    /// fixed.</summary>
    /// <param name="progress">Told after each entry is on disk: number done, number in all.</param>
    /// <returns>The number of the demo job.</returns>
    public static async Task<int> PlayAsync(
        IJobStore store,
        Action<int, int>? progress,
        CancellationToken cancellation = default
    )
    {
        if (
            (await store.JobsAsync(new JobSearch { CarId = CarId, Most = 1 }, cancellation).ConfigureAwait(false)).Jobs
            is [var known]
        )
            return known.Number;

        var clock = new DemoClock(Start.AddMinutes(-30));
        // Its texts are written in English, numbers too, whoever asks for it.
        var desk = new JobDesk(store, clock, new DemoIds(), CultureInfo.InvariantCulture);
        Insist(await desk.AddCarAsync(Car, cancellation).ConfigureAwait(false));
        clock.Now = Start.AddMinutes(-10);
        Insist(await desk.UpdateKitAsync(Kit, Start.AddMinutes(-20), cancellation).ConfigureAwait(false));
        for (var i = 0; i < Containers.Length; i++)
            Insist(
                await desk.AddContainerAsync(Containers[i], Start.AddMinutes(-19 + i), cancellation)
                    .ConfigureAwait(false)
            );
        clock.Now = Start;
        var job = Insist(await desk.OpenJobAsync(CarId, Complaint, cancellation).ConfigureAwait(false));

        var entries = DemoStory.Entries();
        for (var i = 0; i < entries.Count; i++)
        {
            var line = entries[i];
            var observed = Start.AddMinutes(line.Minute);
            clock.Now = observed.AddSeconds(20);
            Insist(
                await desk.AddEntryAsync(
                        job.Number,
                        line.Kind,
                        line.Fields,
                        observed,
                        Who,
                        line.Corrects is { } tag ? DemoIds.Of(tag) : null,
                        line.Reason,
                        DemoIds.Of(line.Tag ?? $"entry {i}"),
                        cancellation
                    )
                    .ConfigureAwait(false)
            );
            progress?.Invoke(i + 1, entries.Count);
        }
        return job.Number;
    }

    /// <summary>A demo that the program itself refuses is a bug in the demo.</summary>
    private static T Insist<T>(Outcome<T> outcome)
        where T : class =>
        outcome.Value
        ?? throw new InvalidOperationException(
            "the demo was refused: "
                + string.Join(" ", outcome.Problems.Select((InputProblem problem) => problem.Sentence.ToString()))
        );
}
