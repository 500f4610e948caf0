using System.Globalization;
using System.Runtime.CompilerServices;
using Tightcold.Numerics;
using Tightcold.Properties.Data;
using Tightcold.Properties.Flashes;
using Tightcold.Properties.Helmholtz;
using Tightcold.Properties.Saturation;

namespace Tightcold.Properties;

/// <summary>
/// A pure fluid by its reference equation of state. Immutable and thread-safe. All quantities SI, per kilogram,
/// pressures absolute. Every method refuses what lies outside the equation's range with
/// <see cref="FluidRangeException"/> and says so with <see cref="FlashDidNotConvergeException"/> where an iteration
/// fails; none returns a number that is not one.
/// </summary>
public sealed class Fluid
{
    private readonly FluidDefinition _definition;
    private readonly SaturationCurve? _saturation;
    private readonly TemperatureFlash _byTemperature;
    private readonly PressureFlash _byPressure;
    private readonly DensityEnergyFlash _byEnergy;
    private readonly Lazy<FastFluid> _fast;

    internal Fluid(FluidDefinition definition)
    {
        _definition = definition;
        _saturation = definition.IsPseudoPure ? null : new SaturationCurve(definition);
        _byTemperature = new TemperatureFlash(definition, _saturation);
        _byPressure = new PressureFlash(_byTemperature);
        _byEnergy = new DensityEnergyFlash(_byTemperature);
        _fast = new Lazy<FastFluid>(() => new FastFluid(this));
    }

    /// <summary>Name as in <see cref="FluidCatalog.Names"/>, for example "R134a".</summary>
    public string Name => _definition.Name;

    /// <summary>Name as people write it, for example "R-134a".</summary>
    public string DisplayName => _definition.DisplayName;

    /// <summary>Chemical name.</summary>
    public string ChemicalName => _definition.ChemicalName;

    /// <summary>Key of the equation of state in docs/sources.bib: the fluid's name alone does not name the
    /// equation.</summary>
    public string EquationKey => _definition.EquationKey;

    /// <summary>The convention that fixes the zero of enthalpy and entropy.</summary>
    public string ReferenceState => _definition.ReferenceState;

    /// <summary>The papers behind this fluid's data.</summary>
    public IReadOnlyList<SourceReference> Sources => _definition.Sources;

    public double MolarMassKgPerMol => _definition.MolarMassKgPerMol;

    /// <summary>The gas constant the equation was fitted with, J/(mol K).</summary>
    public double GasConstantJPerMolK => _definition.GasConstantJPerMolK;

    /// <summary>Critical temperature of the equation itself, where its saturation line ends, K.</summary>
    public double CriticalTemperatureK => _byTemperature.Critical.TemperatureK;

    /// <summary>Critical pressure of the equation itself, Pa.</summary>
    public double CriticalPressurePa => _byTemperature.Critical.PressurePa;

    /// <summary>Critical density of the equation itself, kg/m3.</summary>
    public double CriticalDensityKgPerM3 => _byTemperature.Critical.Delta * _definition.Equation.ReducingDensityKgPerM3;

    /// <summary>Lowest temperature served (the triple point; for air the point above which it is one phase),
    /// K.</summary>
    public double MinTemperatureK => _definition.MinTemperatureK;

    /// <summary>Highest temperature of the equation's range, K.</summary>
    public double MaxTemperatureK => _definition.MaxTemperatureK;

    /// <summary>Highest pressure of the equation's range, Pa.</summary>
    public double MaxPressurePa => _definition.MaxPressurePa;

    /// <summary>False for dry air, a mixture that has no single saturation line.</summary>
    public bool HasSaturation => _saturation is not null;

    /// <summary>The tabled version of this fluid, made at the first call.</summary>
    public FastFluid Fast => _fast.Value;

    internal FluidDefinition Definition => _definition;

    internal SaturationCurve? Saturation => _saturation;

    internal TemperatureFlash ByTemperature => _byTemperature;

    /// <summary>Liquid and vapour in equilibrium at a temperature, K, from the triple point to the critical
    /// point.</summary>
    public SaturationState SaturationAtTemperature(double temperatureK)
    {
        _byTemperature.SaturationOrThrow();
        _byTemperature.CheckSaturationTemperature(temperatureK);
        if (
            !SaturationLookup.TryAtTemperature(
                _byTemperature,
                temperatureK,
                out var liquid,
                out var vapour,
                out var pressure,
                out var residual
            )
        )
            throw new FlashDidNotConvergeException(
                Name,
                Inputs("temperatureK", temperatureK),
                residual,
                "the saturation iteration did not settle"
            );
        return MakeSaturation(liquid, vapour, pressure);
    }

    /// <summary>The saturation pressure alone, Pa, at a temperature, K, from the triple point to the critical point: from
    /// the series through exact points that the full solve starts from, within 5e-9 of it and many times as fast.</summary>
    /// <exception cref="FluidRangeException">Outside that range or not a number; or a fluid without a saturation
    /// line.</exception>
    public double SaturationPressurePa(double temperatureK)
    {
        var line = _byTemperature.SaturationOrThrow();
        _byTemperature.CheckSaturationTemperature(temperatureK);
        return line.PressurePa(temperatureK);
    }

    /// <summary>Liquid and vapour in equilibrium at an absolute pressure, Pa, from the triple point to the critical
    /// point.</summary>
    public SaturationState SaturationAtPressure(double pressurePa)
    {
        _byTemperature.SaturationOrThrow();
        _byTemperature.CheckSaturationPressure(pressurePa);
        if (
            !SaturationLookup.TryAtPressure(
                _byTemperature,
                pressurePa,
                out var liquid,
                out var vapour,
                out var residual
            )
        )
            throw new FlashDidNotConvergeException(
                Name,
                Inputs("pressurePa", pressurePa),
                residual,
                "the saturation iteration did not settle"
            );
        return MakeSaturation(liquid, vapour, pressurePa);
    }

    /// <summary>State at temperature and pressure. Exactly on the saturation line the pair names no single state; the
    /// liquid is then returned.</summary>
    public FluidState AtTemperaturePressure(double temperatureK, double pressurePa) =>
        Unwrap(
            _byTemperature.AtTemperaturePressure(temperatureK, pressurePa),
            "temperatureK",
            temperatureK,
            "pressurePa",
            pressurePa
        );

    /// <summary>State at temperature and density.</summary>
    public FluidState AtTemperatureDensity(double temperatureK, double densityKgPerM3) =>
        Unwrap(
            _byTemperature.AtTemperatureDensity(temperatureK, densityKgPerM3),
            "temperatureK",
            temperatureK,
            "densityKgPerM3",
            densityKgPerM3
        );

    /// <summary>State at pressure and enthalpy.</summary>
    public FluidState AtPressureEnthalpy(double pressurePa, double enthalpyJPerKg) =>
        Unwrap(
            _byPressure.AtPressureCaloric(pressurePa, enthalpyJPerKg, CaloricInput.Enthalpy),
            "pressurePa",
            pressurePa,
            "enthalpyJPerKg",
            enthalpyJPerKg
        );

    /// <summary>State at pressure and entropy.</summary>
    public FluidState AtPressureEntropy(double pressurePa, double entropyJPerKgK) =>
        Unwrap(
            _byPressure.AtPressureCaloric(pressurePa, entropyJPerKgK, CaloricInput.Entropy),
            "pressurePa",
            pressurePa,
            "entropyJPerKgK",
            entropyJPerKgK
        );

    /// <summary>State on or under the dome at temperature and quality (mass of vapour over mass, 0 to 1).</summary>
    public FluidState AtTemperatureQuality(double temperatureK, double quality) =>
        Unwrap(
            _byTemperature.AtTemperatureQuality(temperatureK, quality),
            "temperatureK",
            temperatureK,
            "quality",
            quality
        );

    /// <summary>State on or under the dome at pressure and quality (mass of vapour over mass, 0 to 1).</summary>
    public FluidState AtPressureQuality(double pressurePa, double quality) =>
        Unwrap(_byPressure.AtPressureQuality(pressurePa, quality), "pressurePa", pressurePa, "quality", quality);

    /// <summary>State of a closed volume at density and internal energy.</summary>
    public FluidState AtDensityInternalEnergy(double densityKgPerM3, double internalEnergyJPerKg) =>
        Unwrap(
            _byEnergy.At(densityKgPerM3, internalEnergyJPerKg),
            "densityKgPerM3",
            densityKgPerM3,
            "internalEnergyJPerKg",
            internalEnergyJPerKg
        );

    /// <summary>As <see cref="AtPressureEnthalpy"/>, with non-convergence as a value. Range errors still
    /// throw.</summary>
    public Solved<FluidState> TryAtPressureEnthalpy(double pressurePa, double enthalpyJPerKg) =>
        AsSolved(_byPressure.AtPressureCaloric(pressurePa, enthalpyJPerKg, CaloricInput.Enthalpy));

    /// <summary>As <see cref="AtPressureEntropy"/>, with non-convergence as a value. Range errors still
    /// throw.</summary>
    public Solved<FluidState> TryAtPressureEntropy(double pressurePa, double entropyJPerKgK) =>
        AsSolved(_byPressure.AtPressureCaloric(pressurePa, entropyJPerKgK, CaloricInput.Entropy));

    /// <summary>Viscosity and thermal conductivity of a single phase at temperature and density; nulls inside the
    /// dome.</summary>
    /// <exception cref="FluidRangeException">Outside the equation's range or not a number.</exception>
    public TransportState TransportAtTemperatureDensity(double temperatureK, double densityKgPerM3)
    {
        var state = AtTemperatureDensity(temperatureK, densityKgPerM3);
        return state.Phase == FluidPhase.TwoPhase && state.Quality is > 0 and < 1
            ? default
            : TransportUnchecked(temperatureK, densityKgPerM3);
    }

    /// <summary>Viscosity and thermal conductivity of a state made by this fluid; nulls strictly inside the
    /// dome.</summary>
    public TransportState Transport(in FluidState state) =>
        state.Quality is > 0 and < 1 ? default : TransportUnchecked(state.TemperatureK, state.DensityKgPerM3);

    /// <summary>
    /// All properties at temperature and density of a phase already known, for example from the fast layer: one
    /// evaluation of the equation, without asking whether the phase is the stable one.
    /// </summary>
    /// <param name="temperatureK">Temperature, K, in the equation's range.</param>
    /// <param name="densityKgPerM3">Density, kg/m3, above zero.</param>
    /// <param name="phase">The phase to report.</param>
    /// <param name="transport">Viscosity and conductivity of the same state.</param>
    /// <exception cref="FluidRangeException">Outside that range or not a number.</exception>
    [SkipLocalsInit]
    public FluidState AtTemperatureDensityOfPhase(
        double temperatureK,
        double densityKgPerM3,
        FluidPhase phase,
        out TransportState transport
    )
    {
        _byTemperature.CheckTemperature(temperatureK);
        _byTemperature.CheckDensity(densityKgPerM3);
        Span<double> work = stackalloc double[ResidualPart.MaxWork];
        var equation = _definition.Equation;
        var point = new Isotherm(equation, temperatureK, caloric: true, work).Point(
            densityKgPerM3 / equation.ReducingDensityKgPerM3
        );
        transport = TransportOf(point);
        return StateMaker.SinglePhase(point, point.PressurePa, phase);
    }

    /// <summary>Surface tension of liquid against vapour, N/m; null where no correlation is held.</summary>
    /// <exception cref="FluidRangeException">Outside the saturation line or not a number.</exception>
    public double? SurfaceTensionNPerM(double temperatureK)
    {
        _byTemperature.SaturationOrThrow();
        _byTemperature.CheckSaturationTemperature(temperatureK);
        return _definition.SurfaceTension?.Evaluate(temperatureK);
    }

    /// <summary>Transport of a state known to be one phase.</summary>
    [SkipLocalsInit]
    internal TransportState TransportUnchecked(double temperatureK, double densityKgPerM3)
    {
        Span<double> work = stackalloc double[ResidualPart.MaxWork];
        var equation = _definition.Equation;
        var point = new Isotherm(equation, temperatureK, caloric: true, work).Point(
            densityKgPerM3 / equation.ReducingDensityKgPerM3
        );
        return TransportOf(point);
    }

    internal TransportState TransportOf(in PointProperties point)
    {
        if (_definition.Viscosity is null || !(point.Stiffness > 0))
            return default;
        var viscosity = _definition.Viscosity.Evaluate(point);
        var conductivity = _definition.Conductivity?.Evaluate(point, viscosity) ?? double.NaN;
        return new TransportState(Proper(viscosity), Proper(conductivity));
    }

    // A correlation far outside its data can lose its meaning; then it has no value here.
    private static double? Proper(double value) => value > 0 && double.IsFinite(value) ? value : null;

    private static Solved<FluidState> AsSolved(in FlashResult result) =>
        result.Found
            ? new Solved<FluidState>.Converged(result.State, result.Iterations, result.Residual)
            : new Solved<FluidState>.Stalled(result.Iterations, result.Residual, result.Reason);

    private static SaturationState MakeSaturation(
        in PointProperties liquid,
        in PointProperties vapour,
        double pressurePa
    ) =>
        new()
        {
            TemperatureK = liquid.TemperatureK,
            PressurePa = pressurePa,
            LiquidDensityKgPerM3 = liquid.DensityKgPerM3,
            VapourDensityKgPerM3 = vapour.DensityKgPerM3,
            LiquidEnthalpyJPerKg = liquid.EnthalpyJPerKg,
            VapourEnthalpyJPerKg = vapour.EnthalpyJPerKg,
            LiquidEntropyJPerKgK = liquid.EntropyJPerKgK,
            VapourEntropyJPerKgK = vapour.EntropyJPerKgK,
        };

    private static string Inputs(string name, double value) =>
        string.Create(CultureInfo.InvariantCulture, $"{name} = {value:R}");

    private FluidState Unwrap(
        in FlashResult result,
        string firstName,
        double first,
        string secondName,
        double second
    ) =>
        result.Found
            ? result.State
            : throw new FlashDidNotConvergeException(
                Name,
                $"{Inputs(firstName, first)}, {Inputs(secondName, second)}",
                result.Residual,
                result.Reason
            );
}
