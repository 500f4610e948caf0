using Tightcold.Procedures.Hold;
using Tightcold.Properties;

namespace Tightcold.Diagnosis.Tightness;

/// <summary>A vacuum hold as a table of likelihoods over the leak and the water inside.</summary>
internal static class HoldTable
{
    /// <summary>Relative change of the pressure per kelvin, with its odds: the gas law, gas in oil, water in oil;
    /// assumed.</summary>
    private static readonly (double PerK, double Odds)[] Warmth = [(0.0034, 0.45), (0.02, 0.35), (0.06, 0.20)];

    /// <summary>Without temperatures the parts may have changed by this much over the hold, one standard deviation,
    /// K.</summary>
    private const double UnknownK = 3;

    /// <summary>With them: the thermometer is not the gas; over the whole hold, and each reading by itself,
    /// K.</summary>
    private const double CommonK = 0.4,
        EachK = 0.3;

    /// <summary>Gas from oil and walls: how fast it fades (s) and how much is still to come (Pa, half-normal); up to
    /// 1000 micron is normal practice. The slowest is what looks most like a leak.</summary>
    private static readonly double[] GasSeconds = [200, 700, 2200, 7000, 25_000];
    private static readonly (double Pa, double Odds)[] GasScales = [(6, 0.25), (30, 0.40), (110, 0.35)];
    private const double NoGas = 0.12;

    /// <summary>Three holds in ten lose gas inside: a drier that is not full and oil that was pumped poorer than what now
    /// stands over it take vapour up again, some share of what stood there at the start (half-normal). So a flat line is
    /// no proof that nothing came in; assumed.</summary>
    private const double TakesUp = 0.30;
    private static readonly double[] UptakeSeconds = [200, 700, 2200, 7000];
    private static readonly (double Share, double Odds)[] UptakeShares = [(0.1, 0.6), (0.4, 0.4)];

    private static readonly double[] WaterSeconds = [120, 600, 2400];

    /// <summary>Real curves are not exponentials: a share of each reading's own rise is error of the model.</summary>
    private const double ModelShare = 0.04;

    /// <summary>A valve not shut, another hose: one hold in fifty, with any reading; against the peak of a likelihood
    /// that is a twentieth as wide as the range of rates. Assumed.</summary>
    private const double Moved = 0.001;

    /// <summary>One hold in fifty was read behind a shut valve or on a gauge that stood still; assumed.</summary>
    private const double Blind = 0.02;

    public static TestTable Of(
        VacuumHold hold,
        CircuitSize size,
        double barometerPa,
        double[] waterOdds,
        int most = Thinned.Most
    )
    {
        var readings = Thinned.Of(hold.Readings.AsSpan(), most);
        var known = Array.TrueForAll(readings, reading => reading.TemperatureK is not null);
        var (log, byWater) = Both(readings, known, hold, size, barometerPa, waterOdds);
        var flat = Flat(readings);
        if (flat && readings.Length >= 6)
            // The later half of a flat hold may only help.
            TestTable.NoMoreThan(
                log,
                Both(readings[..(readings.Length / 2)], known, hold, size, barometerPa, waterOdds).Log
            );
        if (flat)
            TestTable.NoMoreThan(log, new double[log.Length]);
        var shows = TestTable.ShowsLeak(log);
        var raw = (double[])log.Clone();
        TestTable.Cap(log, Blind, Moved);
        return new(
            log,
            raw,
            byWater,
            Floor(readings, known, hold, size, barometerPa),
            shows,
            flat,
            Quality(hold, known)
        );
    }

    /// <summary>The leak that a hold like this would show half the time, Pa/s, and nothing else of it.</summary>
    public static double FloorOf(VacuumHold hold, CircuitSize size, double barometerPa)
    {
        var readings = Thinned.Of(hold.Readings.AsSpan(), Thinned.Most);
        return Floor(
            readings,
            Array.TrueForAll(readings, reading => reading.TemperatureK is not null),
            hold,
            size,
            barometerPa
        );
    }

    /// <summary>With temperatures, and kept from saying more for a leak than the same hold without them.</summary>
    private static (double[] Log, double[][] ByWater) Both(
        HoldReading[] readings,
        bool known,
        VacuumHold hold,
        CircuitSize size,
        double barometerPa,
        double[] waterOdds
    )
    {
        var without = Marginal(readings, false, hold, size, barometerPa, waterOdds);
        if (!known)
            return without;
        var with = Marginal(readings, true, hold, size, barometerPa, waterOdds);
        TestTable.NoMoreThan(with.Log, without.Log);
        return with;
    }

    private static (double[] Log, double[][] ByWater) Marginal(
        HoldReading[] readings,
        bool known,
        VacuumHold hold,
        CircuitSize size,
        double barometerPa,
        double[] waterOdds
    )
    {
        var times = Times(readings);
        var waters = hold.HosesAlone ? [null] : Waters(readings, times, known, size);
        var model = new TrendModel(
            Classes(readings, times, known, hold.GainSpread),
            Shapes(times, readings[0].PressurePa),
            waters,
            Leaks(times, readings[0].PressurePa, barometerPa)
        );
        var all = model.LogLikelihoods(Array.ConvertAll(readings, reading => reading.PressurePa));
        if (hold.HosesAlone)
            return (all[0], []);
        var byWater = new double[WaterGrid.Count][];
        var log = new double[FlowGrid.Count];
        Array.Fill(log, double.NegativeInfinity);
        for (var w = 0; w < WaterGrid.Count; w++)
        {
            byWater[w] = all[w * WaterSeconds.Length];
            for (var k = 1; k < WaterSeconds.Length; k++)
            for (var q = 0; q < log.Length; q++)
                byWater[w][q] = TrendModel.LogSum(byWater[w][q], all[w * WaterSeconds.Length + k][q]);
            for (var q = 0; q < log.Length; q++)
                log[q] = TrendModel.LogSum(log[q], byWater[w][q] + Math.Log(waterOdds[w] + 1.0 / WaterGrid.Count));
        }
        return (log, byWater);
    }

    private static double[] Times(HoldReading[] readings) =>
        Array.ConvertAll(readings, reading => reading.SecondsSinceStart - readings[0].SecondsSinceStart);

    private static TrendClass[] Classes(HoldReading[] readings, double[] times, bool known, double gain)
    {
        var count = readings.Length;
        var span = times[^1];
        return Array.ConvertAll(Warmth, warmth =>
        {
            var factor = new double[count];
            var covariance = new double[count * count];
            var level = Array.ConvertAll(readings, reading => Math.Max(reading.PressurePa, 1)).Min();
            var slope = level * warmth.PerK * (known ? CommonK : UnknownK);
            // A gauge whose step is wider than its scatter hides a rise within the step however often it is read.
            var coarse = readings[0].ScatterPa < 0.5 * readings[0].StepPa ? 0.4 * readings[0].StepPa : 0;
            for (var i = 0; i < count; i++)
            {
                var reading = readings[i];
                factor[i] = known
                    ? Math.Exp(warmth.PerK * (reading.TemperatureK!.Value - readings[0].TemperatureK!.Value))
                    : 1;
                var model = ModelShare * (reading.PressurePa - readings[0].PressurePa);
                var each = reading.PressurePa * warmth.PerK * EachK;
                covariance[i * count + i] =
                    reading.ScatterPa * reading.ScatterPa
                    + reading.StepPa * reading.StepPa / 12
                    + model * model
                    + each * each;
                // A wrong scale makes every rise larger or smaller alike.
                for (var j = 0; j < count; j++)
                    covariance[i * count + j] +=
                        (slope * slope + coarse * coarse) * times[i] * times[j] / (span * span)
                        + gain
                            * gain
                            * (reading.PressurePa - readings[0].PressurePa)
                            * (readings[j].PressurePa - readings[0].PressurePa);
            }
            return new TrendClass(warmth.Odds, factor, covariance);
        });
    }

    private static TrendShape[] Shapes(double[] times, double startPa)
    {
        var shapes = new List<TrendShape> { new(NoGas, null, 1) };
        foreach (var seconds in GasSeconds)
        {
            var curve = Array.ConvertAll(times, time => 1 - Math.Exp(-time / seconds));
            foreach (var (pascals, odds) in GasScales)
                shapes.Add(new((1 - NoGas - TakesUp) * odds / GasSeconds.Length, curve, pascals));
        }
        foreach (var seconds in UptakeSeconds)
        {
            var curve = Array.ConvertAll(times, time => Math.Exp(-time / seconds) - 1);
            foreach (var (share, odds) in UptakeShares)
                shapes.Add(new(TakesUp * odds / UptakeSeconds.Length, curve, share * Math.Max(1, startPa)));
        }
        return [.. shapes];
    }

    private static double[]?[] Waters(HoldReading[] readings, double[] times, bool known, CircuitSize size)
    {
        var waters = new double[]?[WaterGrid.Count * WaterSeconds.Length];
        for (var w = 0; w < WaterGrid.Count; w++)
        for (var k = 0; k < WaterSeconds.Length; k++)
            waters[w * WaterSeconds.Length + k] = Water(
                WaterGrid.Kilograms[w],
                WaterSeconds[k],
                readings,
                times,
                known,
                size
            );
        return waters;
    }

    /// <summary>Runs to the share of saturation at the parts' temperature of the moment; half of what stood at the
    /// start was water already.</summary>
    private static double[] Water(
        double kilograms,
        double seconds,
        HoldReading[] readings,
        double[] times,
        bool known,
        CircuitSize size
    )
    {
        var curve = new double[times.Length];
        var pressure = 0.0;
        for (var i = 1; i < curve.Length; i++)
        {
            var kelvins = known ? readings[i].TemperatureK!.Value : size.AmbientK;
            var vapour = WaterGrid.Share(kilograms, size, kelvins) * WaterVapour.SaturationPressurePa(kelvins);
            var plateau = vapour - 0.5 * Math.Min(vapour, readings[0].PressurePa);
            curve[i] = pressure += (plateau - pressure) * (1 - Math.Exp(-(times[i] - times[i - 1]) / seconds));
        }
        return curve;
    }

    /// <summary>Air through holes, V·dp/dt = Q·(1 − (p/pₐ)²), viscous: p = pₐ·tanh(artanh(p₀/pₐ) +
    /// Q·t/(V·pₐ)).</summary>
    private static double[] Leak(double rate, double[] times, double startPa, double barometerPa)
    {
        var start = Math.Clamp(startPa / barometerPa, 0, 0.999);
        var angle = Math.Atanh(start);
        return Array.ConvertAll(times, time => barometerPa * (Math.Tanh(angle + rate * time / barometerPa) - start));
    }

    private static double[][] Leaks(double[] times, double startPa, double barometerPa) =>
        Array.ConvertAll(FlowGrid.Values, rate => Leak(rate, times, startPa, barometerPa));

    /// <summary>Nothing rose beyond what the gauge shows anyhow.</summary>
    private static bool Flat(HoldReading[] readings)
    {
        var rose = readings.Max(reading => reading.PressurePa) - readings[0].PressurePa;
        return rose <= Math.Max(readings[0].StepPa, 2 * readings[0].ScatterPa);
    }

    /// <summary>The noise-free rise that would be told at nine to one from even odds.</summary>
    private static double Floor(
        HoldReading[] readings,
        bool known,
        VacuumHold hold,
        CircuitSize size,
        double barometerPa
    ) => TestTable.Floor(TestReading.HoldFailedFrom, rate =>
        {
            var times = Times(readings);
            var rise = Leak(rate, times, readings[0].PressurePa, barometerPa);
            var made = new HoldReading[readings.Length];
            for (var i = 0; i < made.Length; i++)
            {
                var still =
                    readings[0].PressurePa
                    * (known ? readings[i].TemperatureK!.Value / readings[0].TemperatureK!.Value : 1);
                made[i] = readings[i] with { PressurePa = still + rise[i] };
            }
            var model = new TrendModel(
                Classes(made, times, known, hold.GainSpread),
                Shapes(times, readings[0].PressurePa),
                [null],
                Leaks(times, readings[0].PressurePa, barometerPa)
            );
            return TestTable.ShowsLeak(model.LogLikelihoods(Array.ConvertAll(made, reading => reading.PressurePa))[0]);
        });

    private static TestQuality Quality(VacuumHold hold, bool known)
    {
        var quality = known ? TestQuality.None : TestQuality.NoTemperature;
        if (hold.OnDial)
            quality |= TestQuality.DialOnly;
        var seconds = hold.Readings[^1].SecondsSinceStart - hold.Readings[0].SecondsSinceStart;
        if (seconds < 900)
            quality |= TestQuality.TooShort;
        if (known && hold.Readings[0].TemperatureK - hold.Readings[^1].TemperatureK > 2)
            quality |= TestQuality.Cooling;
        return quality;
    }
}
