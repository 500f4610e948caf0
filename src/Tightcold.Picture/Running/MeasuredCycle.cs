using System.Collections.Immutable;
using Tightcold.Jobs.Entries;
using Tightcold.Jobs.Fields;
using Tightcold.Numerics;
using Tightcold.Properties;
using Tightcold.Quantities;
using static Tightcold.Picture.Pressures.Evidence;

namespace Tightcold.Picture.Running;

/// <summary>The cycle as the last running reading shows it: two pressures from the gauges, states from the line
/// temperatures. What was not read is taken as it usually is and said to be so.</summary>
/// <param name="Fluid">What circulates.</param>
/// <param name="Corners">In the order of flow, closed by the way back to the first.</param>
/// <param name="At">When it was read.</param>
public sealed record MeasuredCycle(Fluid Fluid, ImmutableArray<MeasuredCycle.Corner> Corners, DateTimeOffset At)
{
    /// <summary>Share of the ideal compression that an ordinary vehicle compressor reaches; common practice 0.55 to
    /// 0.75.</summary>
    private const double CompressionShare = 0.65;

    /// <param name="Name">Where it is, in the trade's words.</param>
    /// <param name="PressurePa">Absolute.</param>
    /// <param name="EnthalpyJPerKg">On the fluid's own reference.</param>
    /// <param name="TemperatureK">There.</param>
    /// <param name="Read">A thermometer stood there; else it is assumed.</param>
    public sealed record Corner(
        [Said] string Name,
        double PressurePa,
        double EnthalpyJPerKg,
        double TemperatureK,
        bool Read
    );

    /// <summary>Null without both gauges, or where they do not stand apart as those of a running circuit.</summary>
    public static MeasuredCycle? Of(JobPicture picture)
    {
        ArgumentNullException.ThrowIfNull(picture);
        if (picture.Running is not { Low: { } lowSide, High: { } highSide, Entry: var entry })
            return null;
        var fluid = FluidOf(picture.Record.Car);
        var (low, high) = (lowSide.Pascals, highSide.Pascals);
        if (low < 30e3 || high > 0.95 * fluid.CriticalPressurePa || high < 1.05 * low)
            return null;
        return CornersOf(fluid, entry, low, high) is { Length: > 0 } corners
            ? new(fluid, corners, entry.ObservedAt)
            : null;
    }

    private static ImmutableArray<Corner> CornersOf(Fluid fluid, Entry entry, double low, double high)
    {
        var (boiling, condensing) = (fluid.SaturationAtPressure(low), fluid.SaturationAtPressure(high));
        // A clamp that reads below saturation is off or sits on a flooded line: the dome's edge is all that can be
        // said.
        var suctionK = entry.Fields.Si(FieldNames.SuctionLineTemperature);
        var suction =
            suctionK > boiling.TemperatureK + 0.2
                ? fluid.AtTemperaturePressure(suctionK.Value, low)
                : fluid.AtPressureQuality(low, 1);
        var liquidK = entry.Fields.Si(FieldNames.LiquidLineTemperature);
        var liquid =
            liquidK < condensing.TemperatureK - 0.2
                ? fluid.AtTemperaturePressure(liquidK.Value, high)
                : fluid.AtPressureQuality(high, 0);
        var dischargeK = entry.Fields.Si(FieldNames.DischargeLineTemperature);
        FluidState discharge;
        if (dischargeK > condensing.TemperatureK + 0.2)
            discharge = fluid.AtTemperaturePressure(dischargeK.Value, high);
        else
        {
            if (
                fluid.TryAtPressureEntropy(high, suction.EntropyJPerKgK)
                is not Solved<FluidState>.Converged { Value: var ideal }
            )
                return [];
            if (
                fluid.TryAtPressureEnthalpy(
                    high,
                    suction.EnthalpyJPerKg + ((ideal.EnthalpyJPerKg - suction.EnthalpyJPerKg) / CompressionShare)
                )
                is not Solved<FluidState>.Converged { Value: var real }
            )
                return [];
            discharge = real;
        }
        if (
            fluid.TryAtPressureEnthalpy(low, liquid.EnthalpyJPerKg)
            is not Solved<FluidState>.Converged { Value: var inlet }
        )
            return [];
        return
        [
            new("suction line", low, suction.EnthalpyJPerKg, suction.TemperatureK, suctionK is not null),
            new("discharge line", high, discharge.EnthalpyJPerKg, discharge.TemperatureK, dischargeK is not null),
            new("liquid line", high, liquid.EnthalpyJPerKg, liquid.TemperatureK, liquidK is not null),
            new("evaporator inlet", low, inlet.EnthalpyJPerKg, inlet.TemperatureK, false),
        ];
    }
}
