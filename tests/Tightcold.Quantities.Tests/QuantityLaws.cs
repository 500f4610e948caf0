using CsCheck;

namespace Tightcold.Quantities.Tests;

/// <summary>What holds for every quantity alike.</summary>
public sealed class QuantityLaws
{
    /// <summary>Lowest and highest value that the kind can have; null where it has no end.</summary>
    public static TheoryData<string, double?, double?> All =>
        new()
        {
            { nameof(AbsolutePressure), 0, null },
            { nameof(Altitude), -500, 9000 },
            { nameof(GaugePressure), null, null },
            { nameof(InternalVolume), 0, null },
            { nameof(LeakRate), 0, null },
            { nameof(OilVolume), 0, null },
            { nameof(PressureDifference), null, null },
            { nameof(RefrigerantMass), 0, null },
            { nameof(RelativeHumidity), 0, 1 },
            { nameof(Temperature), 0, null },
            { nameof(TemperatureDifference), null, null },
        };

    [Fact]
    public void Every_quantity_of_the_room_stands_in_the_table()
    {
        var quantities = typeof(Measure)
            .Assembly.GetTypes()
            .Where(type =>
                type.IsValueType
                && type.GetInterfaces()
                    .Any(one => one.IsGenericType && one.GetGenericTypeDefinition() == typeof(IQuantity<>))
            )
            .Select(type => type.Name)
            .Order();
        Assert.Equal(quantities, All.Select(row => row.Data.Item1).Order());
    }

    [Theory]
    [MemberData(nameof(All))]
    public void What_goes_in_comes_out_and_the_ends_belong_to_it(string name, double? low, double? high) =>
        Law(name).GoesIn(low, high);

    [Theory]
    [MemberData(nameof(All))]
    public void What_it_cannot_be_is_refused_with_one_sentence(string name, double? low, double? high) =>
        Law(name).Refuses(low, high);

    [Theory]
    [MemberData(nameof(All))]
    public void Order_and_equality_are_those_of_the_numbers(string name, double? low, double? high) =>
        Law(name).Orders(low ?? -1e6, high ?? 1e6);

    [Theory]
    [MemberData(nameof(All))]
    public void A_measure_keeps_the_kind_and_gives_the_quantity_back(string name, double? low, double? high) =>
        Law(name).KeepsItsKind(low ?? -1e6, high ?? 1e6);

    private static ILaw Law(string name) =>
        name switch
        {
            nameof(AbsolutePressure) => new Laws<AbsolutePressure>(),
            nameof(Altitude) => new Laws<Altitude>(),
            nameof(GaugePressure) => new Laws<GaugePressure>(),
            nameof(InternalVolume) => new Laws<InternalVolume>(),
            nameof(LeakRate) => new Laws<LeakRate>(),
            nameof(OilVolume) => new Laws<OilVolume>(),
            nameof(PressureDifference) => new Laws<PressureDifference>(),
            nameof(RefrigerantMass) => new Laws<RefrigerantMass>(),
            nameof(RelativeHumidity) => new Laws<RelativeHumidity>(),
            nameof(Temperature) => new Laws<Temperature>(),
            nameof(TemperatureDifference) => new Laws<TemperatureDifference>(),
            _ => throw new ArgumentOutOfRangeException(nameof(name), name, "no such quantity"),
        };

    private interface ILaw
    {
        void GoesIn(double? low, double? high);
        void Refuses(double? low, double? high);
        void Orders(double low, double high);
        void KeepsItsKind(double low, double high);
    }

    private sealed class Laws<T> : ILaw
        where T : struct, IQuantity<T>, IComparable<T>
    {
        public void GoesIn(double? low, double? high)
        {
            Gen.Double[low ?? -1e9, high ?? 1e9].Sample(si => T.FromSi(si).Si == si);
            double?[] ends = [low, high];
            Assert.All(ends.OfType<double>(), end => Assert.Equal(end, T.FromSi(end).Si));
        }

        public void Refuses(double? low, double? high)
        {
            List<double> wrong = [double.NaN, double.PositiveInfinity, double.NegativeInfinity];
            if (low is { } least)
                wrong.AddRange([double.BitDecrement(least), least - 1]);
            if (high is { } most)
                wrong.AddRange([double.BitIncrement(most), most + 1]);
            foreach (var si in wrong)
            {
                var trouble = Assert.Throws<ArgumentOutOfRangeException>(() => T.FromSi(si));
                var sentence = trouble.Message.Split('\n')[0];
                Assert.Matches("^must (be|not be) [^.;]*$", sentence.Split(" (Parameter")[0]);
                Assert.Equal(si, trouble.ActualValue);
                // NaN lies neither below nor above: it is no number.
                if (!double.IsFinite(si))
                    Assert.StartsWith("must be a finite number", sentence, StringComparison.Ordinal);
                else if (high is { } end)
                    Assert.Contains($"from {low:R} to {end:R}", sentence, StringComparison.Ordinal);
                else
                    Assert.Contains($"below {low:R}", sentence, StringComparison.Ordinal);
            }
        }

        public void Orders(double low, double high) =>
            Gen.Select(Gen.Double[low, high], Gen.Double[low, high], Gen.Bool)
                .Sample(
                    (x, y, same) =>
                    {
                        var other = same ? x : y;
                        T a = T.FromSi(x),
                            b = T.FromSi(other);
                        Assert.Equal(x.CompareTo(other), a.CompareTo(b));
                        Assert.Equal(-x.CompareTo(other), b.CompareTo(a));
                        Assert.Equal(x == other, a.Equals(b));
                        Assert.Equal(x == other, a.GetHashCode() == b.GetHashCode() && a.Equals((object)b));
                        Assert.Equal(x < other, Says("op_LessThan", a, b));
                        Assert.Equal(x > other, Says("op_GreaterThan", a, b));
                        Assert.Equal(x <= other, Says("op_LessThanOrEqual", a, b));
                        Assert.Equal(x >= other, Says("op_GreaterThanOrEqual", a, b));
                        Assert.Equal(x == other, Says("op_Equality", a, b));
                    },
                    iter: 300
                );

        public void KeepsItsKind(double low, double high) =>
            Gen.Double[low, high]
                .Sample(si =>
                {
                    var measure = Measure.Of(T.FromSi(si));
                    Assert.Equal((T.Kind, si), (measure.Kind, measure.Si));
                    Assert.Equal(T.FromSi(si), measure.As<T>());
                    foreach (var kind in Enum.GetValues<QuantityKind>().Where(kind => kind != T.Kind))
                        Assert.Throws<InvalidOperationException>(() => new Measure(kind, si).As<T>());
                });

        private static bool Says(string comparison, T a, T b) =>
            (bool)typeof(T).GetMethod(comparison)!.Invoke(null, [a, b])!;
    }
}
