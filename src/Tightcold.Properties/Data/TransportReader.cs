using System.Text.Json;
using Tightcold.Properties.Helmholtz;
using Tightcold.Properties.Transport;
using static Tightcold.Properties.Data.FluidFileReader;

namespace Tightcold.Properties.Data;

/// <summary>Reads the transport correlations of a fluid file; each form is named in the file.</summary>
internal sealed class TransportReader(
    JsonElement root,
    HelmholtzEquation equation,
    double molarMass,
    double gasConstant,
    double criticalTemperature,
    double criticalDensity
)
{
    public SurfaceTension? SurfaceTension() =>
        root.TryGetProperty("surface_tension", out var entry)
            ? new SurfaceTension(
                Number(entry, "critical_temperature_k"),
                Numbers(entry, "sigma_n_per_m"),
                Numbers(entry, "exponent")
            )
            : null;

    public ViscosityModel? Viscosity()
    {
        if (!root.TryGetProperty("viscosity", out var entry))
            return null;
        var form = Text(entry, "form");
        return form switch
        {
            "dilute_plus_initial_plus_residual" => ReadSum(entry),
            "residual_entropy_scaling" => ReadEntropyScaling(entry),
            "co2_2017" => ReadCarbonDioxide(entry),
            "iapws_2008" => ReadWater(entry),
            "extended_corresponding_states" => ReadCorresponding(entry),
            _ => throw new FormatException($"Fluid file: viscosity of unknown form '{form}'."),
        };
    }

    public ConductivityModel? Conductivity(ViscosityModel? viscosity)
    {
        if (!root.TryGetProperty("conductivity", out var entry) || viscosity is null)
            return null;
        var form = entry.TryGetProperty("form", out var name) ? name.GetString() : "sum";
        return form switch
        {
            "sum" => ReadSumConductivity(entry, viscosity),
            "iapws_2011" => ReadWaterConductivity(entry),
            "extended_corresponding_states" => ReadCorrespondingConductivity(entry),
            _ => throw new FormatException($"Fluid file: conductivity of unknown form '{form}'."),
        };
    }

    private static (double, double)[] Pairs(JsonElement entry, string first, string second) =>
        [.. Numbers(entry, first).Zip(Numbers(entry, second))];

    private static JsonElement Get(JsonElement entry, string name) => entry.GetProperty(name);

    private SumViscosity ReadSum(JsonElement entry)
    {
        var dilute = Get(entry, "dilute");
        var residual = Get(entry, "residual");
        var free = Get(residual, "free_volume");
        var hasInitial = entry.TryGetProperty("initial_density", out var initial);
        return new SumViscosity
        {
            MolarMassKgPerMol = molarMass,
            SigmaM = Number(entry, "lennard_jones_sigma_m"),
            EpsilonOverK = Number(entry, "lennard_jones_epsilon_over_k_k"),
            DiluteFactor = Number(dilute, "c"),
            DiluteMolarMassKgPerMol = Number(dilute, "molar_mass_kg_per_mol"),
            Collision = Pairs(dilute, "a", "t"),
            Initial = hasInitial ? Pairs(initial, "b", "t") : [],
            AvogadroPerMol = hasInitial ? Number(initial, "avogadro_per_mol") : 0,
            ResidualTemperatureK = Number(residual, "reducing_temperature_k"),
            ResidualDensityMolPerM3 = Number(residual, "reducing_density_mol_per_m3"),
            Polynomial =
            [
                .. Get(residual, "polynomial")
                    .EnumerateArray()
                    .Select(term =>
                        (
                            Number(term, "a_pa_s"),
                            Number(term, "d"),
                            Number(term, "t"),
                            Number(term, "gamma"),
                            Number(term, "l")
                        )
                    ),
            ],
            FreeVolume = [.. Numbers(free, "f_pa_s").Zip(Numbers(free, "f_d"), Numbers(free, "f_t"))],
            FreeVolumeTop = Pairs(free, "g", "h"),
            FreeVolumeBottom = Pairs(free, "p", "q"),
        };
    }

    private EntropyScalingViscosity ReadEntropyScaling(JsonElement entry) =>
        new()
        {
            MolarMassKgPerMol = molarMass,
            SigmaM = Number(entry, "lennard_jones_sigma_m"),
            EpsilonOverK = Number(entry, "lennard_jones_epsilon_over_k_k"),
            Factor = Number(entry, "c"),
            Liquid = Numbers(entry, "c_liquid"),
            Vapour = Numbers(entry, "c_vapor"),
            CriticalResidualEntropyJPerM3K = Number(entry, "rho_s_residual_critical_j_per_m3_k"),
            Crossover = Number(entry, "x_crossover"),
            Steepness = Number(entry, "crossover_steepness"),
        };

    private CarbonDioxideViscosity ReadCarbonDioxide(JsonElement entry)
    {
        var dilute = Get(entry, "dilute");
        var initial = Get(entry, "initial_density");
        var residual = Get(entry, "residual");
        return new CarbonDioxideViscosity
        {
            MolarMassKgPerMol = molarMass,
            GasConstantJPerMolK = gasConstant,
            SigmaM = Number(entry, "lennard_jones_sigma_m"),
            EpsilonOverK = Number(entry, "lennard_jones_epsilon_over_k_k"),
            Prefactor = Number(dilute, "prefactor_pa_s_per_sqrt_k"),
            A = Numbers(dilute, "a"),
            Initial = Pairs(initial, "b", "t"),
            AvogadroPerMol = Number(initial, "avogadro_per_mol"),
            C1 = Number(residual, "c1"),
            C2 = Number(residual, "c2"),
            Gamma = Number(residual, "gamma"),
            TripleTemperatureK = Number(residual, "triple_temperature_k"),
            TripleLiquidDensityKgPerM3 = Number(residual, "triple_liquid_density_kg_per_m3"),
            Scale = Number(residual, "scale"),
        };
    }

    private static CorrelationLength ReadLength(JsonElement critical) =>
        new(Number(critical, "nu"), Number(critical, "gamma"), Number(critical, "xi0_nm"), Number(critical, "gamma0"));

    private static (int, int, double)[] DoubleTerms(JsonElement entry) =>
        [
            .. Get(Get(entry, "finite_density"), "rows")
                .EnumerateArray()
                .Select(row => (row[0].GetInt32(), row[1].GetInt32(), row[2].GetDouble())),
        ];

    private ReferenceStiffness ReadReference(JsonElement entry, JsonElement critical) =>
        new(equation, Number(entry, "reducing_temperature_k") * Number(critical, "reference_temperature_ratio"));

    private WaterViscosity ReadWater(JsonElement entry)
    {
        var dilute = Get(entry, "dilute");
        var critical = Get(entry, "critical");
        return new WaterViscosity
        {
            Reference = ReadReference(entry, critical),
            TemperatureK = Number(entry, "reducing_temperature_k"),
            DensityKgPerM3 = Number(entry, "reducing_density_kg_per_m3"),
            PressurePa = Number(entry, "reducing_pressure_pa"),
            UnitPaS = Number(entry, "unit_pa_s"),
            DiluteTop = Number(dilute, "numerator"),
            DiluteBottom = Numbers(dilute, "denominator"),
            Finite = DoubleTerms(entry),
            Strength = Number(critical, "x_mu"),
            QcPerNm = 1 / Number(critical, "q_c_inverse_nm"),
            QdPerNm = 1 / Number(critical, "q_d_inverse_nm"),
            Length = ReadLength(critical),
        };
    }

    private CorrespondingViscosity ReadCorresponding(JsonElement entry)
    {
        var reference = Text(entry, "reference_fluid");
        return new CorrespondingViscosity
        {
            Reference = new Lazy<Fluid>(() => FluidCatalog.Get(reference)),
            MolarMassKgPerMol = molarMass,
            CriticalTemperatureK = criticalTemperature,
            CriticalDensityMolPerM3 = criticalDensity,
            SigmaM = Number(entry, "lennard_jones_sigma_m"),
            EpsilonOverK = Number(entry, "lennard_jones_epsilon_over_k_k"),
            PsiDensityMolPerM3 = Number(entry, "psi_reducing_density_mol_per_m3"),
            Psi = Numbers(entry, "psi"),
        };
    }

    private CriticalEnhancement ReadEnhancement(JsonElement entry)
    {
        var critical = Get(entry, "critical_enhancement");
        return new CriticalEnhancement
        {
            Reference = new ReferenceStiffness(equation, Number(critical, "reference_temperature_k")),
            BoltzmannJPerK = Number(critical, "boltzmann_j_per_k"),
            R0 = Number(critical, "r0"),
            Nu = Number(critical, "nu"),
            Gamma = Number(critical, "gamma"),
            Amplitude = Number(critical, "gamma_amplitude"),
            Zeta0M = Number(critical, "zeta0_m"),
            QdPerM = Number(critical, "q_d_per_m"),
            PressurePa = Number(critical, "reducing_pressure_pa"),
            DensityKgPerM3 = equation.ReducingDensityKgPerM3,
        };
    }

    private SumConductivity ReadSumConductivity(JsonElement entry, ViscosityModel viscosity)
    {
        var residual = Get(entry, "residual");
        var polynomial = Text(residual, "form") == "polynomial";
        return new SumConductivity
        {
            Dilute = ReadDilute(Get(entry, "dilute"), viscosity),
            ResidualTemperatureK = polynomial
                ? Number(residual, "reducing_temperature_k")
                : equation.ReducingTemperatureK,
            ResidualDensityKgPerM3 = polynomial
                ? Number(residual, "reducing_density_kg_per_m3")
                : equation.ReducingDensityKgPerM3,
            Residual =
            [
                .. Get(residual, "terms")
                    .EnumerateArray()
                    .Select(term =>
                        polynomial
                            ? (Number(term, "b_w_per_m_k"), Number(term, "t"), Number(term, "d"), 0.0, 0.0)
                            : (
                                Number(term, "a_w_per_m_k"),
                                Number(term, "t"),
                                Number(term, "d"),
                                Number(term, "gamma"),
                                Number(term, "l")
                            )
                    ),
            ],
            Critical = ReadEnhancement(entry),
        };
    }

    private Func<double, double> ReadDilute(JsonElement dilute, ViscosityModel viscosity)
    {
        var form = Text(dilute, "form");
        switch (form)
        {
            case "ratio_of_polynomials":
                var scale = Number(dilute, "reducing_temperature_k");
                var top = Pairs(dilute, "numerator_w_per_m_k", "numerator_exponent");
                var bottom = Pairs(dilute, "denominator", "denominator_exponent");
                return temperature => PowerSum(top, temperature / scale) / PowerSum(bottom, temperature / scale);
            case "viscosity_and_polynomial":
                var a = Numbers(dilute, "a_w_per_m_k");
                (double, double)[] rest = [.. a.Zip(Numbers(dilute, "t")).Skip(1)];
                return temperature =>
                    (a[0] * 1e6 * viscosity.Dilute(temperature))
                    + PowerSum(rest, equation.ReducingTemperatureK / temperature);
            case "co2_2016":
                var l = Numbers(dilute, "l");
                return temperature =>
                {
                    var tau = equation.ReducingTemperatureK / temperature;
                    return 1e-3 / (Math.Sqrt(tau) * (l[0] + (tau * (l[1] + (tau * (l[2] + (tau * l[3])))))));
                };
            default:
                throw new FormatException($"Fluid file: dilute conductivity of unknown form '{form}'.");
        }
    }

    private static double PowerSum((double C, double T)[] terms, double x)
    {
        var sum = 0.0;
        foreach (var (c, t) in terms)
            sum += c * Math.Pow(x, t);
        return sum;
    }

    private WaterConductivity ReadWaterConductivity(JsonElement entry)
    {
        var critical = Get(entry, "critical");
        return new WaterConductivity
        {
            Reference = ReadReference(entry, critical),
            TemperatureK = Number(entry, "reducing_temperature_k"),
            DensityKgPerM3 = Number(entry, "reducing_density_kg_per_m3"),
            PressurePa = Number(entry, "reducing_pressure_pa"),
            UnitWPerMK = Number(entry, "unit_w_per_m_k"),
            GasConstantJPerKgK = Number(entry, "specific_gas_constant_j_per_kg_k"),
            DiluteBottom = Numbers(Get(entry, "dilute"), "denominator"),
            Finite = DoubleTerms(entry),
            Amplitude = Number(critical, "amplitude"),
            QdPerNm = 1 / Number(critical, "q_d_inverse_nm"),
            Length = ReadLength(critical),
        };
    }

    private CorrespondingConductivity ReadCorrespondingConductivity(JsonElement entry) =>
        new()
        {
            Viscosity = ReadCorresponding(entry),
            Equation = equation,
            PsiDensityMolPerM3 = Number(entry, "psi_reducing_density_mol_per_m3"),
            Psi = Numbers(entry, "psi"),
            InternalFactor = Numbers(entry, "f_internal"),
            Critical = ReadEnhancement(entry),
        };
}
