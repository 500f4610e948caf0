using Tightcold.Jobs.Cars;
using Tightcold.Jobs.Fields;
using Tightcold.Loop.Designs;
using Tightcold.Quantities;

namespace Tightcold.App.Expectation;

/// <summary>From what a label says to a design of the loop model, and what had to be guessed on the way.</summary>
public static class CarDesign
{
    /// <param name="car">The car of the book; null for one described by the question's own fields.</param>
    /// <param name="day">The question; its fields win over the car's.</param>
    public static (LoopDesign Design, IReadOnlyList<Phrase> Guesses) Of(Car? car, ExpectationDay day)
    {
        ArgumentNullException.ThrowIfNull(day);
        var guesses = new List<Phrase>();
        var refrigerant = day.Fields.Text(FieldNames.Refrigerant) ?? car?.Refrigerant;
        if (string.IsNullOrEmpty(refrigerant))
        {
            refrigerant = "R-134a";
            guesses.Add(Phrase.Words("Refrigerant not given: taken as R-134a."));
        }

        var label = day.Fields.Get<RefrigerantMass>(FieldNames.LabelCharge)?.Kilograms ?? car?.LabelCharge?.Kilograms;
        var (compressor, expansion) = Architecture(
            day.Fields.Text(FieldNames.Compressor) ?? car?.Compressor,
            day.Fields.Text(FieldNames.Device) ?? car?.Device,
            guesses
        );
        var size = day.Fields.Text("size") switch
        {
            "small" => SizeClass.Small,
            "medium" => SizeClass.Medium,
            "large" => SizeClass.Large,
            "two evaporators" => SizeClass.Dual,
            _ => Size(label, car?.Evaporators ?? 1, guesses),
        };
        var displacement = day.Fields.Get<OilVolume>("displacement")?.CubicMetres;
        guesses.Add(
            displacement is null
                ? Phrase.Words(
                    "Compressor, exchangers, fan and lines are those of an ordinary car of its size: the spread "
                        + "beside each figure is for that."
                )
                : Phrase.Words(
                    "Exchangers, fan and lines are those of an ordinary car of its size: the spread beside each "
                        + "figure is for that."
                )
        );
        if (label is null)
            guesses.Add(Phrase.Words("Label charge not given: the model's own is used."));
        return (LoopDesigns.Of(size, compressor, expansion, refrigerant, label, displacement), guesses);
    }

    private static (CompressorKind Compressor, ExpansionKind Expansion) Architecture(
        string? compressor,
        string? device,
        List<Phrase> guesses
    )
    {
        if (device is null)
            guesses.Add(
                compressor == Car.Cycling
                    ? Phrase.Words(
                        "Expansion device not given: taken as an orifice tube, as cycling compressors mostly have."
                    )
                    : Phrase.Words("Expansion device not given: taken as an expansion valve.")
            );
        var expansion =
            device == Car.OrificeTube || (device is null && compressor == Car.Cycling)
                ? ExpansionKind.OrificeTube
                : ExpansionKind.ExpansionValve;
        if (compressor is null)
            guesses.Add(Phrase.Words("Compressor not given: taken as one of fixed displacement with a clutch."));
        var kind = compressor switch
        {
            Car.Variable => CompressorKind.Variable,
            Car.Electric => CompressorKind.Electric,
            Car.Cycling when expansion == ExpansionKind.OrificeTube => CompressorKind.FixedCycling,
            null when expansion == ExpansionKind.OrificeTube => CompressorKind.FixedCycling,
            _ => CompressorKind.FixedWithFinThermostat,
        };
        return (kind, expansion);
    }

    private static SizeClass Size(double? label, int evaporators, List<Phrase> guesses)
    {
        if (label is { } charge)
            return LoopDesigns.SizeOf(charge, evaporators);
        guesses.Add(Phrase.Words("Size not given: an ordinary car."));
        return evaporators > 1 ? SizeClass.Dual : SizeClass.Medium;
    }
}
