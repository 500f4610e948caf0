using Tightcold.Quantities;

namespace Tightcold.Jobs.Fields;

/// <summary>Short ways to write a schema. The allowed ranges are what can be true in a driveway, not what is
/// likely: an unlikely value is asked about at the edge, an impossible one is refused here.</summary>
public static class Field
{
    private const double Zero = 273.15;

    /// <summary>Outdoor air, -40 to 60 °C: the coldest and hottest weather that cars are sold for, common
    /// practice.</summary>
    public static FieldSpec Air(string name, [Said] string label, bool required = false, [Said] string? hint = null) =>
        new(name, label, new FieldType.Quantity(QuantityKind.Temperature, Zero - 40, Zero + 60), required, hint);

    /// <summary>A part or duct, -40 to 150 °C.</summary>
    public static FieldSpec Temperature(
        string name,
        [Said] string label,
        bool required = false,
        [Said] string? hint = null
    ) => new(name, label, new FieldType.Quantity(QuantityKind.Temperature, Zero - 40, Zero + 150), required, hint);

    /// <summary>A manifold gauge, full vacuum to 200 bar (R-744 included). Perfect vacuum at the highest barometer
    /// is -108.4 kPa gauge; what is impossible at *this* barometer is refused where the barometer is known.</summary>
    public static FieldSpec Gauge(
        string name,
        [Said] string label,
        bool required = false,
        [Said] string? hint = null
    ) => new(name, label, new FieldType.Quantity(QuantityKind.GaugePressure, -108_400, 20e6), required, hint);

    public static FieldSpec Humidity(
        string name = FieldNames.RelativeHumidity,
        [Said] string label = "Relative humidity",
        bool required = false
    ) => new(name, label, new FieldType.Quantity(QuantityKind.RelativeHumidity, 0, 1), required);

    public static FieldSpec Mass(
        string name,
        [Said] string label,
        double minKilograms,
        double maxKilograms,
        bool required = false,
        [Said] string? hint = null
    ) => new(name, label, new FieldType.Quantity(QuantityKind.Mass, minKilograms, maxKilograms), required, hint);

    public static FieldSpec Minutes(
        string name,
        [Said] string label,
        double maxMinutes,
        bool required = false,
        [Said] string? hint = null
    ) => new(name, label, new FieldType.Quantity(QuantityKind.Duration, 0, maxMinutes * 60), required, hint);

    public static FieldSpec Of(
        string name,
        [Said] string label,
        QuantityKind kind,
        double minSi,
        double maxSi,
        bool required = false,
        [Said] string? hint = null
    ) => new(name, label, new FieldType.Quantity(kind, minSi, maxSi), required, hint);

    /// <summary>What nothing is made of: see <see cref="FieldSpec.Retired"/>.</summary>
    public static FieldSpec Unread(FieldSpec field)
    {
        ArgumentNullException.ThrowIfNull(field);
        return field with { Retired = true };
    }

    /// <summary>Stand in the open; the others of a schema are folded away until somebody has measured them.</summary>
    public static IEnumerable<FieldSpec> Open(params FieldSpec[] fields) =>
        fields.Select(field => field with { InTheOpen = true });

    /// <summary>Folded away under a heading.</summary>
    public static IEnumerable<FieldSpec> Under([Said] string heading, params FieldSpec[] fields) =>
        fields.Select(field => field with { Heading = heading });

    public static FieldSpec Choice(
        string name,
        [Said] string label,
        bool required,
        [Said("@0")] params FieldType.Option[] words
    ) => new(name, label, new FieldType.Choice(words), required);

    public static FieldSpec Number(
        string name,
        [Said] string label,
        double min,
        double max,
        bool required = false,
        [Said] string? hint = null
    ) => new(name, label, new FieldType.Number(min, max), required, hint);

    public static FieldSpec Text(
        string name,
        [Said] string label,
        int maxLength,
        bool required = false,
        [Said] string? hint = null
    ) => new(name, label, new FieldType.Text(maxLength), required, hint);

    public static FieldSpec Spot(string name, [Said] string label, bool required = false) =>
        new(name, label, new FieldType.Spot(), required);

    public static FieldSpec Spots(string name, [Said] string label, [Said] string? hint = null) =>
        new(name, label, new FieldType.Spots(), false, hint);

    public static FieldSpec Container(string name, [Said] string label, bool required = false) =>
        new(name, label, new FieldType.Container(), required);
}
