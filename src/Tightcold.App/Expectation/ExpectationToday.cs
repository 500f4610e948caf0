using System.Collections.Immutable;
using System.Globalization;
using Tightcold.App.Desk;
using Tightcold.App.Units;
using Tightcold.Jobs.Cars;
using Tightcold.Jobs.Entries;
using Tightcold.Jobs.Fields;
using Tightcold.Jobs.Journals;
using Tightcold.Loop.Refrigerant;
using Tightcold.Picture.Pressures;
using Tightcold.Properties;
using Tightcold.Tongues;

namespace Tightcold.App.Expectation;

/// <summary>"What should I see?" for the car and the weather of a job: the question, or the fields it lacks.</summary>
/// <param name="Day">The question; null while something is missing.</param>
/// <param name="MissingWeather">Fields of the weather that are missing, as a person reads them.</param>
/// <param name="MissingLabel">Fields of the car's label that are missing, as a person reads them.</param>
/// <param name="Refusal">Why the model cannot answer for this refrigerant, said; null where it can.</param>
public sealed record ExpectationToday(
    ExpectationDay? Day,
    ImmutableArray<string> MissingWeather,
    ImmutableArray<string> MissingLabel,
    string? Refusal
)
{
    /// <param name="at">The moment asked about.</param>
    /// <param name="rpm">Engine speed as the form has it, such as "1500 rpm".</param>
    /// <param name="air">"doors open" or "recirculation".</param>
    public static ExpectationToday Of(JobRecord record, DateTimeOffset at, string rpm, string air)
    {
        ArgumentNullException.ThrowIfNull(record);
        var weather = record.WeatherAt(at);
        ImmutableArray<string> noWeather =
        [
            .. Missing(
                EntryKinds.Get(EntryKinds.Weather),
                name => weather?.Fields.Si(name),
                FieldNames.AmbientTemperature,
                FieldNames.RelativeHumidity
            ),
        ];
        ImmutableArray<string> noLabel =
        [
            .. Missing(
                Car.Schema,
                name => record.Car.Fields.Text(name) is null ? record.Car.Fields.Si(name) : 0,
                "refrigerant",
                FieldNames.LabelCharge
            ),
        ];
        if (
            record.Car.Refrigerant.Length > 0
            && !RefrigerantTables.Names.Contains(FluidCatalog.Get(record.Car.Refrigerant).Name)
        )
            return new(
                null,
                noWeather,
                noLabel,
                Say.It($"The model speaks for R-134a, R-1234yf and R-152a; the label says {record.Car.Refrigerant}.")
            );
        if (noWeather.Length + noLabel.Length > 0)
            return new(null, noWeather, noLabel, null);
        var typed = new Dictionary<string, string>(StringComparer.Ordinal)
        {
            ["ambient"] = Text(weather!.Fields.Si(FieldNames.AmbientTemperature)!.Value, "K"),
            ["humidity"] = Text(100 * weather.Fields.Si(FieldNames.RelativeHumidity)!.Value, "%"),
            [FieldNames.EngineSpeed] = rpm,
            ["air"] = air,
        };
        if (AirPressure.At(record, at).Known is { } pressure)
            typed["barometer"] = Text(pressure.Pascals / 1e5, "bar abs");
        var (bag, problems) = FieldReader.Read(ExpectationDay.Schema, typed, CultureInfo.InvariantCulture);
        return problems.Count == 0
            ? new(new ExpectationDay(bag), [], [], null)
            : new(null, [], [], string.Join(" ", problems.Select(problem => Spoken.Of(problem.Sentence))));
    }

    private static IEnumerable<string> Missing(
        Jobs.Fields.Schema schema,
        Func<string, double?> value,
        params string[] names
    ) => names.Where(name => value(name) is null).Select(name => Say.It(schema.Find(name)?.Label ?? name));

    private static string Text(double value, string unit) =>
        string.Create(CultureInfo.InvariantCulture, $"{value:R} {unit}");
}
