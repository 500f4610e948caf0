namespace Tightcold.Diagnosis.Measurement;

/// <summary>
/// How far a reading may lie from the model's for the same truth. Four parts: the instrument, most of which is the same
/// each time (zero, class); its step; the model's own error, most of which belongs to the car and so is the same each
/// time; and a small chance that the number is none (a unit mixed up, a probe slipped off). Figures assumed, with the
/// model's errors from loop-model practice; docs/physics/diagnosis.md.
/// </summary>
internal static class ErrorModel
{
    public const int Channels = 9;

    /// <summary>Chance that a number is a gross error.</summary>
    public const double GrossChance = 0.02;

    /// <summary>Share of the model's variance that all readings of a channel have in common.</summary>
    public const double SharedModel = 0.6;

    private const double SharedInstrument = 0.7;

    /// <summary>Standard deviation of the model's error, SI.</summary>
    public static double Discrepancy(Channel channel, double value) =>
        channel switch
        {
            Channel.LowSide => 0.18e5,
            Channel.LowSwingTop => 0.35e5,
            Channel.HighSide => 0.07 * Math.Abs(value),
            Channel.Vent => 2.3,
            Channel.SuctionLine => 4.2,
            Channel.LiquidLine => 3.6,
            Channel.HighSwingTop => 0.09 * Math.Abs(value),
            Channel.LineStep => 2.0,
            _ => 11,
        };

    /// <summary>Density of a gross error, or of a reading of no known car: even over all that the instrument can
    /// show.</summary>
    public static double Anything(Channel channel) =>
        channel switch
        {
            Channel.LowSide or Channel.LowSwingTop => 1 / 9e5,
            Channel.HighSide or Channel.HighSwingTop => 1 / 35e5,
            Channel.LineStep => 1 / 50.0,
            Channel.DischargeLine => 1 / 120.0,
            Channel.Vent => 1 / 45.0,
            _ => 1 / 70.0,
        };

    /// <param name="reading">A number as read.</param>
    /// <param name="sharedModel">What of the model's variance, as a share of the whole, is still not known of this car's
    /// fixed error; <see cref="SharedModel"/> where nothing is.</param>
    public static (double Shared, double Own) Sigmas(in Reading reading, double sharedModel = SharedModel)
    {
        var model = Discrepancy(reading.Channel, reading.Value);
        var modelVariance = model * model;
        var instrument = reading.SigmaInstrument * reading.SigmaInstrument;
        var shared = (sharedModel * modelVariance) + (SharedInstrument * instrument);
        var own =
            ((1 - SharedModel) * modelVariance)
            + ((1 - SharedInstrument) * instrument)
            + (reading.Step * reading.Step / 12);
        return (Math.Sqrt(shared), Math.Sqrt(own));
    }
}
