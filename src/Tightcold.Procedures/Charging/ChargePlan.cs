using System.Collections.Immutable;
using Tightcold.Properties;

namespace Tightcold.Procedures.Charging;

/// <summary>Which containers, in which order, down to which scale reading: the choice that leaves least waste.</summary>
/// <param name="Steps">In order; empty when there is nothing to draw from.</param>
/// <param name="NeedKg">What must leave the containers: the missing charge and what the hoses keep.</param>
/// <param name="HoseKg">Vapour that stays in the hoses, over all container changes.</param>
/// <param name="WasteKg">Hoses, heels, and remainders of cans that cannot be kept.</param>
/// <param name="ShortKg">Missing for the target; 0 when the stock suffices.</param>
public sealed record ChargePlan(ImmutableArray<ChargeStep> Steps, double NeedKg, double HoseKg, double WasteKg, double ShortKg)
{
    /// <summary>More containers than this are not searched exhaustively; the first ones are taken.</summary>
    private const int MostContainers = 10;

    /// <param name="fluid">The refrigerant.</param>
    /// <param name="missingKg">What the system still needs, above 0.</param>
    /// <param name="stock">Containers at hand with the right refrigerant.</param>
    /// <param name="hoseVolumeM3">One service hose.</param>
    /// <param name="temperatureK">Of containers and hoses.</param>
    public static ChargePlan Make(Fluid fluid, double missingKg, IReadOnlyList<Stock> stock, double hoseVolumeM3, double temperatureK)
    {
        if (!(missingKg > 0)) throw new ArgumentOutOfRangeException(nameof(missingKg), missingKg, "must be above 0 kg");
        var hoseKg = hoseVolumeM3 * fluid.SaturationAtTemperature(temperatureK).VapourDensityKgPerM3;
        var usable = stock.Take(MostContainers).ToArray();
        ChargePlan? best = null;
        for (var subset = 1; subset < 1 << usable.Length; subset++)
        {
            var members = usable.Where((_, index) => (subset >> index & 1) == 1).ToArray();
            foreach (var last in members)
            {
                var plan = Try(fluid, missingKg, [.. members.Where(member => member.Name != last.Name), last], hoseKg, temperatureK);
                if (plan is not null && (best is null || Better(plan, best))) best = plan;
            }
        }
        return best ?? Short(fluid, missingKg, usable, hoseKg, temperatureK);
    }

    /// <summary>What stays in a container drawn as vapour until the flow dies: between vapour at 3 bar absolute (a
    /// running low side) and saturated vapour at room temperature (equalised). The middle is taken.</summary>
    public static double HeelKg(Fluid fluid, double innerVolumeM3, double temperatureK)
    {
        var saturation = fluid.SaturationAtTemperature(temperatureK);
        var least = saturation.PressurePa <= 3e5 ? saturation.VapourDensityKgPerM3
            : fluid.AtTemperaturePressure(temperatureK, 3e5).DensityKgPerM3;
        return innerVolumeM3 * 0.5 * (least + saturation.VapourDensityKgPerM3);
    }

    private static bool Better(ChargePlan plan, ChargePlan than) =>
        plan.WasteKg < than.WasteKg - 1e-9 || (plan.WasteKg < than.WasteKg + 1e-9 && plan.Steps.Length < than.Steps.Length);

    private static ChargePlan? Try(Fluid fluid, double missingKg, Stock[] order, double hoseKg, double temperatureK)
    {
        var hoses = hoseKg * order.Length;
        var open = missingKg + hoses;
        var steps = ImmutableArray.CreateBuilder<ChargeStep>();
        double waste = hoses;
        for (var i = 0; i < order.Length; i++)
        {
            var heel = Math.Min(order[i].NetKg, HeelKg(fluid, order[i].InnerVolumeM3, temperatureK));
            var gives = order[i].NetKg - heel;
            var isLast = i == order.Length - 1;
            if (isLast ? gives < open - 1e-12 : gives >= open) return null;
            var draw = isLast ? open : gives;
            var left = order[i].NetKg - draw;
            if (!isLast || !order[i].KeepsRemainder) waste += left;
            steps.Add(new(order[i].Name, draw, order[i].GrossKg - draw, left, !isLast));
            open -= draw;
        }
        return new(steps.ToImmutable(), missingKg + hoses, hoses, waste, 0);
    }

    private static ChargePlan Short(Fluid fluid, double missingKg, Stock[] stock, double hoseKg, double temperatureK)
    {
        var steps = ImmutableArray.CreateBuilder<ChargeStep>();
        double given = 0, heels = 0;
        foreach (var container in stock)
        {
            var heel = Math.Min(container.NetKg, HeelKg(fluid, container.InnerVolumeM3, temperatureK));
            steps.Add(new(container.Name, container.NetKg - heel, container.GrossKg - (container.NetKg - heel), heel, true));
            given += container.NetKg - heel;
            heels += heel;
        }
        var hoses = hoseKg * stock.Length;
        return new(steps.ToImmutable(), missingKg + hoses, hoses, hoses + heels, missingKg + hoses - given);
    }
}
