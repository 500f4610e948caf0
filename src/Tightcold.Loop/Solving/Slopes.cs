using Tightcold.Numerics.Smoothing;

namespace Tightcold.Loop.Solving;

/// <summary>
/// How the residuals change with the three unknowns: by differences, and then, while the steps go well, corrected
/// by what each step showed instead of being measured anew (Broyden 1965, Math. Comput. 19, 577).
/// </summary>
/// <remarks>A receiver or accumulator fills over a kelvin: the charge is an S of the pressure, and straight lines leap
/// from one side of it to the other. So the straight lines are laid through the charge without the store's filling and
/// through the place that the filling is the smooth step of, and the step is sought where both agree.</remarks>
internal struct Slopes
{
    /// <summary>Step of a difference, in ln p and in J/kg.</summary>
    public const double LogStep = 1e-6,
        EnthalpyStep = 0.1;

    // J/kg that count as much as a unit of ln p: half the latent heat.
    private const double EnthalpyUnit = 1e5;

    private const int LevelSteps = 60;

    private double _a,
        _b,
        _c,
        _d,
        _e,
        _f,
        _g,
        _h,
        _i;
    private double _sx,
        _sy,
        _sh;

    // The store's range as a share of the charge, kept as it was where the slopes were taken.
    private double _range;

    // Of the last step: place and level that it leads to.
    private double _place,
        _level;

    /// <summary>Marches that differences take.</summary>
    public const int Marches = 3;

    public static Slopes ByDifferences(in LoopCase loop, double x, double y, double h, in LoopPoint at)
    {
        LoopMarch.Evaluate(loop, x + LogStep, y, h, out var dx);
        LoopMarch.Evaluate(loop, x, y + LogStep, h, out var dy);
        LoopMarch.Evaluate(loop, x, y, h + EnthalpyStep, out var dh);
        const double PerUnit = EnthalpyUnit / EnthalpyStep;
        var slopes = new Slopes { _range = at.StoreRangeKg / loop.ChargeKg };
        slopes._a = (dx.FlowResidual - at.FlowResidual) / LogStep;
        slopes._b = (dy.FlowResidual - at.FlowResidual) / LogStep;
        slopes._c = (dh.FlowResidual - at.FlowResidual) * PerUnit;
        slopes._d = (slopes.Rest(dx) - slopes.Rest(at)) / LogStep;
        slopes._e = (slopes.Rest(dy) - slopes.Rest(at)) / LogStep;
        slopes._f = (slopes.Rest(dh) - slopes.Rest(at)) * PerUnit;
        slopes._g = (dx.EnergyResidual - at.EnergyResidual) / LogStep;
        slopes._h = (dy.EnergyResidual - at.EnergyResidual) / LogStep;
        slopes._i = (dh.EnergyResidual - at.EnergyResidual) * PerUnit;
        slopes._sx = (dx.StorePlace - at.StorePlace) / LogStep;
        slopes._sy = (dy.StorePlace - at.StorePlace) / LogStep;
        slopes._sh = (dh.StorePlace - at.StorePlace) * PerUnit;
        return slopes;
    }

    /// <summary>The step that would make all residuals vanish: by Cramer's rule for an empty store and for a full one,
    /// and between them where the level is that of the place the step leads to.</summary>
    public bool TrySolve(in LoopPoint at, out double sx, out double sy, out double sh)
    {
        double r = -at.FlowResidual,
            s = -Rest(at),
            t = -at.EnergyResidual;
        double ei = (_e * _i) - (_f * _h),
            di = (_d * _i) - (_f * _g),
            dg = (_d * _h) - (_e * _g);
        var det = (_a * ei) - (_b * di) + (_c * dg);
        sx = ((r * ei) - (_b * ((s * _i) - (_f * t))) + (_c * ((s * _h) - (_e * t)))) / det;
        sy = ((_a * ((s * _i) - (_f * t))) - (r * di) + (_c * ((_d * t) - (s * _g)))) / det;
        sh = ((_a * ((_e * t) - (s * _h))) - (_b * ((_d * t) - (s * _g))) + (r * dg)) / det;
        // What a full store adds to the step: the same with only the charge to make up for.
        var fx = _range * ((_b * _i) - (_c * _h)) / det;
        var fy = _range * ((_c * _g) - (_a * _i)) / det;
        var fh = _range * ((_a * _h) - (_b * _g)) / det;
        var empty = at.StorePlace + (_sx * sx) + (_sy * sy) + (_sh * sh);
        var full = (_sx * fx) + (_sy * fy) + (_sh * fh);
        if (!double.IsFinite(empty) || !double.IsFinite(full))
            return false;
        _level = Level(empty, full, at.StoreLevel);
        _place = empty + (_level * full);
        sx += _level * fx;
        sy += _level * fy;
        sh = EnthalpyUnit * (sh + (_level * fh));
        return double.IsFinite(sx) && double.IsFinite(sy) && double.IsFinite(sh);
    }

    /// <summary>After a whole step the residuals left over are what the slopes had wrong along it.</summary>
    public void Correct(double sx, double sy, double sh, in LoopPoint left)
    {
        sh /= EnthalpyUnit;
        var square = (sx * sx) + (sy * sy) + (sh * sh);
        double r = left.FlowResidual / square,
            s = (Rest(left) + (_range * _level)) / square,
            t = left.EnergyResidual / square;
        var u = (left.StorePlace - _place) / square;
        _a += r * sx;
        _b += r * sy;
        _c += r * sh;
        _d += s * sx;
        _e += s * sy;
        _f += s * sh;
        _g += t * sx;
        _h += t * sy;
        _i += t * sh;
        _sx += u * sx;
        _sy += u * sy;
        _sh += u * sh;
    }

    private readonly double Rest(in LoopPoint p) => p.ChargeResidual - (_range * p.StoreLevel);

    /// <summary>The level L in 0 to 1 that is the smooth step of the place empty + L full: there always is one, and
    /// where there are three it is one on the side of the present level that it is drawn to.</summary>
    private static double Level(double empty, double full, double present)
    {
        double low = 0,
            high = 1;
        if (Smooth.Step(empty + (present * full)) > present)
            low = present;
        else
            high = present;
        if (low == 0 && Smooth.Step(empty) <= 0)
            return 0;
        if (high == 1 && Smooth.Step(empty + full) >= 1)
            return 1;
        // Newton's method in a bracket, halved where it leaves it: the slope of the step is known.
        var level = 0.5 * (low + high);
        for (var i = 0; i < LevelSteps; i++)
        {
            var place = Math.Clamp(empty + (level * full), 0, 1);
            var off = Smooth.Step(place) - level;
            if (off > 0)
                low = level;
            else
                high = level;
            var next = level - (off / ((6 * place * (1 - place) * full) - 1));
            if (!(next > low && next < high))
                next = 0.5 * (low + high);
            if (Math.Abs(next - level) < 1e-15)
                break;
            level = next;
        }

        return level;
    }
}
