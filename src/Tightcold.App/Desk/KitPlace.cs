using Tightcold.Jobs.Fields;
using Tightcold.Procedures.Places;
using Tightcold.Quantities;

namespace Tightcold.App.Desk;

/// <summary>The place in the kit, as it is typed: one of the standard's list, kept with the code that settles it, or
/// said not to be said. What an old kit says in its own words stays as it is.</summary>
internal static class KitPlace
{
    private const string Field = "jurisdiction";

    /// <param name="bag">The kit as read.</param>
    /// <param name="old">The kit before.</param>
    /// <returns>The kit with the place as the list writes it, or why it was not taken.</returns>
    public static (FieldBag Bag, InputProblem? Problem) Settle(FieldBag bag, FieldBag old)
    {
        if (bag.Text(Field) is not { } typed || typed == old.Text(Field))
            return (bag, null);
        var reading = Gazetteer.Read(typed);
        if (reading.Place is { } place)
            return (bag.With(Field, new FieldValue.Text(place.Label)), null);
        if (string.Equals(typed, Gazetteer.NotSaid, StringComparison.OrdinalIgnoreCase))
            return (bag.With(Field, new FieldValue.Text(Gazetteer.NotSaid)), null);
        return (
            bag,
            new InputProblem(
                Field,
                typed,
                reading.Offered.IsEmpty
                    ? Phrase.Of(
                        $"a country or region is allowed by its code or whole name (tightcold places finds them); or "
                            + $"“{Phrase.Verbatim(Gazetteer.NotSaid)}”"
                    )
                    : Phrase.Of(
                        $"a country or region is allowed by its code or whole name, such as "
                            + $"{Gazetteer.Either(reading.Offered)}; or “{Phrase.Verbatim(Gazetteer.NotSaid)}”"
                    )
            )
        );
    }
}
