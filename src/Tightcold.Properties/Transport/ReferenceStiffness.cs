using Tightcold.Properties.Helmholtz;

namespace Tightcold.Properties.Transport;

/// <summary>dp/drho of an equation along the one isotherm that critical enhancements are measured from; prepared
/// once.</summary>
internal sealed class ReferenceStiffness
{
    private readonly HelmholtzEquation _equation;
    private readonly double[] _work = new double[ResidualPart.MaxWork];
    private readonly double _tau;

    public ReferenceStiffness(HelmholtzEquation equation, double temperatureK)
    {
        _equation = equation;
        TemperatureK = temperatureK;
        _tau = equation.ReducingTemperatureK / temperatureK;
        equation.Residual.PrepareTemperature(_tau, Math.Log(_tau), withDerivatives: false, _work);
    }

    public double TemperatureK { get; }

    /// <summary>dp/drho, Pa m3/kg.</summary>
    public double PressureByDensity(double delta) =>
        _equation.SpecificGasConstant * TemperatureK * _equation.Residual.EvaluateDensity(delta, _tau, _work).Stiffness;
}
