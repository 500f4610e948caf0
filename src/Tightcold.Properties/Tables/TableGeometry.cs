using Tightcold.Properties.Flashes;

namespace Tightcold.Properties.Tables;

/// <summary>
/// How the tables of a fluid are laid out: pressure cells that grow finer towards the critical pressure, what lies
/// along their isobars, and the states that bound them.
/// </summary>
internal sealed class TableGeometry
{
    /// <summary>Within this share of the critical pressure the reference equations answer instead of tables.</summary>
    public const double CriticalBand = 0.001;

    // Below half the critical pressure: so many cells for each doubling. Above: so many for each halving of the
    // distance.
    private const int CellsPerDoubling = 4;
    private const int CellsPerHalving = 2;

    // The liquid is tabled this much below the lowest temperature served, so that it has a width where the tables
    // begin.
    private const double LiquidMarginK = 10;

    private readonly Fluid _fluid;
    private readonly IsobarSolver _solver;

    public TableGeometry(Fluid fluid)
    {
        _fluid = fluid;
        _solver = new IsobarSolver(fluid);
        var range = fluid.Definition.TableRange;
        Range = range;
        CriticalPressurePa = fluid.CriticalPressurePa;
        CriticalTemperatureK = fluid.CriticalTemperatureK;
        HasDome = fluid.HasSaturation && range.MinTemperatureK < CriticalTemperatureK;
        LiquidMinTemperatureK = Math.Max(range.MinTemperatureK - LiquidMarginK, fluid.MinTemperatureK);
        DomeStartPa = HasDome
            ? fluid.SaturationAtTemperature(range.MinTemperatureK).PressurePa
            : double.PositiveInfinity;
        Axis = new CellAxis(Limits());
        Regimes =
        [
            .. Enumerable
                .Range(0, Axis.Count)
                .Select(cell => RegimeAt(0.5 * (Axis.LowerOf(cell) + Axis.UpperOf(cell)))),
        ];
        Ends = new IsobarEnds[Axis.Count][];
        for (var cell = 0; cell < Axis.Count; cell++)
        {
            Ends[cell] = new IsobarEnds[Lobatto.Count];
            if (Regimes[cell] == PressureRegime.Critical)
                continue;
            for (var i = 0; i < Lobatto.Count; i++)
                Ends[cell][i] =
                    i == 0 && cell > 0 && Regimes[cell - 1] == Regimes[cell]
                        ? Ends[cell - 1][^1]
                        : EndsAt(Axis.At(cell, Lobatto.Points[i]), Regimes[cell]);
        }
    }

    public Data.TableRange Range { get; }

    public double CriticalPressurePa { get; }

    public double CriticalTemperatureK { get; }

    /// <summary>True where liquid and gas meet inside the tables.</summary>
    public bool HasDome { get; }

    public double LiquidMinTemperatureK { get; }

    /// <summary>Saturation pressure at the lowest temperature served.</summary>
    public double DomeStartPa { get; }

    public CellAxis Axis { get; }

    public PressureRegime[] Regimes { get; }

    /// <summary>Bounding states at the pressure points of each cell.</summary>
    public IsobarEnds[][] Ends { get; }

    public IsobarSolver Solver => _solver;

    /// <summary>How finely the isobars of a cell are graded towards the saturation line.</summary>
    public int Depth(int cell, TableInput input)
    {
        if (!HasDome)
            return 2;
        var nearest = CriticalPressurePa < Axis.LowerOf(cell) ? Axis.LowerOf(cell) : Axis.UpperOf(cell);
        var distance = Math.Clamp(Math.Abs(1 - (nearest / CriticalPressurePa)), CriticalBand, 0.5);
        // The nearest singularity of an isobar, the spinodal, draws in with the square root of the distance in h and s,
        // with its 3/2 power in T.
        var halvings = Math.Log2(1 / distance);
        return input == TableInput.Temperature
            ? (int)Math.Ceiling(2 + (1.5 * halvings))
            : (int)Math.Ceiling(1.5 + (0.5 * halvings));
    }

    private double[] Limits()
    {
        double low = Range.MinPressurePa,
            high = Range.MaxPressurePa;
        var limits = new List<double> { low, high };
        var half = HasDome ? Math.Min(0.5 * CriticalPressurePa, high) : high;
        var count = (int)Math.Ceiling(CellsPerDoubling * Math.Log2(half / low));
        for (var i = 1; i < count; i++)
            limits.Add(low * Math.Pow(half / low, (double)i / count));
        if (HasDome)
        {
            limits.Add(half);
            var halvings = (int)Math.Ceiling(CellsPerHalving * Math.Log2(0.5 / CriticalBand));
            for (var i = 0; i <= halvings; i++)
            {
                var distance = 0.5 * Math.Pow(CriticalBand / 0.5, (double)i / halvings);
                limits.Add(CriticalPressurePa * (1 - distance));
                limits.Add(CriticalPressurePa * (1 + distance));
            }

            for (
                var distance = 0.5 * Math.Sqrt(2);
                CriticalPressurePa * (1 + distance) < high;
                distance *= Math.Sqrt(2)
            )
                limits.Add(CriticalPressurePa * (1 + distance));
            limits.Add(DomeStartPa);
        }

        // A sliver of a cell serves nobody: a limit next to a fixed one (ends, dome start, critical band) is dropped.
        double[] keep =
        [
            low,
            high,
            DomeStartPa,
            CriticalPressurePa * (1 - CriticalBand),
            CriticalPressurePa * (1 + CriticalBand),
        ];
        return
        [
            .. limits
                .Where(limit => limit >= low && limit <= high)
                .Where(limit => keep.Contains(limit) || keep.All(other => Math.Abs((limit / other) - 1) > 1e-3))
                .Distinct()
                .Order(),
        ];
    }

    private PressureRegime RegimeAt(double pressurePa)
    {
        if (!HasDome || pressurePa < DomeStartPa)
            return PressureRegime.GasOnly;
        if (Math.Abs((pressurePa / CriticalPressurePa) - 1) < CriticalBand)
            return PressureRegime.Critical;
        return pressurePa < CriticalPressurePa ? PressureRegime.Subcritical : PressureRegime.Supercritical;
    }

    private IsobarEnds EndsAt(double pressurePa, PressureRegime regime)
    {
        var outer = _solver.AtTemperaturePressure(Range.MaxTemperatureK, pressurePa);
        switch (regime)
        {
            case PressureRegime.GasOnly:
                return new IsobarEnds(default, default, _solver.GasAt(Range.MinTemperatureK, pressurePa), outer);
            case PressureRegime.Subcritical:
                if (
                    !SaturationLookup.TryAtPressure(
                        _fluid.ByTemperature,
                        pressurePa,
                        out var liquid,
                        out var vapour,
                        out var residual
                    )
                )
                    throw new FlashDidNotConvergeException(
                        _fluid.Name,
                        "a table node",
                        residual,
                        "the saturation iteration did not settle"
                    );
                return new IsobarEnds(
                    _solver.AtTemperaturePressure(LiquidMinTemperatureK, pressurePa),
                    liquid,
                    vapour,
                    outer
                );
            default:
                var middle = _solver.OnCriticalIsochore(pressurePa);
                return new IsobarEnds(
                    _solver.AtTemperaturePressure(LiquidMinTemperatureK, pressurePa),
                    middle,
                    middle,
                    outer
                );
        }
    }
}
