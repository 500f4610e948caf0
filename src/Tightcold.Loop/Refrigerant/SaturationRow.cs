namespace Tightcold.Loop.Refrigerant;

/// <summary>
/// Everything the loop needs to know of a refrigerant at one pressure: both sides of the dome and the shape of the
/// superheated vapour beside it. SI units; entropies and enthalpies share the fluid's own zero.
/// </summary>
internal struct SaturationRow
{
    public double PressurePa;
    public double TemperatureK;
    public double LiquidEnthalpy;
    public double VapourEnthalpy;
    public double VapourEntropy;
    public double LiquidEntropy;
    public double LiquidDensity;
    public double VapourVolume;
    public double LiquidCp;

    // Vapour x kelvin above saturation: h = hv + h1 x + h2 x2 + h3 x3, v = vv (1 + v1 x + v2 x2 + v3 x3).
    public double H1, H2, H3, V1, V2, V3;

    public readonly double Latent => VapourEnthalpy - LiquidEnthalpy;

    public readonly double VapourDensity => 1 / VapourVolume;

    /// <summary>Enthalpy of vapour superheated by <paramref name="x"/> kelvin.</summary>
    public readonly double SuperheatedEnthalpy(double x) => VapourEnthalpy + (x * (H1 + (x * (H2 + (x * H3)))));

    /// <summary>Specific volume of vapour superheated by <paramref name="x"/> kelvin.</summary>
    public readonly double SuperheatedVolume(double x) => VapourVolume * (1 + (x * (V1 + (x * (V2 + (x * V3))))));

    /// <summary>Entropy of vapour superheated by <paramref name="x"/> kelvin: the integral of cp dT / T of the enthalpy's own polynomial.</summary>
    public readonly double SuperheatedEntropy(double x)
    {
        var t = TemperatureK;
        var log = H1 - (2 * H2 * t) + (3 * H3 * t * t);
        return VapourEntropy + (log * Math.Log(1 + (x / t))) + (((2 * H2) - (3 * H3 * t)) * x) + (1.5 * H3 * x * x);
    }

    /// <summary>Superheat, K, of vapour of enthalpy <paramref name="h"/>, not below the dome.</summary>
    public readonly double SuperheatAtEnthalpy(double h)
    {
        var rise = h - VapourEnthalpy;
        var x = rise / (H1 + (H2 * rise / H1));
        x -= ((x * (H1 + (x * (H2 + (x * H3))))) - rise) / (H1 + (x * ((2 * H2) + (3 * x * H3))));
        x -= ((x * (H1 + (x * (H2 + (x * H3))))) - rise) / (H1 + (x * ((2 * H2) + (3 * x * H3))));
        return x;
    }

    /// <summary>Superheat, K, of vapour of entropy <paramref name="s"/>, not below the dome.</summary>
    public readonly double SuperheatAtEntropy(double s)
    {
        var t = TemperatureK;
        var x = (s - VapourEntropy) * t / H1;
        for (var i = 0; i < 3; i++)
        {
            var slope = (H1 + (x * ((2 * H2) + (3 * x * H3)))) / (t + x);
            x -= (SuperheatedEntropy(x) - s) / slope;
        }

        return x;
    }

    /// <summary>Temperature, K, of a state at this pressure: vapour, wet or liquid.</summary>
    public readonly double TemperatureAt(double h) =>
        h >= VapourEnthalpy ? TemperatureK + SuperheatAtEnthalpy(h)
        : h >= LiquidEnthalpy ? TemperatureK
        : TemperatureK - ((LiquidEnthalpy - h) / LiquidCp);

    /// <summary>Specific volume, m3/kg: vapour, homogeneous mixture or liquid (which contracts by 0.3 % a kelvin).</summary>
    public readonly double VolumeAt(double h)
    {
        if (h >= VapourEnthalpy)
            return SuperheatedVolume(SuperheatAtEnthalpy(h));
        if (h < LiquidEnthalpy)
            return 1 / SubcooledDensity((LiquidEnthalpy - h) / LiquidCp);
        var x = (h - LiquidEnthalpy) / Latent;
        return (x * VapourVolume) + ((1 - x) / LiquidDensity);
    }

    public readonly double SubcooledDensity(double subcoolingK) => LiquidDensity * (1 + (0.003 * subcoolingK));

    /// <summary>Entropy of vapour or wet vapour of enthalpy <paramref name="h"/>.</summary>
    public readonly double EntropyAt(double h) => h >= VapourEnthalpy
        ? SuperheatedEntropy(SuperheatAtEnthalpy(h))
        : LiquidEntropy + ((h - LiquidEnthalpy) / Latent * (VapourEntropy - LiquidEntropy));

    /// <summary>Enthalpy of vapour or wet vapour of entropy <paramref name="s"/>.</summary>
    public readonly double EnthalpyAtEntropy(double s) => s >= VapourEntropy
        ? SuperheatedEnthalpy(SuperheatAtEntropy(s))
        : LiquidEnthalpy + ((s - LiquidEntropy) / (VapourEntropy - LiquidEntropy) * Latent);
}
