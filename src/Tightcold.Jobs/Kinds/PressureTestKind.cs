using System.Collections.Immutable;
using Tightcold.Jobs.Entries;
using Tightcold.Jobs.Fields;
using Tightcold.Jobs.Journals;
using Tightcold.Quantities;
using static Tightcold.Jobs.Fields.Field;

namespace Tightcold.Jobs.Kinds;

/// <summary>The circuit under nitrogen, read again after a while. Any other gas is refused.</summary>
internal sealed class PressureTestKind()
    : Kind(
        EntryKinds.PressureTest,
        "Pressure test with nitrogen",
        Choice(
                FieldNames.Gas,
                "Gas",
                true,
                "dry nitrogen",
                "nitrogen with 5 % hydrogen",
                Chosen.Oxygen,
                Chosen.CompressedAir,
                Chosen.Acetylene
            )
            .Kept(),
        Gauge(FieldNames.Pressure, "Pressure", required: true).UsuallyBar(2, 16),
        Air(FieldNames.GasTemperature, "Temperature of the parts", required: true),
        Minutes(FieldNames.SinceFilled, "Since it was filled", 60 * 24 * 30, hint: "filling warms it: 15 min to settle")
    )
{
    public override CircuitEffect Effect => CircuitEffect.TestGas;
    public override ImmutableArray<(Step Step, int Rank)> Steps => [(Step.Hold, 1)];

    public override Phrase Caution { get; } =
        Phrase.Words(
            "Dry nitrogen through a regulator with relief, nothing else: oil explodes with oxygen, and refrigerant "
                + "mixed with pressed air can burn."
        );

    public override IEnumerable<InputProblem> Refuse(JobRecord record, Entry entry)
    {
        var gas = entry.Fields.Text(FieldNames.Gas);
        if (gas is Chosen.Oxygen or Chosen.CompressedAir or Chosen.Acetylene)
            yield return InputProblem.Of(
                FieldNames.Gas,
                gas,
                $"only dry nitrogen (or nitrogen with at most 5 % hydrogen) through a regulator with relief; oil "
                    + $"explodes with oxygen, and refrigerant mixed with pressed air can burn"
            );
        else if (
            entry.Fields.Get<GaugePressure>(FieldNames.Pressure) > GaugePressure.FromPascals(EntryRules.HighestTestPa)
        )
            yield return InputProblem.Of(
                FieldNames.Pressure,
                Typed(entry, FieldNames.Pressure),
                $"more than {GaugePressure.FromPascals(EntryRules.HighestTestPa)} can burst low-side parts; the "
                    + $"vehicle maker's figure rules"
            );
    }
}
