namespace Tightcold.Diagnosis.Measurement;

/// <summary>Whether a shortage of refrigerant shows in a running car.</summary>
internal static class Shortage
{
    // Receiver or accumulator as good as empty, and then vapour in the liquid line or an evaporator that boils dry
    // early, as far as it costs cooling: the vent a kelvin or so (docs/physics/loop.md). Eyes at a glass see far less
    // vapour.
    private const double StoreEmpty = 0.02,
        Vapour = 0.04,
        VapourInGlass = 0.004,
        DryK = 14;

    /// <param name="predicted">A row of <see cref="Predicted.Width"/>.</param>
    /// <param name="glassLooked">Somebody looked into the glass.</param>
    public static bool Shows(ReadOnlySpan<double> predicted, bool glassLooked) =>
        predicted[Predicted.Off] > 0
        || (
            predicted[Predicted.StoreLevel] < StoreEmpty
            && (
                predicted[Predicted.GlassQuality] > (glassLooked ? VapourInGlass : Vapour)
                || predicted[Predicted.SuperheatK] > DryK
            )
        );
}
