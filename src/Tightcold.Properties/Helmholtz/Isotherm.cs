namespace Tightcold.Properties.Helmholtz;

/// <summary>
/// One temperature of one equation, prepared for many densities. Lives on the stack; the work span has
/// length <see cref="ResidualPart.MaxWork"/>. Densities are reduced (delta).
/// </summary>
internal readonly ref struct Isotherm
{
    private readonly ResidualPart _residual;
    private readonly ReadOnlySpan<double> _work;
    private readonly double _idealValue;
    private readonly double _idealFirst;
    private readonly double _idealSecond;

    /// <summary>Prepares an isotherm; without caloric parts only <see cref="Density"/> may be asked.</summary>
    public Isotherm(HelmholtzEquation equation, double temperatureK, bool caloric, Span<double> work)
    {
        _residual = equation.Residual;
        _work = work;
        TemperatureK = temperatureK;
        Tau = equation.ReducingTemperatureK / temperatureK;
        GasConstant = equation.SpecificGasConstant;
        ReducingDensityKgPerM3 = equation.ReducingDensityKgPerM3;
        var logTau = Math.Log(Tau);
        _residual.PrepareTemperature(Tau, logTau, caloric, work);
        if (caloric)
            equation.Ideal.Evaluate(Tau, logTau, out _idealValue, out _idealFirst, out _idealSecond);
    }

    public double TemperatureK { get; }

    public double Tau { get; }

    public double GasConstant { get; }

    public double ReducingDensityKgPerM3 { get; }

    /// <summary>rho_r R T: pressure is this times delta (1 + delta dA/ddelta), Pa.</summary>
    public double PressureScalePa => ReducingDensityKgPerM3 * GasConstant * TemperatureK;

    public DensityValues Density(double delta) => _residual.EvaluateDensity(delta, Tau, _work);

    public double PressurePa(double delta, in DensityValues values) => PressureScalePa * delta * values.Compressibility;

    /// <summary>All properties at a reduced density.</summary>
    public PointProperties Point(double delta)
    {
        var r = _residual.Evaluate(delta, Tau, _work);
        var rt = GasConstant * TemperatureK;
        var caloric = _idealFirst + r.T;
        var curvature = _idealSecond + r.TT;
        var compressibility = 1 + r.D;
        var n = 1 + r.D - r.DT;
        var stiffness = 1 + (2 * r.D) + r.DD;
        return new PointProperties(
            TemperatureK: TemperatureK,
            Delta: delta,
            DensityKgPerM3: delta * ReducingDensityKgPerM3,
            PressurePa: PressureScalePa * delta * compressibility,
            InternalEnergyJPerKg: rt * caloric,
            EnthalpyJPerKg: rt * (caloric + compressibility),
            EntropyJPerKgK: GasConstant * (caloric - _idealValue - Math.Log(delta) - r.A),
            GasConstant: GasConstant,
            CaloricCurvature: curvature,
            ThermalPressure: n,
            Stiffness: stiffness,
            ResidualEntropyJPerKgK: GasConstant * (r.T - r.A),
            LogFugacityByDensity: r.A + r.D,
            Tau: Tau,
            ResidualD: r.D,
            ResidualDt: r.DT,
            ResidualDd: r.DD
        );
    }
}
