using Tightcold.Jobs.Entries;
using Tightcold.Jobs.Fields;
using Tightcold.Jobs.Journals;
using Tightcold.Jobs.Kits;
using Tightcold.Quantities;

namespace Tightcold.Picture.Pressures;

/// <summary>A pressure as it stood in the circuit.</summary>
/// <param name="Pascals">Absolute; never below 0.</param>
/// <param name="AboveAirPa">The same above the surrounding air, the gauge's own zero taken off.</param>
/// <param name="GaugeSigmaPa">Standard deviation of the gauge.</param>
/// <param name="AirSigmaPa">Standard deviation of the barometer.</param>
/// <param name="ZeroSigmaPa">Of a zero that nobody read in open air; counts where readings of one gauge are not
/// compared with each other.</param>
/// <param name="StepPa">Smallest step of the gauge; 0 when it is not known.</param>
public readonly record struct AbsoluteReading(
    double Pascals,
    double AboveAirPa,
    double GaugeSigmaPa,
    double AirSigmaPa,
    double ZeroSigmaPa,
    double StepPa
)
{
    /// <summary>Gauge and barometer together, Pa.</summary>
    public double SigmaPa => Math.Sqrt((GaugeSigmaPa * GaugeSigmaPa) + (AirSigmaPa * AirSigmaPa));

    /// <summary>With a zero that may be off, Pa.</summary>
    public double SigmaWithZeroPa => Math.Sqrt((SigmaPa * SigmaPa) + (ZeroSigmaPa * ZeroSigmaPa));
}

/// <summary>The one place where what a gauge shows becomes an absolute pressure, and back: it knows the barometer or
/// the altitude, the gauge's zero and its ± as they were at that moment.</summary>
public static class Gauges
{
    /// <summary>A ± of an instrument is taken as its 95 % limit.</summary>
    public const double SigmasInPlusMinus = 1.96;

    // A gauge whose zero was never read in open air may be off by this, Pa, one standard deviation; common practice.
    private const double LowZeroPa = 0.05e5,
        HighZeroPa = 0.12e5,
        KnownZeroPa = 0.01e5;

    /// <summary>A field of an entry; null when it was not filled.</summary>
    public static AbsoluteReading? Read(JobRecord record, Entry entry, string field)
    {
        ArgumentNullException.ThrowIfNull(record);
        ArgumentNullException.ThrowIfNull(entry);
        if (entry.Fields.Get<GaugePressure>(field) is not { } shown)
            return null;
        var kit = record.KitAt(entry.ObservedAt);
        var side = SideOf(kit, field);
        var air = AirPressure.At(record, entry.ObservedAt);
        var sigma = (entry.Fields.PlusMinusSi(field) ?? side.PlusMinusPa) / SigmasInPlusMinus;
        var aboveAir = Raw(shown) - Raw(side.Zero);
        return new(Math.Max(0, aboveAir + air.Pascals), aboveAir, sigma, air.SigmaPa, side.ZeroSigmaPa, side.StepPa);
    }

    /// <summary>Absolute, as the gauge shows it where the air has <paramref name="airPa"/>; 0 at the least.</summary>
    public static double ToAbsolutePa(GaugePressure shown, double airPa) => Math.Max(0, Raw(shown) + airPa);

    /// <summary>What a gauge would show, for a sentence.</summary>
    public static Measure Shown(double absolutePa, double airPa) => new(QuantityKind.GaugePressure, absolutePa - airPa);

    private readonly record struct Side(double PlusMinusPa, double StepPa, GaugePressure Zero, double ZeroSigmaPa);

    private static Side SideOf(Kit kit, string field)
    {
        // Nitrogen is pushed in and read on the high side's gauge.
        var high = field == "pressure" || field.StartsWith("high", StringComparison.Ordinal);
        var zero = kit.Fields.Get<GaugePressure>(high ? FieldNames.HighGaugeZero : FieldNames.LowGaugeZero);
        var zeroSigma =
            zero is not null ? KnownZeroPa
            : high ? HighZeroPa
            : LowZeroPa;
        return new(
            high ? kit.HighGaugePlusMinusPa : kit.LowGaugePlusMinusPa,
            kit.Fields.Si(high ? FieldNames.HighGaugeStep : FieldNames.LowGaugeStep) ?? 0,
            zero ?? default,
            zeroSigma
        );
    }

#pragma warning disable RS0030 // Here, and nowhere else, a gauge pressure is a bare number.
    private static double Raw(GaugePressure shown) => shown.Pascals;
#pragma warning restore RS0030
}
