using Tightcold.Quantities;

namespace Tightcold.Diagnosis.NextTest.Tests;

public sealed partial class TestKind
{
    /// <summary>Recovered into a cylinder on a scale.</summary>
    public static TestKind RecoverAndWeigh { get; } =
        new(22, "recover-and-weigh", "Have it recovered and weighed", 35)
        {
            Money = 2,
            Entry = "recovery",
            TakesOut = true,
            WhenEmpty = true,
            Shows = QuantityKind.Mass,
            Plans = (test, now) =>
                now.Evidence.Weighed is null ? [test.AtRest((_, _, car) => new([car.ChargeKg], [0.025], []))] : [],
        };
}
