using System.Collections.Immutable;
using Tightcold.Jobs.Entries;
using Tightcold.Jobs.Fields;
using Tightcold.Jobs.Journals;
using Tightcold.Jobs.Kits;
using Tightcold.Quantities;
using static Tightcold.Jobs.Fields.Field;

namespace Tightcold.Jobs.Kinds;

/// <summary>A can or cylinder is connected, opened, shut, taken off. To the high side, too warm, or with another
/// refrigerant in it, it is refused.</summary>
internal sealed class ContainerMovedKind()
    : Kind(
        EntryKinds.ContainerMoved,
        "Can or cylinder",
        [
            .. Open(
                Container(FieldNames.Container, "Which", required: true).Kept(),
                Choice(
                    FieldNames.Action,
                    "What",
                    true,
                    Chosen.Connected,
                    Chosen.Opened,
                    Chosen.Closed,
                    Chosen.Emptied,
                    Chosen.Disconnected
                ),
                Choice(FieldNames.Side, "Side", false, "low side", Chosen.HighSide).Kept()
            ),
            Choice(FieldNames.Position, "Position", false, "upright (vapour)", Chosen.Inverted).Kept(),
            Temperature(FieldNames.BathTemperature, "Water bath", hint: "never above 52 °C / 125 °F")
                .UsuallyCelsius(10, 50),
        ]
    )
{
    public override CircuitEffect Effect => CircuitEffect.MovesContainer;
    public override ImmutableArray<(Step Step, int Rank)> Steps => [(Step.WeighIn, 1)];

    public override Phrase Caution { get; } =
        Phrase.Words(
            "Goggles and gloves on: liquid refrigerant freezes skin and eyes. A can is opened to the low side only; "
                + "opened to the high side it can burst."
        );

    public override IEnumerable<InputProblem> Refuse(JobRecord record, Entry entry)
    {
        var fields = entry.Fields;
        var action = fields.Text(FieldNames.Action);
        if (fields.Si(FieldNames.BathTemperature) > EntryRules.HighestBathKelvins)
            yield return InputProblem.Of(
                FieldNames.BathTemperature,
                Typed(entry, FieldNames.BathTemperature),
                $"a can may burst above {Quantities.Temperature.FromKelvins(EntryRules.HighestBathKelvins)}; warm "
                    + $"water below that only, never a flame"
            );
        if (action == Chosen.Opened && fields.Text(FieldNames.Side) == Chosen.HighSide)
            yield return InputProblem.Of(
                FieldNames.Side,
                Chosen.HighSide,
                $"a can is never opened to the high side: the system would drive its pressure back into the can and "
                    + $"burst it; use the low side"
            );
        if (action == Chosen.Opened && Identifier.SaidOtherwise(record, entry) is { } inside)
            yield return InputProblem.Of(
                FieldNames.Action,
                Chosen.Opened,
                $"an identifier said “{inside}” of what is in this car: it is recovered and the car evacuated before "
                    + $"anything goes in; refrigerants are never mixed"
            );
        if (
            action is Chosen.Connected or Chosen.Opened
            && record.KitAt(entry.ObservedAt).Find(fields.Text(FieldNames.Container) ?? "") is { } source
            && RefuseSource(record, source) is { } problem
        )
            yield return problem;
    }

    /// <summary>Only what is known to be this car's refrigerant goes in; a recovery cylinder also says what went into
    /// it.</summary>
    private static InputProblem? RefuseSource(JobRecord record, Container source)
    {
        if (source.Refrigerant != record.Car.Refrigerant)
            return InputProblem.Of(
                FieldNames.Container,
                source.Name,
                $"it holds {source.RefrigerantSays} and this car is labelled "
                    + $"{Phrase.Verbatim(record.Car.Refrigerant)}; refrigerants are never mixed"
            );
        var filled = !source.IsRecovery
            ? null
            : record
                .Journal.OfKind(EntryKinds.Recovery)
                .LastOrDefault(one =>
                    string.Equals(
                        one.Fields.Text(FieldNames.Container),
                        source.Name,
                        StringComparison.OrdinalIgnoreCase
                    )
                );
        return filled is not null && filled.Fields.Text(FieldNames.Identified) != Chosen.AsLabelled
            ? InputProblem.Of(
                FieldNames.Container,
                source.Name,
                $"what was recovered into it was not identified as {Phrase.Verbatim(record.Car.Refrigerant)}: identify "
                    + $"it and say so at the recovery, or send it to reclaim; what is mixed or unknown never goes into "
                    + $"a car"
            )
            : null;
    }
}
