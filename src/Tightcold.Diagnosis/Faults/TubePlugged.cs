using Tightcold.Diagnosis.Measurement;
using Tightcold.Diagnosis.Priors;
using Tightcold.Loop.Designs;
using Tightcold.Quantities;

namespace Tightcold.Diagnosis.Faults;

public sealed partial class Fault
{
    public static Fault TubePlugged { get; } =
        new(7, "tube-plugged", "orifice tube plugged")
        {
            Weight = 0.04,
            Fits = HasTube,
            Severities = AreaLeft(0.35, 0.985),
            Apply = (loop, severity, _) => loop with { TubePlugged = severity },
            HowBad = (low, high) => Phrase.Of($"{Shares(low, high)} of the opening closed"),
            Signs = (look, at, odds) => Throttled(look, at.Car.TubePlugged, odds),
            Mend = new(
                "Recover, pull the orifice tube and look at its screen",
                "grit tells of the compressor, sludge of the drier",
                60,
                "part-changed"
            ),
            Caution = HeldDown,
            Asked = [new("plugged-tube", "orifice tube plugged", 0.6)],
        };

    private const string HeldDown =
        "Do not add refrigerant to lift a low side that a restriction holds down: the surplus stands in the condenser.";

    private static bool HasTube(CarKnowledge car) => car.Expansion is null or ExpansionKind.OrificeTube;

    private static bool Throttled(Sign look, double closed, Span<double> odds) =>
        look switch
        {
            Sign.SidesEqualAtOnce when closed > 0.7 => First(odds, 0.02, 0.08),
            Sign.NoStepAlongLiquidLine when closed > 0.7 => Last(odds, 0.05, 0.20),
            Sign.OilClean => Set(odds, 0.55, 0.25, 0.20),
            _ => false,
        };
}
