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
    public double LiquidDensity;
    public double VapourVolume;
    public double LiquidCp;
    public double CriticalK;

    // Vapour x kelvin above saturation, with n = x/(x + near) and f = x/(x + far): two scales on which the vapour
    // beside the dome turns into a gas of even heat capacity. h = hv + h1 x + h2 n + h3 f, v = vv (1 + v1 x + v2 n + v3
    // f), s = sv + s1 ln(1 + x/T) + s2 n + s3 f. Beyond the fitted superheat all three go on as such a gas does.
    public double H1,
        H2,
        H3,
        V1,
        V2,
        V3,
        S1,
        S2,
        S3;

    public const double NearK = 8;
    public const double FarK = 50;

    public readonly double Latent => VapourEnthalpy - LiquidEnthalpy;

    public readonly double VapourDensity => 1 / VapourVolume;

    /// <summary>Both phases have the same Gibbs energy, so sl = sv - (hv - hl)/T.</summary>
    public readonly double LiquidEntropy => VapourEntropy - (Latent / TemperatureK);

    /// <summary>Heat capacity of the vapour at the dome, J/(kg K).</summary>
    public readonly double VapourCp => H1 + (H2 / NearK) + (H3 / FarK);

    /// <summary>Enthalpy of vapour superheated by <paramref name="x"/> kelvin.</summary>
    public readonly double SuperheatedEnthalpy(double x) =>
        VapourEnthalpy + (x * (H1 + (H2 / (x + NearK)) + (H3 / (x + FarK))));

    /// <summary>Specific volume of vapour superheated by <paramref name="x"/> kelvin.</summary>
    public readonly double SuperheatedVolume(double x) =>
        VapourVolume * (1 + (x * (V1 + (V2 / (x + NearK)) + (V3 / (x + FarK)))));

    /// <summary>Entropy of vapour superheated by <paramref name="x"/> kelvin.</summary>
    public readonly double SuperheatedEntropy(double x) =>
        VapourEntropy + (S1 * Math.Log(1 + (x / TemperatureK))) + (x * ((S2 / (x + NearK)) + (S3 / (x + FarK))));

    /// <summary>Superheat, K, of vapour of enthalpy <paramref name="h"/>, not below the dome.</summary>
    public readonly double SuperheatAtEnthalpy(double h)
    {
        // x (H1 + H2/(x + near) + H3/(x + far)) = rise, times both denominators: a cubic. Halley's method (E. Halley,
        // Phil. Trans. 18, 1694, 136) from the dome's cp; the model asks this a dozen times a march, so each division
        // counts.
        var rise = h - VapourEnthalpy;
        const double sum = NearK + FarK,
            product = NearK * FarK;
        var c2 = (H1 * sum) + H2 + H3 - rise;
        var c1 = (H1 * product) + (H2 * FarK) + (H3 * NearK) - (rise * sum);
        var c0 = rise * product;
        // At the dome's heat capacity, then at that of the superheat so found.
        var x = rise * product / ((H1 * product) + (H2 * FarK) + (H3 * NearK));
        x = rise / (H1 + (H2 / (x + NearK)) + (H3 / (x + FarK)));
        for (var i = 0; i < 3; i++)
        {
            var p = (((((H1 * x) + c2) * x) + c1) * x) - c0;
            var p1 = (((3 * H1 * x) + (2 * c2)) * x) + c1;
            var p2 = (3 * H1 * x) + c2;
            var step = p * p1 / ((p1 * p1) - (p * p2));
            x -= step;
            // The digits treble: what is left is the cube of this.
            if (Math.Abs(step) < 1e-5 * x)
                break;
        }

        return x;
    }

    /// <summary>Superheat, K, of vapour of entropy <paramref name="s"/>, not below the dome.</summary>
    public readonly double SuperheatAtEntropy(double s)
    {
        double t = TemperatureK,
            near = S2 * NearK,
            far = S3 * FarK,
            rise = s - VapourEntropy;
        var x = rise / ((S1 / t) + (S2 / NearK) + (S3 / FarK));
        for (var i = 0; i < 4; i++)
        {
            double n = 1 / (x + NearK),
                f = 1 / (x + FarK);
            var value = (S1 * Math.Log(1 + (x / t))) + (x * ((S2 * n) + (S3 * f)));
            var step = (value - rise) / ((S1 / (t + x)) + (near * n * n) + (far * f * f));
            x -= step;
            if (Math.Abs(step) < 1e-8 * x)
                break;
        }

        return x;
    }

    /// <summary>Superheat, K, of vapour; 0 for anything wetter.</summary>
    public readonly double SuperheatOrNone(double h) => h >= VapourEnthalpy ? SuperheatAtEnthalpy(h) : 0;

    /// <summary>Temperature, K, of a state at this pressure: vapour, wet or liquid.</summary>
    public readonly double TemperatureAt(double h) => TemperatureAt(h, SuperheatOrNone(h));

    /// <summary>The same where the superheat is known already (<see cref="SuperheatOrNone"/>).</summary>
    public readonly double TemperatureAt(double h, double superheat) =>
        h >= VapourEnthalpy ? TemperatureK + superheat
        : h >= LiquidEnthalpy ? TemperatureK
        : TemperatureK - ((LiquidEnthalpy - h) / LiquidCp);

    /// <summary>Specific volume, m3/kg: vapour, homogeneous mixture or liquid.</summary>
    public readonly double VolumeAt(double h) => VolumeAt(h, SuperheatOrNone(h));

    /// <summary>The same where the superheat is known already.</summary>
    public readonly double VolumeAt(double h, double superheat)
    {
        if (h >= VapourEnthalpy)
            return SuperheatedVolume(superheat);
        if (h < LiquidEnthalpy)
            return 1 / SubcooledDensity((LiquidEnthalpy - h) / LiquidCp);
        var x = (h - LiquidEnthalpy) / Latent;
        return (x * VapourVolume) + ((1 - x) / LiquidDensity);
    }

    /// <summary>
    /// Density of liquid so much colder than saturation: that of saturated liquid at its own temperature, by the ratio
    /// of Guggenheim's rule (E. A. Guggenheim, J. Chem. Phys. 13, 1945, 253): rho ~ 1 + 7/4 t^(1/3) + 3/4 t, t = 1 -
    /// T/Tc.
    /// </summary>
    public readonly double SubcooledDensity(double subcoolingK) =>
        subcoolingK <= 0
            ? LiquidDensity
            : LiquidDensity * Guggenheim(TemperatureK - subcoolingK) / Guggenheim(TemperatureK);

    private readonly double Guggenheim(double temperatureK)
    {
        var t = 1 - (temperatureK / CriticalK);
        return 1 + (1.75 * Math.Exp(Math.Log(t) / 3)) + (0.75 * t);
    }

    /// <summary>Entropy of vapour or wet vapour of enthalpy <paramref name="h"/>.</summary>
    public readonly double EntropyAt(double h) => EntropyAt(h, SuperheatOrNone(h));

    /// <summary>The same where the superheat is known already.</summary>
    public readonly double EntropyAt(double h, double superheat) =>
        h >= VapourEnthalpy
            ? SuperheatedEntropy(superheat)
            : LiquidEntropy + ((h - LiquidEnthalpy) / Latent * (VapourEntropy - LiquidEntropy));

    /// <summary>Enthalpy of vapour or wet vapour of entropy <paramref name="s"/>.</summary>
    public readonly double EnthalpyAtEntropy(double s) =>
        s >= VapourEntropy
            ? SuperheatedEnthalpy(SuperheatAtEntropy(s))
            : LiquidEnthalpy + ((s - LiquidEntropy) / (VapourEntropy - LiquidEntropy) * Latent);
}
