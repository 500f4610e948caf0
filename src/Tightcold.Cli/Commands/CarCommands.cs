using System.ComponentModel;
using System.Text.Json.Nodes;
using Tightcold.App.Desk;
using Tightcold.App.Typed;
using Tightcold.Cli.Show;
using Tightcold.Cli.Wiring;
using Tightcold.Jobs.Cars;
using Tightcold.Jobs.Fields;
using Tightcold.Jobs.Json;
using Tightcold.Quantities;
using Tightcold.Tongues;

namespace Tightcold.Cli.Commands;

internal sealed class CarNewSettings : DeskSettings
{
    [CommandArgument(0, "[name=value]")]
    [Description("Fields; label and refrigerant are needed.")]
    public string[]? Fields { get; init; }
}

internal sealed class CarShowSettings : DeskSettings
{
    [CommandArgument(0, "<CAR>")]
    [Description("The car's name, or the last digits of its id.")]
    public string Car { get; init; } = "";

    [CommandArgument(1, "[name=value]")]
    [Description("Fields to change; an empty value clears one.")]
    public string[]? Fields { get; init; }
}

internal sealed class CarNew(Surroundings surroundings) : DeskCommand<CarNewSettings>(surroundings)
{
    protected override async Task<int> RunAsync(CarNewSettings settings, CancellationToken cancellation)
    {
        var car = (
            await Desk.AddCarAsync(FieldArguments.Read(settings.Fields), cancellation).ConfigureAwait(false)
        ).Value();
        return Answer(settings, () => new JsonObject { ["car"] = Cars.Machine(car) }, () => Cars.Show(Out, car, Units));
    }
}

internal sealed class CarList(Surroundings surroundings) : DeskCommand<DeskSettings>(surroundings)
{
    protected override async Task<int> RunAsync(DeskSettings settings, CancellationToken cancellation)
    {
        var cars = await Desk.CarsAsync(cancellation).ConfigureAwait(false);
        return Answer(
            settings,
            () => new JsonObject { ["cars"] = new JsonArray([.. cars.Select(Cars.Machine)]) },
            () =>
            {
                if (cars.Count == 0)
                {
                    Page.Line(
                        Out,
                        Say.It("No car yet. Enter one: tightcold car new label=\"blue estate\" refrigerant=R-134a")
                    );
                    return;
                }
                var table = new TextTable("id", Say.It("car"), Say.It("refrigerant"), Say.It("label charge"));
                foreach (var car in cars)
                    table.Row(
                        Ids.Short(car.Id),
                        car.Label,
                        car.Refrigerant,
                        car.Fields[FieldNames.LabelCharge] is { } charge
                            ? BagText.Value(charge, Units)
                            : Say.It("unknown")
                    );
                table.Show(Out);
            }
        );
    }
}

internal sealed class CarShow(Surroundings surroundings) : DeskCommand<CarShowSettings>(surroundings)
{
    protected override async Task<int> RunAsync(CarShowSettings settings, CancellationToken cancellation)
    {
        var car = await Cars.FindAsync(Desk, settings.Car, cancellation).ConfigureAwait(false);
        if (settings.Fields is { Length: > 0 })
            car = (
                await Desk.UpdateCarAsync(car.Id, FieldArguments.Read(settings.Fields), cancellation)
                    .ConfigureAwait(false)
            ).Value();
        return Answer(settings, () => new JsonObject { ["car"] = Cars.Machine(car) }, () => Cars.Show(Out, car, Units));
    }
}

/// <summary>What the car and job commands share.</summary>
internal static class Cars
{
    internal static JsonNode Machine(Car car) =>
        new JsonObject { ["id"] = car.Id.ToString(), ["fields"] = FieldBagJson.Write(car.Fields) };

    public static void Show(Spectre.Console.IAnsiConsole console, Car car, App.Units.ReaderUnits units)
    {
        Page.Heading(console, $"{car.Label} [{Ids.Short(car.Id)}]");
        foreach (var line in BagText.Lines(Car.Schema, car.Fields, units))
            Page.Line(console, "  " + line);
    }

    public static async Task<Car> FindAsync(JobDesk desk, string typed, CancellationToken cancellation)
    {
        var cars = await desk.CarsAsync(cancellation).ConfigureAwait(false);
        var found = cars.Where(car => string.Equals(car.Label, typed.Trim(), StringComparison.OrdinalIgnoreCase))
            .ToList();
        if (found.Count == 0)
            found = [.. cars.Where(car => Ids.Fits(car.Id, typed))];
        return found.Count == 1
            ? found[0]
            : throw new RefusedException(
                "car",
                typed,
                found.Count > 1
                    ? Phrase.Words("more than one car is called so; use its id from tightcold car list")
                    : Phrase.Of(
                        $"no car is called so; {Nearest.Hint(typed, cars.Select(car => car.Label))}see tightcold car "
                            + $"list"
                    )
            );
    }
}
