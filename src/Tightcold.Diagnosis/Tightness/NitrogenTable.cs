namespace Tightcold.Diagnosis.Tightness;

/// <summary>A pressure test with nitrogen as a table of likelihoods over the leak.</summary>
internal static class NitrogenTable
{
    /// <summary>The thermometer is not the gas, K, each reading by itself; given with the task, a common
    /// finding.</summary>
    private const double EachK = 0.7;

    /// <summary>And over the whole test, K, with and without a thermometer.</summary>
    private const double CommonK = 0.5,
        UnknownK = 3;

    /// <summary>Filling warms the gas; what is left of it fades within a quarter of an hour, K and s;
    /// assumed.</summary>
    private const double WarmK = 4,
        WarmSeconds = 400;

    /// <summary>Within this time after filling nothing is judged finely, s.</summary>
    private const double QuarterSeconds = 900;

    /// <summary>Nitrogen that the oil takes up, share of the pressure (half-normal) and how fast, s. An Ostwald
    /// coefficient of 0.1 and 0.15 L of oil in 2.5 L are 0.6 %; assumed from gas solubilities in ester oils.</summary>
    private static readonly (double Share, double Odds)[] Dissolves = [(0.0015, 0.5), (0.004, 0.5)];
    private static readonly double[] DissolvesSeconds = [900, 3600, 14_400];
    private const double NoDissolving = 0.35;

    /// <summary>A fall of pressure is seldom anything but gas that went; against the peak of the likelihood.
    /// Assumed.</summary>
    private const double Moved = 0.00005;

    /// <summary>One test in a hundred that stood still was read behind a shut valve; assumed.</summary>
    private const double Blind = 0.01;

    /// <summary>Holes do not keep the viscous law exactly: a fall is true to a tenth, gauge's scale besides;
    /// assumed.</summary>
    private const double LawShare = 0.10;

    public static TestTable Of(NitrogenTest test, double barometerPa, int most = Thinned.Most)
    {
        var readings = Thinned.Of(test.Readings.AsSpan(), most);
        var known = Array.TrueForAll(readings, reading => reading.TemperatureK is not null);
        var log = LogOf(readings, false, test, barometerPa);
        if (known)
        {
            var with = LogOf(readings, true, test, barometerPa);
            TestTable.NoMoreThan(with, log);
            log = with;
        }
        var flat = Flat(readings, known, test);
        if (flat)
            TestTable.NoMoreThan(log, new double[log.Length]);
        var shows = TestTable.ShowsLeak(log);
        var raw = (double[])log.Clone();
        TestTable.Cap(log, Blind, Moved);
        return new(
            log,
            raw,
            null,
            Floor(readings, known, test, barometerPa),
            shows,
            flat,
            Quality(test, known, barometerPa)
        );
    }

    /// <summary>The leak that a test like this would show half the time, Pa/s, and nothing else of it.</summary>
    public static double FloorOf(NitrogenTest test, double barometerPa)
    {
        var readings = Thinned.Of(test.Readings.AsSpan(), Thinned.Most);
        return Floor(
            readings,
            Array.TrueForAll(readings, reading => reading.TemperatureK is not null),
            test,
            barometerPa
        );
    }

    private static double[] LogOf(NitrogenReading[] readings, bool known, NitrogenTest test, double barometerPa) =>
        Model(readings, known, test, barometerPa)
            .LogLikelihoods(Array.ConvertAll(readings, reading => reading.PressurePa))[0];

    private static TrendModel Model(NitrogenReading[] readings, bool known, NitrogenTest test, double barometerPa)
    {
        var count = readings.Length;
        var span = readings[^1].SecondsSinceStart - readings[0].SecondsSinceStart;
        var kelvins = readings[0].TemperatureK ?? 293.15;
        double[] factor = new double[count],
            covariance = new double[count * count];
        var times = Array.ConvertAll(readings, reading => reading.SecondsSinceStart - readings[0].SecondsSinceStart);
        var perK = readings[0].PressurePa / kelvins;
        var slope = perK * (known ? CommonK : UnknownK);
        var gauge =
            test.DriftShare * readings[0].PressurePa + (test.ScatterPa < 0.5 * test.StepPa ? 0.4 * test.StepPa : 0);
        var scale = Math.Sqrt(LawShare * LawShare + test.GainSpread * test.GainSpread);
        for (var i = 0; i < count; i++)
        {
            factor[i] = known ? readings[i].TemperatureK!.Value / kelvins : 1;
            var warm = Warm(test, times[i]);
            covariance[i * count + i] =
                test.ScatterPa * test.ScatterPa + test.StepPa * test.StepPa / 12 + Math.Pow(perK * EachK, 2);
            for (var j = 0; j < count; j++)
                covariance[i * count + j] +=
                    (slope * slope + gauge * gauge) * times[i] * times[j] / (span * span)
                    + perK * perK * 0.25 * warm * Warm(test, times[j])
                    + scale
                        * scale
                        * (readings[i].PressurePa - readings[0].PressurePa)
                        * (readings[j].PressurePa - readings[0].PressurePa);
        }
        return new(
            [new(1, factor, covariance)],
            Shapes(readings, times, test, perK),
            [null],
            Leaks(times, readings[0].PressurePa, barometerPa)
        );
    }

    private static double Warm(NitrogenTest test, double time) =>
        WarmK * Math.Exp(-(test.SecondsSinceFilled + time) / WarmSeconds);

    private static TrendShape[] Shapes(NitrogenReading[] readings, double[] times, NitrogenTest test, double perK)
    {
        var start = readings[0].PressurePa;
        var shapes = new List<TrendShape> { new(0.5 * NoDissolving, null, 1) };
        foreach (var seconds in DissolvesSeconds)
        {
            var curve = Array.ConvertAll(times, time => -start * (1 - Math.Exp(-time / seconds)));
            foreach (var (share, odds) in Dissolves)
                shapes.Add(new((1 - NoDissolving) * odds / DissolvesSeconds.Length, curve, share));
        }
        shapes.Add(
            new(
                0.5 * NoDissolving,
                Array.ConvertAll(times, time => perK * (Warm(test, time) - Warm(test, 0)) / WarmK),
                WarmK
            )
        );
        return [.. shapes];
    }

    /// <summary>Viscous outflow dp/dt = −q·(p² − pₐ²)/(p₀² − pₐ²), in closed form with artanh(pₐ/p).</summary>
    private static double[] Leak(double rate, double[] times, double startPa, double barometerPa)
    {
        var drive = Math.Max(startPa * startPa - barometerPa * barometerPa, 1);
        var angle = Math.Atanh(Math.Min(barometerPa / startPa, 0.9999));
        return Array.ConvertAll(times, time =>
            startPa <= barometerPa ? 0 : barometerPa / Math.Tanh(angle + rate * time * barometerPa / drive) - startPa
        );
    }

    private static double[][] Leaks(double[] times, double startPa, double barometerPa) =>
        Array.ConvertAll(FlowGrid.Values, rate => Leak(rate, times, startPa, barometerPa));

    /// <summary>Nothing fell beyond what gauge and heat do anyhow.</summary>
    private static bool Flat(NitrogenReading[] readings, bool known, NitrogenTest test)
    {
        var least = double.PositiveInfinity;
        foreach (var reading in readings)
            least = Math.Min(
                least,
                reading.PressurePa * (known ? readings[0].TemperatureK!.Value / reading.TemperatureK!.Value : 1)
            );
        return readings[0].PressurePa - least <= Math.Max(test.StepPa, 2 * test.ScatterPa);
    }

    private static double Floor(NitrogenReading[] readings, bool known, NitrogenTest test, double barometerPa) =>
        TestTable.Floor(TestReading.FailedFrom, rate =>
        {
            var start = readings[0];
            var times = Array.ConvertAll(readings, reading => reading.SecondsSinceStart - start.SecondsSinceStart);
            var fall = Leak(rate, times, start.PressurePa, barometerPa);
            var made = new NitrogenReading[readings.Length];
            for (var i = 0; i < made.Length; i++)
            {
                var still =
                    start.PressurePa * (known ? readings[i].TemperatureK!.Value / start.TemperatureK!.Value : 1);
                made[i] = readings[i] with { PressurePa = Math.Max(still + fall[i], 1) };
            }
            return TestTable.ShowsLeak(LogOf(made, known, test, barometerPa));
        });

    private static TestQuality Quality(NitrogenTest test, bool known, double barometerPa)
    {
        var quality = known ? TestQuality.None : TestQuality.NoTemperature;
        var seconds = test.Readings[^1].SecondsSinceStart - test.Readings[0].SecondsSinceStart;
        if (seconds < QuarterSeconds)
            quality |= TestQuality.TooShort;
        if (test.SecondsSinceFilled < QuarterSeconds)
            quality |= TestQuality.WarmFilling;
        if (test.OnDial)
            quality |= TestQuality.DialOnly;
        if (test.Readings[0].PressurePa - barometerPa < 5e5)
            quality |= TestQuality.LowPressure;
        return quality;
    }
}
