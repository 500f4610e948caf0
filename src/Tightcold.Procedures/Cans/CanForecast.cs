using Tightcold.Properties;

namespace Tightcold.Procedures.Cans;

/// <summary>A can's run with what is not known of tap and warmth: the middle, and the slow and fast ends.</summary>
/// <param name="Middle">With the usual opening and conductance.</param>
/// <param name="Slow">Both at their low ends.</param>
/// <param name="Fast">Both at their high ends.</param>
public sealed record CanForecast(CanRun Middle, CanRun Slow, CanRun Fast)
{
    public static CanForecast Of(
        Fluid fluid,
        CanBody body,
        double massKg,
        double temperatureK,
        bool inverted,
        CanSurroundings around,
        FlowPath path,
        Receiver system,
        double wantedKg
    )
    {
        CanRun Run(double direction) =>
            CanModel.Run(
                fluid,
                body,
                massKg,
                temperatureK,
                inverted,
                around with
                {
                    ConductanceWPerK = around.ConductanceWPerK * Math.Pow(around.ConductanceSpread, direction),
                },
                path with
                {
                    OpeningAreaM2 = path.OpeningAreaM2 * Math.Pow(FlowPath.OpeningSpread, direction),
                },
                system,
                wantedKg
            );
        return new(Run(0), Run(-1), Run(1));
    }
}
