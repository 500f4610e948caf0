using System.Globalization;

namespace Tightcold.Properties.Tests.Laws;

/// <summary>The fast layer against the reference layer: the stated bound, over a million random points in
/// all.</summary>
public sealed class FastLayerTests(ITestOutputHelper output)
{
    // The stated bound away from the critical region, and inside it (pressure within 10 % and temperature within 5 % of
    // the critical point).
    private const double Bound = 1e-6;
    private const double CriticalBound = 1e-4;
    private const int PointsPerFluid = 125_000;
    private const int Seed = 20261125;

    public static TheoryData<string> Fluids => [.. FluidCatalog.Names];

    public static TheoryData<string> FluidsWithSaturation => ["R134a", "R1234yf", "R152a", "R744", "R12", "Water"];

    [Theory]
    [MemberData(nameof(Fluids))]
    public void Fast_states_stay_within_the_stated_bound_and_never_in_another_phase(string name)
    {
        var fluid = FluidCatalog.Get(name);
        var fast = fluid.Fast;
        var random = new Random(Seed);
        var worst = new Worst();
        for (var i = 0; i < PointsPerFluid; i++)
        {
            var reference = RandomState(fluid, random, i);
            if (reference.PressurePa < fast.MinPressurePa || reference.PressurePa > fast.MaxPressurePa)
                continue;
            var p = reference.PressurePa;
            worst.Compare("p,h", fluid, reference, fast.AtPressureEnthalpy(p, reference.EnthalpyJPerKg));
            worst.Compare("p,s", fluid, reference, fast.AtPressureEntropy(p, reference.EntropyJPerKgK));
            if (reference.Phase != FluidPhase.TwoPhase)
                worst.Compare("p,T", fluid, reference, fast.AtPressureTemperature(p, reference.TemperatureK));
        }

        output.WriteLine($"{name}: {worst}");
        Assert.True(worst.Count > PointsPerFluid);
        Assert.True(worst.Excess <= 1, worst.ToString());
        Assert.Equal(0, worst.WrongPhases);
    }

    [Theory]
    [MemberData(nameof(FluidsWithSaturation))]
    public void However_near_to_the_saturation_line_the_fast_layer_names_the_phase_that_the_equation_names(string name)
    {
        var fluid = FluidCatalog.Get(name);
        var fast = fluid.Fast;
        var random = new Random(Seed);
        var compared = 0;
        for (var i = 0; i < 20_000; i++)
        {
            // Up to the region near the critical point that has a bound of its own.
            var t =
                fast.MinTemperatureK
                + ((0.95 * fluid.CriticalTemperatureK) - fast.MinTemperatureK) * random.NextDouble();
            if (t > fast.MaxTemperatureK)
                continue;
            var line = fluid.SaturationAtTemperature(t);
            var p = line.PressurePa;
            if (p < fast.MinPressurePa || p > fast.MaxPressurePa)
                continue;
            // From a billionth to a hundredth of the dome's width, inside and outside, at either end.
            var share = Math.Pow(10, -9 + (7 * random.NextDouble())) * (random.Next(2) == 0 ? 1 : -1);
            var gas = random.Next(2) == 0;
            var h =
                (gas ? line.VapourEnthalpyJPerKg : line.LiquidEnthalpyJPerKg)
                + (share * (line.VapourEnthalpyJPerKg - line.LiquidEnthalpyJPerKg));
            var s =
                (gas ? line.VapourEntropyJPerKgK : line.LiquidEntropyJPerKgK)
                + (share * (line.VapourEntropyJPerKgK - line.LiquidEntropyJPerKgK));
            if (!Holds(fluid, p, h))
                continue;
            var inside = gas ? share < 0 : share > 0;
            var phase =
                inside ? FluidPhase.TwoPhase
                : gas ? FluidPhase.Gas
                : FluidPhase.Liquid;
            Assert.Equal(phase, fast.AtPressureEnthalpy(p, h).Phase);
            Assert.Equal(phase, fast.AtPressureEnthalpy(p, h, out _).Phase);
            Assert.Equal(phase, fast.AtPressureEntropy(p, s).Phase);
            Assert.Equal(phase, fast.AtPressureEntropy(p, s, out _).Phase);
            compared++;
        }
        Assert.True(compared > 5_000, $"{compared} points");
    }

    /// <summary>Colder liquid than the triple point's is no state of the equation.</summary>
    private static bool Holds(Fluid fluid, double pressurePa, double enthalpyJPerKg)
    {
        try
        {
            return fluid.AtPressureEnthalpy(pressurePa, enthalpyJPerKg).TemperatureK > fluid.MinTemperatureK;
        }
        catch (FluidRangeException)
        {
            return false;
        }
    }

    [Theory]
    [MemberData(nameof(FluidsWithSaturation))]
    public void Fast_saturation_stays_within_a_tenth_of_the_stated_bounds(string name)
    {
        var fluid = FluidCatalog.Get(name);
        var fast = fluid.Fast;
        var random = new Random(Seed);
        var top = Math.Min(fluid.CriticalTemperatureK, fast.MaxTemperatureK);
        for (var i = 0; i < 20_000; i++)
        {
            var t = fast.MinTemperatureK + ((top - fast.MinTemperatureK) * random.NextDouble());
            var expected = fluid.SaturationAtTemperature(t);
            var byTemperature = fast.SaturationAtTemperature(t, out var slopeT);
            Near(expected, byTemperature, fluid);
            Assert.Equal(byTemperature, fast.SaturationAtTemperature(t));
            Assert.Equal(byTemperature.PressurePa, fast.SaturationPressurePa(t), 1e-12 * byTemperature.PressurePa);
            if (t < 0.995 * fluid.CriticalTemperatureK)
                Assert.Equal(expected.PressureSlopePaPerK, slopeT.PressurePa, 1e-5 * expected.PressureSlopePaPerK);
            if (expected.PressurePa < fast.MinPressurePa || expected.PressurePa > fast.MaxPressurePa)
                continue;
            var byPressure = fast.SaturationAtPressure(expected.PressurePa, out var slopeP);
            Near(expected, byPressure, fluid);
            Assert.Equal(byPressure, fast.SaturationAtPressure(expected.PressurePa));
            Assert.Equal(t, fast.SaturationTemperatureK(expected.PressurePa), 1e-7 * t);
            if (t < 0.995 * fluid.CriticalTemperatureK)
                Assert.Equal(
                    1 / expected.PressureSlopePaPerK,
                    slopeP.TemperatureK,
                    1e-4 / expected.PressureSlopePaPerK
                );
        }
    }

    [Theory]
    [MemberData(nameof(Fluids))]
    public void Fast_derivatives_are_those_of_the_reference_equation(string name)
    {
        var fluid = FluidCatalog.Get(name);
        var fast = fluid.Fast;
        var random = new Random(Seed);
        for (var i = 0; i < 4_000; i++)
        {
            var s = RandomState(fluid, random, 3);
            if (
                s.CpJPerKgK is not { } cp
                || cp > 5e3
                || s.PressurePa < fast.MinPressurePa
                || s.PressurePa > fast.MaxPressurePa
            )
                continue;
            double p = s.PressurePa,
                t = s.TemperatureK,
                v = 1 / s.DensityKgPerM3;
            var rhoByP = 1 / s.PressureByDensityAtTemperature;
            var rhoByT = -s.PressureByTemperatureAtDensity * rhoByP;
            var jt = s.JouleThomsonKPerPa!.Value;
            // Derivatives of a fit carry a few more digits of error than the fit: 2e-3 of the density's answer to
            // pressure at worst, where a liquid hardly answers at all.
            var rhoScale = rhoByP + Math.Abs(rhoByT * jt);

            fast.AtPressureEnthalpy(p, s.EnthalpyJPerKg, out var h);
            Assert.Equal(1 / cp, h.TemperatureByInput, 1e-4 / cp);
            Assert.Equal(jt, h.TemperatureByPressure, 2e-3 * (Math.Abs(jt) + (v / cp)));
            Assert.Equal(
                rhoByT / cp,
                h.DensityByInput,
                (1e-4 * Math.Abs(rhoByT / cp)) + (1e-7 * s.DensityKgPerM3 / cp)
            );
            Assert.Equal(rhoByP + (rhoByT * jt), h.DensityByPressure, 5e-3 * rhoScale);
            Assert.Equal(1 / t, h.EntropyByInput, 1e-6 / t);
            Assert.Equal(-v / t, h.EntropyByPressure, 1e-5 * v / t);
            Assert.Equal((0, 1), (h.EnthalpyByPressure, h.EnthalpyByInput));

            fast.AtPressureEntropy(p, s.EntropyJPerKgK, out var e);
            Assert.Equal(t / cp, e.TemperatureByInput, 1e-4 * t / cp);
            Assert.Equal(v, e.EnthalpyByPressure, 1e-5 * v);
            Assert.Equal(t, e.EnthalpyByInput, 1e-6 * t);
            Assert.Equal((0, 1), (e.EntropyByPressure, e.EntropyByInput));

            if (Math.Abs((p / fluid.CriticalPressurePa) - 1) < 0.01)
                continue;
            fast.AtPressureTemperature(p, t, out var d);
            Assert.Equal(cp, d.EnthalpyByInput, 1e-4 * cp);
            Assert.Equal(-cp * jt, d.EnthalpyByPressure, 2e-3 * (Math.Abs(cp * jt) + v));
            Assert.Equal(rhoByP, d.DensityByPressure, 2e-3 * rhoScale);
            Assert.Equal(rhoByT, d.DensityByInput, (5e-4 * Math.Abs(rhoByT)) + (1e-7 * s.DensityKgPerM3));
            Assert.Equal(cp / t, d.EntropyByInput, 1e-4 * cp / t);
            // Vapour that is pressed together at one temperature loses entropy as it would have swollen with heat.
            Assert.Equal(rhoByT * v * v, d.EntropyByPressure, (5e-4 * Math.Abs(rhoByT * v * v)) + (1e-7 * v));
        }
    }

    [Theory]
    [MemberData(nameof(FluidsWithSaturation))]
    public void Fast_derivatives_inside_the_dome_are_the_slopes_of_the_fast_states(string name)
    {
        var fast = FluidCatalog.Get(name).Fast;
        var random = new Random(Seed);
        var low = Math.Max(fast.MinPressurePa, 1.05 * fast.SaturationPressurePa(fast.MinTemperatureK));
        var high = Math.Min(fast.MaxPressurePa, 0.9 * fast.Fluid.CriticalPressurePa);
        for (var i = 0; i < 2_000; i++)
        {
            var p = low * Math.Pow(high / low, random.NextDouble());
            var line = fast.SaturationAtPressure(p);
            var x = 0.05 + (0.9 * random.NextDouble());
            var h = line.LiquidEnthalpyJPerKg + (x * (line.VapourEnthalpyJPerKg - line.LiquidEnthalpyJPerKg));
            var s = line.LiquidEntropyJPerKgK + (x * (line.VapourEntropyJPerKgK - line.LiquidEntropyJPerKgK));
            var here = fast.AtPressureEnthalpy(p, h, out var d);
            Assert.Equal(FluidPhase.TwoPhase, here.Phase);
            Assert.Equal(x, here.Quality!.Value, 1e-6);
            Assert.Equal(here.TemperatureK, fast.AtPressureEnthalpy(p, h).TemperatureK);
            const double Step = 1e-5;
            var up = fast.AtPressureEnthalpy(p * (1 + Step), h);
            var down = fast.AtPressureEnthalpy(p * (1 - Step), h);
            Assert.Equal(
                (up.DensityKgPerM3 - down.DensityKgPerM3) / (2 * Step * p),
                d.DensityByPressure,
                1e-3 * Math.Abs(d.DensityByPressure)
            );
            Assert.Equal(
                (up.TemperatureK - down.TemperatureK) / (2 * Step * p),
                d.TemperatureByPressure,
                1e-3 * Math.Abs(d.TemperatureByPressure)
            );
            var more = fast.AtPressureEnthalpy(p, h + 10);
            Assert.Equal(
                (more.DensityKgPerM3 - here.DensityKgPerM3) / 10,
                d.DensityByInput,
                1e-2 * Math.Abs(d.DensityByInput)
            );
            Assert.Equal(0, d.TemperatureByInput);
            var same = fast.AtPressureEntropy(p, s, out var e);
            Assert.Equal(x, same.Quality!.Value, 1e-6);
            Assert.Equal(1 / same.DensityKgPerM3, e.EnthalpyByPressure, 1e-9 / same.DensityKgPerM3);
            Assert.Equal(same.TemperatureK, e.EnthalpyByInput, 1e-9 * same.TemperatureK);
        }
    }

    [Fact]
    public void Near_the_critical_pressure_the_reference_equations_answer_in_the_fast_layers_shape()
    {
        var fluid = FluidCatalog.Get("R744");
        var fast = fluid.Fast;
        foreach (var factor in (double[])[0.9995, 1.0005])
        {
            var p = factor * fluid.CriticalPressurePa;
            foreach (var t in (double[])[280, 304, 304.3, 350])
            {
                var s = fluid.AtTemperaturePressure(t, p);
                var byH = fast.AtPressureEnthalpy(p, s.EnthalpyJPerKg, out var d);
                Assert.Equal(s.TemperatureK, byH.TemperatureK, 1e-8 * t);
                Assert.Equal(s.Phase, fast.AtPressureEntropy(p, s.EntropyJPerKgK, out var e).Phase);
                Assert.Equal(
                    s.DensityKgPerM3,
                    fast.AtPressureTemperature(p, t, out var g).DensityKgPerM3,
                    1e-6 * s.DensityKgPerM3
                );
                Assert.Equal(1 / s.CpJPerKgK!.Value, d.TemperatureByInput, 1e-3 / s.CpJPerKgK.Value);
                Assert.Equal(t, e.EnthalpyByInput, 1e-6 * t);
                Assert.Equal(s.CpJPerKgK.Value, g.EnthalpyByInput, 1e-6 * s.CpJPerKgK.Value);
                Assert.Equal(byH.DensityKgPerM3, fast.AtPressureEnthalpy(p, s.EnthalpyJPerKg).DensityKgPerM3);
            }
        }

        var below = 0.9995 * fluid.CriticalPressurePa;
        var line = fast.SaturationAtPressure(below, out var byP);
        Assert.Equal(line, fast.SaturationAtPressure(below));
        Assert.Equal(line.TemperatureK, fast.SaturationTemperatureK(below));
        Assert.True(byP.TemperatureK > 0 && byP.LiquidDensityKgPerM3 < 0 && byP.VapourDensityKgPerM3 > 0);
        var middle = 0.5 * (line.LiquidEnthalpyJPerKg + line.VapourEnthalpyJPerKg);
        Assert.Equal(FluidPhase.TwoPhase, fast.AtPressureEnthalpy(below, middle, out var inside).Phase);
        Assert.Equal(byP.TemperatureK, inside.TemperatureByPressure, 0.05 * byP.TemperatureK);
        var near = 0.9995 * fluid.CriticalTemperatureK;
        Assert.Equal(fast.SaturationPressurePa(near), fast.SaturationAtTemperature(near, out var byT).PressurePa);
        Assert.True(byT.PressurePa > 0);
        Assert.Equal(fast.SaturationAtTemperature(near).PressurePa, fast.SaturationPressurePa(near));
        // A hair from the saturation line the exact line decides the phase.
        var saturation = fluid.SaturationAtPressure(3e6);
        Assert.Equal(FluidPhase.Gas, fast.AtPressureTemperature(3e6, saturation.TemperatureK + 1e-6, out _).Phase);
        Assert.Equal(FluidPhase.Liquid, fast.AtPressureTemperature(3e6, saturation.TemperatureK - 1e-6).Phase);
    }

    [Fact]
    public void Batches_equal_single_calls_and_threads_equal_each_other()
    {
        var fluid = FluidCatalog.Get("R134a");
        var fast = fluid.Fast;
        var random = new Random(Seed);
        var states = Enumerable
            .Range(0, 3000)
            .Select(i => RandomState(fluid, random, 3))
            .Where(s => s.PressurePa >= fast.MinPressurePa && s.PressurePa <= fast.MaxPressurePa)
            .ToArray();
        double[] p = [.. states.Select(s => s.PressurePa)],
            h = [.. states.Select(s => s.EnthalpyJPerKg)],
            e = [.. states.Select(s => s.EntropyJPerKgK)],
            t = [.. states.Select(s => s.TemperatureK)];
        var results = new FastState[p.Length];
        fast.AtPressureEnthalpy(p, h, results);
        Assert.Equal([.. p.Zip(h, (a, b) => fast.AtPressureEnthalpy(a, b))], results);
        fast.AtPressureEntropy(p, e, results);
        Assert.Equal([.. p.Zip(e, (a, b) => fast.AtPressureEntropy(a, b))], results);
        fast.AtPressureTemperature(p, t, results);
        Assert.Equal([.. p.Zip(t, (a, b) => fast.AtPressureTemperature(a, b))], results);
        var parallel = new FastState[p.Length];
        Parallel.For(0, p.Length, i => parallel[i] = fast.AtPressureTemperature(p[i], t[i]));
        Assert.Equal(results, parallel);
        Assert.Throws<ArgumentException>(() => fast.AtPressureEnthalpy(p, h, new FastState[1]));
    }

    [Fact]
    public void Neither_layer_allocates()
    {
        var fluid = FluidCatalog.Get("R134a");
        var fast = fluid.Fast;
        double Run()
        {
            var sum = 0.0;
            for (var i = 0; i < 100; i++)
            {
                var p = 2e5 + (1e4 * i);
                sum +=
                    fast.AtPressureEnthalpy(p, 300e3, out _).TemperatureK
                    + fast.AtPressureEntropy(p, 1500).TemperatureK
                    + fast.AtPressureTemperature(p, 300 + i).DensityKgPerM3
                    + fast.SaturationAtPressure(p).TemperatureK
                    + fast.SaturationPressurePa(280)
                    + fluid.AtPressureEnthalpy(p, 420e3).TemperatureK
                    + fluid.AtTemperaturePressure(300 + i, p).DensityKgPerM3
                    + fluid.SaturationAtTemperature(280).PressurePa
                    + fluid.AtTemperatureDensity(350, 10).PressurePa;
            }

            return sum;
        }

        Run();
        var before = GC.GetAllocatedBytesForCurrentThread();
        var result = Run();
        Assert.Equal(0, GC.GetAllocatedBytesForCurrentThread() - before);
        Assert.True(double.IsFinite(result));
    }

    [Fact]
    public void The_fast_layer_refuses_what_lies_outside_its_tables()
    {
        var fast = FluidCatalog.GetFast("R-134a");
        foreach (var bad in (double[])[double.NaN, double.PositiveInfinity, -1, 1e4, 5e6])
        {
            Assert.Contains(
                "R134a",
                Assert.Throws<FluidRangeException>(() => fast.AtPressureEnthalpy(bad, 300e3)).Message,
                StringComparison.Ordinal
            );
            Assert.Throws<FluidRangeException>(() => fast.AtPressureTemperature(bad, 300, out _));
            Assert.Throws<FluidRangeException>(() => fast.SaturationAtPressure(bad));
            Assert.Throws<FluidRangeException>(() => fast.SaturationTemperatureK(bad));
        }

        foreach (var bad in (double[])[double.NaN, double.NegativeInfinity, 1, 1e7])
        {
            Assert.Throws<FluidRangeException>(() => fast.AtPressureEnthalpy(1e6, bad));
            Assert.Throws<FluidRangeException>(() => fast.AtPressureEntropy(1e6, bad, out _));
            Assert.Throws<FluidRangeException>(() => fast.AtPressureTemperature(1e6, bad));
            Assert.Throws<FluidRangeException>(() => fast.AtPressureTemperature(3e4, bad));
            Assert.Throws<FluidRangeException>(() => fast.SaturationAtTemperature(bad));
            Assert.Throws<FluidRangeException>(() => fast.SaturationPressurePa(bad));
        }

        var nitrogen = FluidCatalog.GetFast("Nitrogen");
        Assert.False(nitrogen.HasSaturation);
        Assert.Throws<FluidRangeException>(() => nitrogen.SaturationAtTemperature(100));
        Assert.Throws<FluidRangeException>(() => nitrogen.SaturationAtPressure(1e6));
        Assert.True(fast.HasSaturation && fast.BuildAll() > 100_000);
        Assert.Equal(
            (233.15, 423.15, 20e3, 4e6),
            (fast.MinTemperatureK, fast.MaxTemperatureK, fast.MinPressurePa, fast.MaxPressurePa)
        );
    }

    private static void Near(in SaturationState expected, in FastSaturation actual, Fluid fluid)
    {
        // Near the critical point everything moves like the square root of the distance, and so do errors: 7e-7 in h,
        // 2.4e-6 in density measured.
        var near = expected.TemperatureK > 0.99 * fluid.CriticalTemperatureK;
        var tenth = 0.1 * (near ? CriticalBound : Bound);
        Assert.Equal(expected.TemperatureK, actual.TemperatureK, tenth * expected.TemperatureK);
        Assert.Equal(expected.PressurePa, actual.PressurePa, tenth * expected.PressurePa);
        // Right above half the critical pressure, where the cells are widest: 8e-8 in vapour density.
        var bound = near ? tenth : 0.2 * Bound;
        Assert.Equal(expected.LiquidDensityKgPerM3, actual.LiquidDensityKgPerM3, bound * expected.LiquidDensityKgPerM3);
        Assert.Equal(expected.VapourDensityKgPerM3, actual.VapourDensityKgPerM3, bound * expected.VapourDensityKgPerM3);
        Assert.Equal(
            expected.LiquidEnthalpyJPerKg,
            actual.LiquidEnthalpyJPerKg,
            tenth * Math.Max(1e5, expected.LiquidEnthalpyJPerKg)
        );
        Assert.Equal(expected.VapourEnthalpyJPerKg, actual.VapourEnthalpyJPerKg, tenth * expected.VapourEnthalpyJPerKg);
        Assert.Equal(
            expected.LiquidEntropyJPerKgK,
            actual.LiquidEntropyJPerKgK,
            tenth * Math.Max(500, expected.LiquidEntropyJPerKgK)
        );
        Assert.Equal(expected.VapourEntropyJPerKgK, actual.VapourEntropyJPerKgK, tenth * expected.VapourEntropyJPerKgK);
    }

    /// <summary>Every fourth point under the dome, every fourth within half a percent of the saturation pressure, the
    /// rest anywhere.</summary>
    private static FluidState RandomState(Fluid fluid, Random random, int i)
    {
        var fast = fluid.Fast;
        if (fast.HasSaturation && i % 4 < 2)
        {
            var top = Math.Min(fluid.CriticalTemperatureK, fast.MaxTemperatureK);
            var t = fast.MinTemperatureK + ((top - fast.MinTemperatureK) * Math.Pow(random.NextDouble(), 0.4));
            return i % 4 == 0
                ? fluid.AtTemperatureQuality(t, random.NextDouble())
                : fluid.AtTemperaturePressure(
                    t,
                    fluid.SaturationAtTemperature(t).PressurePa * Math.Exp((random.NextDouble() - 0.5) * 0.01)
                );
        }

        var pressure = fast.MinPressurePa * Math.Pow(fast.MaxPressurePa / fast.MinPressurePa, random.NextDouble());
        return fluid.AtTemperaturePressure(
            fast.MinTemperatureK + ((fast.MaxTemperatureK - fast.MinTemperatureK) * random.NextDouble()),
            pressure
        );
    }

    private sealed class Worst
    {
        private string _where = "";

        public double Excess { get; private set; }

        public int WrongPhases { get; private set; }

        public int Count { get; private set; }

        public void Compare(string call, Fluid fluid, in FluidState expected, in FastState actual)
        {
            Count++;
            var critical =
                Math.Abs((expected.PressurePa / fluid.CriticalPressurePa) - 1) < 0.1
                && Math.Abs((expected.TemperatureK / fluid.CriticalTemperatureK) - 1) < 0.05;
            var bound = critical ? CriticalBound : Bound;
            Add(call + " T", expected.TemperatureK, actual.TemperatureK, expected.TemperatureK);
            Add(call + " rho", expected.DensityKgPerM3, actual.DensityKgPerM3, expected.DensityKgPerM3);
            // The zero of h and s is a convention: relative to a usual size where water's pass through it.
            Add(
                call + " h",
                expected.EnthalpyJPerKg,
                actual.EnthalpyJPerKg,
                Math.Max(1e5, Math.Abs(expected.EnthalpyJPerKg))
            );
            Add(
                call + " s",
                expected.EntropyJPerKgK,
                actual.EntropyJPerKgK,
                Math.Max(500, Math.Abs(expected.EntropyJPerKgK))
            );
            if (expected.Phase != actual.Phase)
                WrongPhases++;
            if (_where.IndexOf(" at ", StringComparison.Ordinal) < 0 && _where.Length > 0)
                _where +=
                    " at "
                    + string.Create(
                        CultureInfo.InvariantCulture,
                        $"{expected.TemperatureK:R} K, {expected.PressurePa:R} Pa, {expected.Phase}{(critical ? ", critical region" : "")}"
                    );

            void Add(string what, double a, double b, double scale)
            {
                var excess = Math.Abs(a - b) / scale / bound;
                if (excess <= Excess)
                    return;
                Excess = excess;
                _where = what;
            }
        }

        public override string ToString() =>
            string.Create(
                CultureInfo.InvariantCulture,
                $"{Count} comparisons, worst {Excess:G3} of the bound, {_where}; {WrongPhases} in another phase"
            );
    }
}
