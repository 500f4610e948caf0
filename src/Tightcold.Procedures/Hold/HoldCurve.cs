using Tightcold.Properties;

namespace Tightcold.Procedures.Hold;

/// <summary>
/// Expected pressures p(tᵢ) = p₀·bᵢ + dᵢ of one explanation, with p₀ free: the gauge's fixed offset goes with it.
/// </summary>
public sealed class HoldCurve
{
    private readonly double[] times;
    private readonly double[]? temperatures;
    private readonly double[] waterPa;
    private readonly double startPa;

    public HoldCurve(ReadOnlySpan<HoldReading> readings, HoldSetting setting)
    {
        Setting = setting;
        times = new double[readings.Length];
        waterPa = new double[readings.Length];
        startPa = readings[0].PressurePa;
        TemperatureKnown = true;
        foreach (var reading in readings)
            TemperatureKnown &= reading.TemperatureK is not null;
        temperatures = TemperatureKnown ? new double[readings.Length] : null;
        for (var i = 0; i < readings.Length; i++)
        {
            times[i] = readings[i].SecondsSinceStart - readings[0].SecondsSinceStart;
            if (temperatures is not null)
                temperatures[i] = readings[i].TemperatureK!.Value;
            waterPa[i] = WaterVapour.SaturationPressurePa(temperatures?[i] ?? setting.AmbientTemperatureK);
        }
    }

    public HoldSetting Setting { get; }
    public bool TemperatureKnown { get; }
    public double SpanSeconds => times[^1];

    /// <summary>Saturation pressure of water at the coldest moment, Pa.</summary>
    public double WaterPa => waterPa.Min();

    /// <summary>Gas law: p ∝ T at constant volume.</summary>
    public void Still(Span<double> factor, Span<double> rise)
    {
        for (var i = 0; i < factor.Length; i++)
        {
            factor[i] = temperatures is null ? 1 : temperatures[i] / temperatures[0];
            rise[i] = 0;
        }
    }

    /// <summary>p₀·exp(β·ΔT): more than the gas law, as gas in oil and on walls behaves. Replaces the factor.</summary>
    /// <param name="unknownDriftK">Change over the whole hold where no temperature was taken.</param>
    public void Drift(Span<double> factor, double betaPerK, double unknownDriftK)
    {
        for (var i = 0; i < factor.Length; i++)
            factor[i] = Math.Exp(
                betaPerK
                    * (
                        temperatures is null
                            ? unknownDriftK * times[i] / SpanSeconds
                            : temperatures[i] - temperatures[0]
                    )
            );
    }

    /// <summary>Air through a hole: V·dp/dt = Q·(1 − (p/pₐ)²), viscous; constant at vacuum. Solved in closed form,
    /// p = pₐ·tanh(artanh(p₀/pₐ) + Q·t/(V·pₐ)).</summary>
    public void Leak(Span<double> rise, double throughputPaM3PerS, double volumeM3)
    {
        var air = Setting.BarometerPa;
        var start = Math.Clamp(startPa / air, 0, 0.999);
        var angle = Math.Atanh(start);
        for (var i = 0; i < rise.Length; i++)
            rise[i] += air * (Math.Tanh(angle + throughputPaM3PerS * times[i] / (volumeM3 * air)) - start);
    }

    /// <summary>Gas from the oil, fading: A·(1 − e^(−t/τ)).</summary>
    public void OilGas(Span<double> rise, double amplitudePa, double seconds)
    {
        for (var i = 0; i < rise.Length; i++)
            rise[i] += amplitudePa * (1 - Math.Exp(-times[i] / seconds));
    }

    /// <summary>Water: the pressure runs to a share of saturation at the parts' temperature of the moment and
    /// stays.</summary>
    public void Moisture(Span<double> rise, double share, double seconds)
    {
        var pressure = startPa;
        for (var i = 1; i < rise.Length; i++)
        {
            var plateau = Math.Max(share * waterPa[i], startPa);
            pressure += (plateau - pressure) * (1 - Math.Exp(-(times[i] - times[i - 1]) / seconds));
            rise[i] += pressure - startPa;
        }
    }
}
