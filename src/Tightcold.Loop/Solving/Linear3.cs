namespace Tightcold.Loop.Solving;

/// <summary>The three linear equations of a Newton step, by Cramer's rule on well-scaled columns.</summary>
internal static class Linear3
{
    public static bool TrySolve(in LoopPoint at, in LoopPoint dx, in LoopPoint dy, in LoopPoint dh, double logStep, double enthalpyStep, out double sx, out double sy, out double sh)
    {
        double a = (dx.FlowResidual - at.FlowResidual) / logStep, b = (dy.FlowResidual - at.FlowResidual) / logStep, c = (dh.FlowResidual - at.FlowResidual) / enthalpyStep;
        double d = (dx.ChargeResidual - at.ChargeResidual) / logStep, e = (dy.ChargeResidual - at.ChargeResidual) / logStep, f = (dh.ChargeResidual - at.ChargeResidual) / enthalpyStep;
        double g = (dx.EnergyResidual - at.EnergyResidual) / logStep, h = (dy.EnergyResidual - at.EnergyResidual) / logStep, i = (dh.EnergyResidual - at.EnergyResidual) / enthalpyStep;
        double r = -at.FlowResidual, s = -at.ChargeResidual, t = -at.EnergyResidual;
        double ei = (e * i) - (f * h), di = (d * i) - (f * g), dg = (d * h) - (e * g);
        var det = (a * ei) - (b * di) + (c * dg);
        sx = ((r * ei) - (b * ((s * i) - (f * t))) + (c * ((s * h) - (e * t)))) / det;
        sy = ((a * ((s * i) - (f * t))) - (r * di) + (c * ((d * t) - (s * g)))) / det;
        sh = ((a * ((e * t) - (s * h))) - (b * ((d * t) - (s * g))) + (r * dg)) / det;
        return double.IsFinite(sx) && double.IsFinite(sy) && double.IsFinite(sh);
    }
}
