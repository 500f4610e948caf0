namespace Tightcold.Loop.Solving;

/// <summary>
/// How the three residuals change with the three unknowns: by differences, and then, while the steps go well, corrected
/// by what each step showed instead of being measured anew (Broyden 1965, Math. Comput. 19, 577).
/// </summary>
internal struct Slopes
{
    /// <summary>Step of a difference, in ln p and in J/kg.</summary>
    public const double LogStep = 1e-6, EnthalpyStep = 0.1;

    // J/kg that count as much as a unit of ln p: half the latent heat.
    private const double EnthalpyUnit = 1e5;

    private double _a, _b, _c, _d, _e, _f, _g, _h, _i;

    /// <summary>Marches that differences take.</summary>
    public const int Marches = 3;

    public static Slopes ByDifferences(in LoopCase loop, double x, double y, double h, in LoopPoint at)
    {
        LoopMarch.Evaluate(loop, x + LogStep, y, h, out var dx);
        LoopMarch.Evaluate(loop, x, y + LogStep, h, out var dy);
        LoopMarch.Evaluate(loop, x, y, h + EnthalpyStep, out var dh);
        const double PerUnit = EnthalpyUnit / EnthalpyStep;
        return new Slopes
        {
            _a = (dx.FlowResidual - at.FlowResidual) / LogStep,
            _b = (dy.FlowResidual - at.FlowResidual) / LogStep,
            _c = (dh.FlowResidual - at.FlowResidual) * PerUnit,
            _d = (dx.ChargeResidual - at.ChargeResidual) / LogStep,
            _e = (dy.ChargeResidual - at.ChargeResidual) / LogStep,
            _f = (dh.ChargeResidual - at.ChargeResidual) * PerUnit,
            _g = (dx.EnergyResidual - at.EnergyResidual) / LogStep,
            _h = (dy.EnergyResidual - at.EnergyResidual) / LogStep,
            _i = (dh.EnergyResidual - at.EnergyResidual) * PerUnit,
        };
    }

    /// <summary>The step that would make all residuals vanish, by Cramer's rule.</summary>
    public readonly bool TrySolve(in LoopPoint at, out double sx, out double sy, out double sh)
    {
        double r = -at.FlowResidual, s = -at.ChargeResidual, t = -at.EnergyResidual;
        double ei = (_e * _i) - (_f * _h), di = (_d * _i) - (_f * _g), dg = (_d * _h) - (_e * _g);
        var det = (_a * ei) - (_b * di) + (_c * dg);
        sx = ((r * ei) - (_b * ((s * _i) - (_f * t))) + (_c * ((s * _h) - (_e * t)))) / det;
        sy = ((_a * ((s * _i) - (_f * t))) - (r * di) + (_c * ((_d * t) - (s * _g)))) / det;
        sh = EnthalpyUnit * ((_a * ((_e * t) - (s * _h))) - (_b * ((_d * t) - (s * _g))) + (r * dg)) / det;
        return double.IsFinite(sx) && double.IsFinite(sy) && double.IsFinite(sh);
    }

    /// <summary>After a whole step the residuals left over are what the slopes had wrong along it.</summary>
    public void Correct(double sx, double sy, double sh, in LoopPoint left)
    {
        sh /= EnthalpyUnit;
        var square = (sx * sx) + (sy * sy) + (sh * sh);
        double r = left.FlowResidual / square, s = left.ChargeResidual / square, t = left.EnergyResidual / square;
        _a += r * sx;
        _b += r * sy;
        _c += r * sh;
        _d += s * sx;
        _e += s * sy;
        _f += s * sh;
        _g += t * sx;
        _h += t * sy;
        _i += t * sh;
    }
}
