using System.Collections.Immutable;
using Tightcold.Properties;

namespace Tightcold.Procedures.Charging;

/// <summary>Which containers, in which order, down to which scale reading: the choice that leaves least
/// waste.</summary>
/// <param name="Steps">In order; empty when there is nothing to draw from.</param>
/// <param name="NeedKg">What must leave the containers: the missing charge and what hoses keep and purging
/// costs.</param>
/// <param name="HoseKg">What stays in the hoses, over all container changes.</param>
/// <param name="WasteKg">Hoses, purges, heels, and remainders of cans that cannot be kept.</param>
/// <param name="ShortKg">Missing for the target; 0 when the stock suffices.</param>
public sealed record ChargePlan(
    ImmutableArray<ChargeStep> Steps,
    double NeedKg,
    double HoseKg,
    double WasteKg,
    double ShortKg
)
{
    /// <summary>More containers than this are not searched exhaustively; the first ones are taken.</summary>
    private const int MostContainers = 10;

    /// <summary>Driven through hoses to purge them, in all.</summary>
    public double PurgeKg { get; private init; }

    /// <summary>Standard deviation of what reaches the system when every container is weighed before and
    /// after.</summary>
    public double SigmaKg { get; private init; }

    /// <param name="fluid">The refrigerant.</param>
    /// <param name="missingKg">What the system still needs, above 0.</param>
    /// <param name="stock">Containers at hand with the right refrigerant.</param>
    /// <param name="hoseVolumeM3">One service hose.</param>
    /// <param name="temperatureK">Of containers and hoses.</param>
    public static ChargePlan Make(
        Fluid fluid,
        double missingKg,
        IReadOnlyList<Stock> stock,
        double hoseVolumeM3,
        double temperatureK
    )
    {
        // Hoses full of saturated vapour: what they keep when nobody read the low side, at the most.
        var saturation = fluid.SaturationAtTemperature(temperatureK);
        var hose = hoseVolumeM3 * saturation.VapourDensityKgPerM3;
        return Make(fluid, missingKg, stock, (hose, hose), new(temperatureK, null, false, 0, 0.002));
    }

    /// <summary>As above, with hoses and heels at the pressure and temperature of the moment.</summary>
    /// <exception cref="ArgumentOutOfRangeException">Nothing is missing, or an input is not a number.</exception>
    public static ChargePlan Make(
        Fluid fluid,
        double missingKg,
        IReadOnlyList<Stock> stock,
        double hoseVolumeM3,
        ChargeConditions conditions
    ) => Make(fluid, missingKg, stock, conditions.Hose(fluid, hoseVolumeM3), conditions);

    private static ChargePlan Make(
        Fluid fluid,
        double missingKg,
        IReadOnlyList<Stock> stock,
        (double LeastKg, double MostKg) hose,
        ChargeConditions conditions
    )
    {
        if (!(missingKg > 0))
            throw new ArgumentOutOfRangeException(nameof(missingKg), missingKg, "must be above 0 kg");
        var usable = stock
            .Take(MostContainers)
            .Select(member => new Member(member, conditions.Heel(fluid, member.InnerVolumeM3)))
            .ToArray();
        ChargePlan? best = null;
        for (var subset = 1; subset < 1 << usable.Length; subset++)
        {
            var members = usable.Where((_, index) => (subset >> index & 1) == 1).ToArray();
            // Of equal plans the one that keeps the order of the shelf: what is connected goes on.
            foreach (var last in members.Reverse())
            {
                var plan = Try(
                    missingKg,
                    [.. members.Where(member => member.Of.Name != last.Of.Name), last],
                    hose,
                    conditions
                );
                if (plan is not null && (best is null || Better(plan, best)))
                    best = plan;
            }
        }
        return best ?? Short(missingKg, usable, hose, conditions);
    }

    /// <summary>What stays in a container drawn as vapour until the flow dies: between vapour at 3 bar absolute (a
    /// running low side) and saturated vapour at room temperature (equalised). The middle is taken.</summary>
    public static double HeelKg(Fluid fluid, double innerVolumeM3, double temperatureK)
    {
        var saturation = fluid.SaturationAtTemperature(temperatureK);
        var least =
            saturation.PressurePa <= 3e5
                ? saturation.VapourDensityKgPerM3
                : fluid.AtTemperaturePressure(temperatureK, 3e5).DensityKgPerM3;
        return innerVolumeM3 * 0.5 * (least + saturation.VapourDensityKgPerM3);
    }

    private readonly record struct Member(Stock Of, (double LeastKg, double MostKg) Heel)
    {
        public double HeelKg => Math.Min(Of.NetKg, 0.5 * (Heel.LeastKg + Heel.MostKg));

        public ChargeStep Step(double draw, bool emptied) =>
            new(
                Of.Name,
                draw,
                Of.GrossKg - draw,
                Of.NetKg - draw,
                emptied,
                Math.Min(Of.NetKg, Heel.LeastKg),
                Math.Min(Of.NetKg, Heel.MostKg)
            );
    }

    private static bool Better(ChargePlan plan, ChargePlan than) =>
        plan.WasteKg < than.WasteKg - 1e-9
        || (plan.WasteKg < than.WasteKg + 1e-9 && plan.Steps.Length < than.Steps.Length);

    private static ChargePlan? Try(
        double missingKg,
        Member[] order,
        (double LeastKg, double MostKg) hose,
        ChargeConditions conditions
    )
    {
        var fills = order.Count(member => !member.Of.HoseFilled);
        var (hoses, purges) = (0.5 * (hose.LeastKg + hose.MostKg) * fills, conditions.PurgeKg * fills);
        var open = missingKg + hoses + purges;
        var steps = ImmutableArray.CreateBuilder<ChargeStep>();
        double waste = hoses + purges;
        for (var i = 0; i < order.Length; i++)
        {
            var gives = order[i].Of.NetKg - order[i].HeelKg;
            var isLast = i == order.Length - 1;
            if (isLast ? gives < open - 1e-12 : gives >= open)
                return null;
            var draw = isLast ? open : gives;
            var step = order[i].Step(draw, !isLast);
            if (!isLast || !order[i].Of.KeepsRemainder)
                waste += step.LeftKg;
            steps.Add(step);
            open -= draw;
        }
        return new(steps.ToImmutable(), missingKg + hoses + purges, hoses, waste, 0)
        {
            PurgeKg = purges,
            SigmaKg = Sigma(order, hose, conditions),
        };
    }

    private static ChargePlan Short(
        double missingKg,
        Member[] stock,
        (double LeastKg, double MostKg) hose,
        ChargeConditions conditions
    )
    {
        ImmutableArray<ChargeStep> steps =
        [
            .. stock.Select(member => member.Step(member.Of.NetKg - member.HeelKg, true)),
        ];
        var fills = stock.Count(member => !member.Of.HoseFilled);
        var (hoses, purges) = (0.5 * (hose.LeastKg + hose.MostKg) * fills, conditions.PurgeKg * fills);
        return new(
            steps,
            missingKg + hoses + purges,
            hoses,
            hoses + purges + steps.Sum(step => step.LeftKg),
            missingKg + hoses + purges - steps.Sum(step => step.DrawKg)
        )
        {
            PurgeKg = purges,
            SigmaKg = Sigma(stock, hose, conditions),
        };
    }

    /// <summary>σ² = n·(2·σ_scale² + (hose range)²/12 + (purge/2)²): two readings a container, errors
    /// independent.</summary>
    private static double Sigma(Member[] order, (double LeastKg, double MostKg) hose, ChargeConditions conditions) =>
        Math.Sqrt(
            order.Length
                * (
                    2 * conditions.ScaleSigmaKg * conditions.ScaleSigmaKg
                    + Math.Pow(hose.MostKg - hose.LeastKg, 2) / 12
                    + Math.Pow(conditions.PurgeKg / 2, 2)
                )
        );
}
