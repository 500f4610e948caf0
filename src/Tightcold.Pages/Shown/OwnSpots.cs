using Tightcold.Jobs.Cars;

namespace Tightcold.Pages.Shown;

/// <summary>Spots that somebody added to a car's circuit, or took out, as its label data keep them.</summary>
internal static class OwnSpots
{
    public static IEnumerable<string> Of(Car car, string field) =>
        (car.Fields.Text(field) ?? "").Split(
            ',',
            StringSplitOptions.TrimEntries | StringSplitOptions.RemoveEmptyEntries
        );
}
